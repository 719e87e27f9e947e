package brakes

import (
	"context"
	"testing"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
	"github.com/stretchr/testify/require"
)

// What is never used again, in no state: rules N06 to N10 (sources stand beside them in the sheet).
func TestNeverReused(t *testing.T) {
	for _, c := range []struct {
		name           string
		find           func(b *bench) *bench
		part, position string
		open           []string
	}{
		{"N07 corroded pipe", func(b *bench) *bench { return b.class("brake-pipe", "bridge", "corrosion", 1) }, "brake-pipe", "bridge", []string{"replace-run", "replace-set"}},
		{"N07 joint in a pipe", func(b *bench) *bench { return b.pass("brake-pipe", "master", "joints", false) }, "brake-pipe", "master", []string{"replace-run", "replace-set"}},
		{"N08 cracked drum", func(b *bench) *bench { return b.count("drum", "LF", "cracks", 1) }, "drum", "LF", []string{"replace-drum"}},
		{"N08 over its discard size", func(b *bench) *bench { return b.drum("LF", 12.095, 0) }, "drum", "LF", []string{"replace-drum"}},
		{"N08 would pass its turning limit", func(b *bench) *bench { return b.drum("LF", 12.075, 0) }, "drum", "LF", []string{"replace-drum"}},
		{"N08 came back too large", func(b *bench) *bench {
			return b.drum("LF", 12.03, .01).size("drum", "LF", "diameter-after-turning", "", 12.065)
		}, "drum", "LF", []string{"replace-drum"}},
		{"N08 heat checks", func(b *bench) *bench { return b.class("drum", "RR", "heat", 2) }, "drum", "RR", []string{"replace-drum"}},
		{"N08 cracked transmission drum", func(b *bench) *bench { return b.count("transmission-drum", "", "cracks", 1) }, "transmission-drum", "", []string{"replace-drum"}},
		{"N08 transmission drum too large", func(b *bench) *bench { return b.size("transmission-drum", "", "max-diameter", "A", 8.07) }, "transmission-drum", "", []string{"replace-drum"}},
		{"N09 pitted", func(b *bench) *bench { return b.cylinder("LF-upper", .002, 1) }, "front-cylinder", "LF-upper", []string{"sleeve", "replace-cylinder"}},
		{"N09 loose", func(b *bench) *bench { return b.cylinder("LF-upper", .0035, 0) }, "front-cylinder", "LF-upper", []string{"sleeve", "replace-cylinder"}},
		{"N09 rear pitted", func(b *bench) *bench {
			return b.class("rear-cylinder", "LR", "pits", 2).size("rear-cylinder", "LR", "clearance", "", .002).pass("rear-cylinder", "LR", "size", true)
		}, "rear-cylinder", "LR", []string{"sleeve", "replace-cylinder"}},
		{"N09 master pitted", func(b *bench) *bench { return b.class("master-cylinder", "", "pits", 1) }, "master-cylinder", "", []string{"sleeve", "replace-master"}},
		{"wrong size", func(b *bench) *bench {
			return b.size("front-cylinder", "RF-lower", "clearance", "", .002).class("front-cylinder", "RF-lower", "pits", 0).pass("front-cylinder", "RF-lower", "size", false)
		}, "front-cylinder", "RF-lower", []string{"replace-cylinder"}},
		{"N10 oil", func(b *bench) *bench { return b.worn("LF", "dry") }, "shoe", "LF", []string{"reline", "replace-shoes"}},
		{"N10 thin", func(b *bench) *bench { return b.shoes("LF", .02) }, "shoe", "LF", []string{"reline", "replace-shoes"}},
		{"N10 cracked", func(b *bench) *bench { return b.worn("LF", "whole") }, "shoe", "LF", []string{"reline", "replace-shoes"}},
		{"N10 transmission lining cracked", func(b *bench) *bench { return b.pass("transmission-shoe", "", "whole", false) }, "transmission-shoe", "", []string{"reline"}},
		{"N10 oil on the transmission brake", func(b *bench) *bench { return b.pass("transmission-shoe", "", "dry", false) }, "transmission-shoe", "", []string{"reline"}},
		{"N06 old hose", func(b *bench) *bench { return b.pass("hose", "1", "condition", true) }, "hose", "1", []string{"new"}},
		{"fluid", func(b *bench) *bench { return b.pass("brake-fluid", "", "condition", true) }, "brake-fluid", "", []string{"new"}},
		{"split pins", func(b *bench) *bench { return b }, "split-pin", "", []string{"new"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			a := c.find(newBench(t)).assess()
			require.Equal(t, c.open, a.open(c.part, c.position))
			require.NotContains(t, a.ever(c.part, c.position), "reuse")
		})
	}
}

// A lining at half its wear is near its limit: safety-critical, relined, not used again (common practice, no source).
func TestLiningUnderHalfIsRelined(t *testing.T) {
	a := newBench(t).shoes("LF", .06).assess()
	require.Equal(t, core.NearLimit, a.condition("shoe", "LF").Grade)
	require.Equal(t, []string{"reline", "replace-shoes"}, a.open("shoe", "LF"))
	require.Contains(t, newBench(t).shoes("LF", .10).assess().open("shoe", "LF"), "reuse")
}

// Shoes whose tables are twisted are not relined, whatever their linings are; others are, seen or not.
func TestTwistedShoesAreNotRelined(t *testing.T) {
	a := newBench(t).class("shoe", "LF", "table", 2).assess()
	require.Equal(t, []string{"replace-shoes"}, a.open("shoe", "LF"))
	require.Equal(t, []string{"replace-shoes"}, a.ever("shoe", "LF"))
	require.Contains(t, a.ever("shoe", "RF"), "reline")
}

// A bonded lining is judged by 1/16 in where a riveted one is by 1/32 (49 CFR 570.59(c)), and leaves nothing unread.
func TestBondedLining(t *testing.T) {
	read := func(lining float64) answer {
		b := newBench(t).soundShoes("RR")
		for _, s := range []string{"leading", "trailing"} {
			b.size("shoe", "RR", "lining-bonded", s, lining)
		}
		return b.assess()
	}
	require.Equal(t, core.WornFit.String(), read(.11).condition("shoe", "RR").Grade.String())
	require.Equal(t, core.Failed.String(), read(.05).condition("shoe", "RR").Grade.String())
	require.Equal(t, core.NearLimit.String(), newBench(t).shoes("RR", .05).assess().condition("shoe", "RR").Grade.String())
	half := newBench(t).soundShoes("RR").size("shoe", "RR", "lining-bonded", "leading", .11).assess()
	require.Equal(t, core.NotSeen, half.condition("shoe", "RR").Grade, "one shoe of two")
}

// One bad run is made new; two are the full set (rule N07).
func TestTwoBadRunsAreTheFullSet(t *testing.T) {
	a := newBench(t).class("brake-pipe", "bridge", "corrosion", 1).class("brake-pipe", "master", "corrosion", 0).pass("brake-pipe", "master", "joints", true).assess()
	require.Equal(t, []string{"replace-run", "replace-set"}, a.open("brake-pipe", "bridge"))
	require.Equal(t, []string{"reuse", "replace-run", "replace-set"}, a.open("brake-pipe", "master"))
	a = newBench(t).class("brake-pipe", "bridge", "corrosion", 1).class("brake-pipe", "rear-LR", "corrosion", 2).
		class("brake-pipe", "master", "corrosion", 0).pass("brake-pipe", "master", "joints", true).assess()
	for _, run := range []string{"bridge", "rear-LR", "master", "along-frame"} {
		require.Equal(t, []string{"replace-set"}, a.open("brake-pipe", run), run)
		require.NotContains(t, a.ever("brake-pipe", run), "reuse")
	}
	require.Contains(t, a.why("brake-pipe", "master", "reuse"), "2 runs are bad (bridge, rear-LR)")
}

// Every job that opens a wheel of these brakes carries the final check: it is the fluid's, which is always new.
func TestFinalCheckIsAlwaysThere(t *testing.T) {
	a := newBench(t).assess()
	require.Equal(t, []string{"final-check"}, a.remedy("brake-fluid", "", "new").Operations)
	p, err := sdk.New(Subsystem())
	require.NoError(t, err)
	sheet, _, err := p.Describe(context.Background(), nil)
	require.NoError(t, err)
	require.Equal(t, []string{"wheels-off"}, sheet.Part("brake-fluid").Reach)
}

// A pedal is adjusted where it has too much or too little free play; a worn reserve is adjusted and bled.
func TestPedal(t *testing.T) {
	reserve := func(b *bench, percent float64) *bench {
		return b.find("brake-pedal", "", "reserve", "", core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: percent, Unit: "%"}})
	}
	a := reserve(newBench(t).size("brake-pedal", "", "free-play", "", .2), 40).assess()
	require.Equal(t, core.TooTight, a.condition("brake-pedal", "").Grade, "beyond new on the side that does not wear")
	require.Equal(t, []string{"adjust", "overhaul"}, a.open("brake-pedal", ""))
	a = reserve(newBench(t).size("brake-pedal", "", "free-play", "", .05), 15).assess()
	require.Equal(t, core.PastLimit, a.condition("brake-pedal", "").Grade)
	a = newBench(t).size("brake-system", "", "pedal-drop", "", .25).assess()
	require.Equal(t, []string{"make-tight"}, a.open("brake-system", ""))
}
