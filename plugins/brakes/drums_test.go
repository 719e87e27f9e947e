package brakes

import (
	"context"
	"testing"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
	"github.com/stretchr/testify/require"
)

// Worked example of the trade, common practice: LF 12.0310 scored .009 is turned to 12.0530, RF 12.0290 scored .013 to 12.0590,
// LR 12.0300 scored .018 would pass 12.060: the rear pair is replaced.
func TestDrumsTurnedAndReplaced(t *testing.T) {
	a := newBench(t).drum("LF", 12.0310, .009).drum("RF", 12.0290, .013).drum("LR", 12.0300, .018).drum("RR", 12.0200, .001).assess()
	for at, want := range map[string]float64{"LF": 12.0530, "RF": 12.0590, "LR": 12.0700} {
		require.InDelta(t, want, a.fact("drum", at, "cleans-up-at"), 1e-9)
	}
	require.Equal(t, []string{"turn", "replace-drum"}, a.open("drum", "LF"))
	require.Equal(t, []string{"turn", "replace-drum"}, a.open("drum", "RF"))
	require.Contains(t, a.why("drum", "RF", "turn"), "LF cleans up at 12.0530 in, RF at 12.0590 in: turned")
	require.Equal(t, []string{"replace-drum"}, a.open("drum", "LR"))
	require.Contains(t, a.why("drum", "LR", "turn"), "it cleans up at 12.0700 in, over the 12.0600 in that may be turned")
	require.NotContains(t, a.open("drum", "RR"), "turn", "its fellow takes it along")
	require.NotContains(t, a.open("drum-pair", "rear"), "cut-both")
	require.Contains(t, a.why("shoe", "LF", "reline"), "drums turned to 12.0590 in: linings 0.0295 in thicker, or shoes radiused to the drum")
	require.Equal(t, []string{"replace-drum-pair/rear"}, a.remedy("drum", "LR", "replace-drum").Operations)
	require.Equal(t, []string{"turn-drums/front"}, a.remedy("drum", "RF", "turn").Operations)
}

// A turning limit binds what comes of turning, not the drum: 12.075 in is within its discard size of 12.090 and cleans up at
// 12.079, over 12.060 (common practice, no source).
func TestTurningLimitBindsTheResult(t *testing.T) {
	a := newBench(t).drum("LF", 12.075, 0).drum("RF", 12.004, 0).assess()
	c := a.condition("drum", "LF")
	require.Equal(t, core.NearLimit.String(), c.Grade.String(), "not past its limit by being so large")
	require.Equal(t, "max-diameter", c.GoverningCheck)
	require.InDelta(t, 12.079, a.fact("drum", "LF", "cleans-up-at"), 1e-9)
	require.Equal(t, []string{"replace-drum"}, a.open("drum", "LF"))
	require.NotContains(t, a.open("drum", "RF"), "turn")
	require.NotContains(t, a.open("drum", "RF"), "reuse", "they differ by .071 in")
}

// A drum with its own cast-on or published turning size is held to that.
func TestTurningLimitOfTheJob(t *testing.T) {
	b := newBench(t).drum("LF", 12.075, 0)
	wear := 12.100
	for _, check := range []string{"diameter-after-turning", "max-diameter"} {
		low, high := 12.0, 12.005
		b.overrides = append(b.overrides, core.Override{Target: target("drum", ""), Check: check,
			Limit: core.Limit{NewLow: &low, NewHigh: &high, WearHigh: &wear, Unit: "in", Source: "cast on the drum", Confidence: "high", Origin: "job"}})
	}
	require.Equal(t, []string{"turn", "replace-drum"}, b.assess().open("drum", "LF"))
}

// Back from turning a drum is judged by what it measures: within 12.060 it is fitted as it was turned.
func TestBackFromTurning(t *testing.T) {
	back := func(in float64) answer {
		b := newBench(t).drum("LF", 12.0310, .009)
		for _, s := range []string{"T1", "T2", "T3", "T4"} {
			b.size("drum", "LF", "diameter-after-turning", s, in)
		}
		return b.assess()
	}
	require.Equal(t, []string{"turn", "replace-drum"}, back(12.0530).open("drum", "LF"))
	require.Equal(t, []string{"turn", "replace-drum"}, back(12.0600).open("drum", "LF"))
	a := back(12.0640)
	require.Equal(t, []string{"replace-drum"}, a.open("drum", "LF"))
	require.Contains(t, a.why("drum", "LF", "turn"), "back from turning at 12.0640 in")
}

// Drums of an axle that differ by over .010 in are not used again as they are, though each by itself is fit; the difference is
// worked out from their own readings (rule M15, common practice).
func TestDrumsApart(t *testing.T) {
	a := newBench(t).drum("LF", 12.004, 0).drum("RF", 12.018, 0).assess()
	c := a.condition("drum-pair", "front")
	require.Equal(t, core.PastLimit, c.Grade)
	require.InDelta(t, 1.8, *c.Wear, 1e-6)
	require.Equal(t, []string{"cut-both", "replace-pair"}, a.open("drum-pair", "front"))
	require.Equal(t, []string{"turn", "replace-drum"}, a.open("drum", "LF"))
	require.Contains(t, a.why("drum", "LF", "turn"), "both are cut to 12.0220 in")
	a = newBench(t).drum("LF", 12.004, 0).drum("RF", 12.006, 0).assess()
	require.Equal(t, core.WithinNew, a.condition("drum-pair", "front").Grade)
	require.Contains(t, a.open("drum", "LF"), "reuse")
	a = newBench(t).size("drum-pair", "rear", "difference", "left", 12.030).size("drum-pair", "rear", "difference", "right", 12.012).assess()
	require.Equal(t, core.PastLimit, a.condition("drum-pair", "rear").Grade, "two figures by themselves")
}

// The drums of an axle and what they come to against each other are of one kind (rule M15).
func TestAnAxleIsOfOneKind(t *testing.T) {
	p, err := sdk.New(Subsystem())
	require.NoError(t, err)
	sheet, _, err := p.Describe(context.Background(), nil)
	require.NoError(t, err)
	require.Equal(t, []core.Target{target("drum", "LF"), target("drum", "RF"), target("drum-pair", "front")}, sheet.Sets[0].Members)
	require.True(t, sheet.Sets[0].SameKind)
}

// A cracked drum takes its axle's other along through the set, and leaves the other axle alone: each has its own chance.
func TestDrumChancesByAxle(t *testing.T) {
	a := newBench(t).assess()
	for at, event := range map[string]string{"LF": "H32/front", "RF": "H32/front", "LR": "H32/rear", "RR": "H32/rear"} {
		c := a.condition("drum", at)
		require.Len(t, c.States, 2)
		require.Equal(t, event, c.States[1].RegisterID)
		require.InDelta(t, .15, c.States[1].Chance, 1e-9)
	}
}

// Work is paid by what it serves: two drums are half of turning four (.5 / .8 / 1 h, 80 / 140 / 240 USD), a cylinder a sixth of
// six (2 / 3 / 4 h, 180 / 300 / 600 new, 40 / 70 / 120 and 260 / 420 / 640 sleeved), an axle half of relining eight shoes.
func TestWorkByTheAxleAndThePiece(t *testing.T) {
	a := newBench(t).assess()
	sum := map[string]core.Range3{}
	out := map[string]int{}
	for _, o := range a.Operations {
		for _, kind := range []string{"turn-drums", "reline-shoes", "replace-cylinder", "sleeve-cylinder"} {
			if len(o.ID) > len(kind) && o.ID[:len(kind)+1] == kind+"/" {
				sum[kind] = sum[kind].Add(o.Hours)
				out[kind]++
			}
		}
	}
	require.Equal(t, map[string]int{"turn-drums": 2, "reline-shoes": 2, "replace-cylinder": 6, "sleeve-cylinder": 6}, out)
	for kind, want := range map[string]core.Range3{"turn-drums": {Low: .5, Likely: .8, High: 1}, "reline-shoes": {Low: 1, Likely: 1.5, High: 2},
		"replace-cylinder": {Low: 2, Likely: 3, High: 4}, "sleeve-cylinder": {Low: 2, Likely: 3, High: 4}} {
		require.InDelta(t, want.Low, sum[kind].Low, .01, kind)
		require.InDelta(t, want.Likely, sum[kind].Likely, .01, kind)
		require.InDelta(t, want.High, sum[kind].High, .01, kind)
	}
}

// The sheet's limits are those of the rules: linings by 49 CFR 570.59(c), light drums as TM 9-2320-289-34 has one of 11.150 in.
func TestLimitsAreTheRules(t *testing.T) {
	p, err := sdk.New(Subsystem())
	require.NoError(t, err)
	for _, d := range []float64{11.150, 12} {
		sheet, _, err := p.Describe(context.Background(), []core.Fact{{Name: "D", Source: "a drum", Value: core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: d, Unit: "in"}}}})
		require.NoError(t, err)
		rule := sdk.LightDrum(d)
		require.InDelta(t, rule.Discard, *sheet.Check("drum", "max-diameter").Limit.WearHigh, 1e-9)
		require.InDelta(t, rule.Turn, *sheet.Check("drum", "diameter-after-turning").Limit.WearHigh, 1e-9)
		require.InDelta(t, rule.Across, *sheet.Check("drum-pair", "difference").Limit.WearHigh, 1e-9)
		for check, kind := range map[string]sdk.Lining{"lining": sdk.RivetedLining, "lining-bonded": sdk.BondedLining} {
			m, ok := sdk.MinimumLining(kind)
			require.True(t, ok)
			require.InDelta(t, m.Inches, *sheet.Check("shoe", check).Limit.WearLow, 1e-9, check)
		}
	}
}
