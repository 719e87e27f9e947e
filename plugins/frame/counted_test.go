package frame

import (
	"fmt"
	"testing"

	"github.com/fettle-tools/fettle/core"
	"github.com/stretchr/testify/require"
)

// Nobody has looked: three patches on the mean are held back, once for outriggers, rails and the rest together. A patch
// is 1/1.5/3 h, 10/20/40 USD and 0/60/140 USD out (common practice).
func TestPatchesToBeFound(t *testing.T) {
	a := assess(t, .375)
	for _, p := range [][2]string{{"outrigger", "L1"}, {"outrigger", "R4"}, {"side-rail", "RH"}, {"frame-perforations", ""}} {
		o := operationOf(t, a, p[0], p[1], "let-in")
		require.Equal(t, "let-in-plates-to-be-found", o.ID)
		require.Equal(t, core.Range3{Low: 3, Likely: 4.5, High: 9}, o.Hours)
		require.Equal(t, 3.0, o.Items[0].Count)
		require.Equal(t, core.Money3{Low: "0", Likely: "180", High: "420", Currency: "USD"}, o.Outwork)
	}
}

// What was found is paid by its number: one patch an outrigger, one a thin place, one a hole; each its own.
func TestPatchesFound(t *testing.T) {
	a := assess(t, .375, found("outrigger", "L1", "corrosion", "", class(2)), found("outrigger", "L2", "corrosion", "", class(2)),
		found("frame-perforations", "", "perforations", "", count(5)),
		found("side-rail", "LH", "wall-thickness", "S3", inches(.081)), found("side-rail", "LH", "wall-thickness", "S4", inches(.088)),
		found("side-rail", "LH", "wall-thickness", "S5", inches(.101)))
	require.Equal(t, 1.5, operationOf(t, a, "outrigger", "L1", "let-in").Hours.Likely)
	require.NotEqual(t, operationOf(t, a, "outrigger", "L1", "let-in").ID, operationOf(t, a, "outrigger", "L2", "let-in").ID)
	require.Equal(t, 7.5, operationOf(t, a, "frame-perforations", "", "let-in").Hours.Likely)
	require.Equal(t, 3.0, operationOf(t, a, "side-rail", "LH", "let-in").Hours.Likely, "the place near its limit is patched with the one past it")
	require.Equal(t, "let-in-plates-to-be-found", operationOf(t, a, "outrigger", "L3", "let-in").ID, "nobody looked at it")
}

// An outrigger nobody saw is no dearer to renew than to patch: three are held back for all of them. One that was seen, or
// is not there, is its own.
func TestOutriggers(t *testing.T) {
	a := assess(t, .375, found("outrigger", "L1", "corrosion", "", class(3)), found("outrigger", "L2", "corrosion", "", missing()))
	require.Equal(t, []string{"replace-outrigger/L1"}, remedy(t, a, "outrigger", "L1", "new-outrigger").Operations)
	require.Equal(t, []string{"replace-outrigger/L2"}, remedy(t, a, "outrigger", "L2", "new-outrigger").Operations)
	require.Equal(t, 6.0, operationOf(t, a, "outrigger", "R1", "new-outrigger").Hours.Likely)
	require.Equal(t, operationOf(t, a, "outrigger", "R1", "new-outrigger").ID, operationOf(t, a, "outrigger", "R4", "new-outrigger").ID)
}

// One hanger set anew from the datum takes its fellow across the frame with it.
func TestHangerPairs(t *testing.T) {
	a := assess(t, .375)
	place := map[string]string{}
	for _, id := range []string{"reuse", "bush-hole", "refit", "new-hanger"} {
		y := remedy(t, a, "shackle-hanger", "RR", id).Yields
		require.Len(t, y, 1)
		place[id] = y[0].Value
	}
	require.Equal(t, map[string]string{"reuse": "as built", "bush-hole": "as built", "refit": "from the datum", "new-hanger": "from the datum"}, place)
}

func TestCracksRivetsHoles(t *testing.T) {
	a := assess(t, .375, found("frame-cracks", "", "cracks", "", count(2)), found("frame-rivets", "", "loose-rivets", "", count(7)),
		found("flange-holes", "", "added-holes", "", count(4)))
	require.Equal(t, 2.0, operationOf(t, a, "frame-cracks", "", "weld").Hours.Likely)
	require.InDelta(t, 1.75, operationOf(t, a, "frame-rivets", "", "re-rivet").Hours.Likely, 1e-12)
	require.Equal(t, 7.0, operationOf(t, a, "frame-rivets", "", "fitted-bolts").Items[0].Count)
	require.InDelta(t, 1.2, operationOf(t, a, "flange-holes", "", "weld-up").Hours.Likely, 1e-12)
	a = assess(t, .375)
	require.Equal(t, 2.0, operationOf(t, a, "frame-cracks", "", "weld").Hours.Likely, "two, where nobody counted")
}

// A rail under .65 of its thickness is not patched: its length is renewed. .65 x .104 in is .0676 in (computed).
func TestRailTooThinForAPatch(t *testing.T) {
	for thickness, want := range map[float64][]string{.0675: {"section", "replacement-frame"}, .0677: {"let-in", "section", "replacement-frame"}} {
		var fs []core.Finding
		for i := 1; i <= 12; i++ {
			fs = append(fs, found("side-rail", "RH", "wall-thickness", fmt.Sprint("S", i), inches(.1)))
		}
		fs[8].Value = inches(thickness)
		a := assess(t, .375, fs...)
		now, ever := open(t, a, "side-rail", "RH")
		require.Equal(t, want, now, "%g in", thickness)
		require.Equal(t, want, ever)
	}
	a := assess(t, .375, found("side-rail", "RH", "wall-thickness", "S9", inches(.05)))
	require.Contains(t, remedy(t, a, "side-rail", "RH", "let-in").Why[len(remedy(t, a, "side-rail", "RH", "let-in").Why)-1].Text, "at S9 is under 65 per cent")
}

func fact(c core.Condition, name string) (core.Fact, bool) {
	for _, f := range c.Facts {
		if f.Name == name {
			return f, true
		}
	}
	return core.Fact{}, false
}

// Six string readings of a frame whose right rear corner has dropped .3 in: twist .3 in, and the plane through all of
// them names the corner (computed: 5/12 of the drop).
func TestTheCornerThatIsOut(t *testing.T) {
	var fs []core.Finding
	for _, s := range []string{"LF", "LM", "LR", "RF", "RM"} {
		fs = append(fs, found("frame-twist", "", "twist", s, inches(2)))
	}
	fs = append(fs, found("frame-twist", "", "twist", "RR", inches(2.3)))
	c := condition(t, assess(t, .375, fs...), "frame-twist", "")
	require.Equal(t, core.PastLimit, c.Grade)
	twist, ok := fact(c, "twist")
	require.True(t, ok)
	require.InDelta(t, .3, twist.Value.Quantity.Value, 1e-9)
	off, ok := fact(c, "off-the-best-plane-at-RR")
	require.True(t, ok)
	require.InDelta(t, -.125, off.Value.Quantity.Value, 1e-9)
	c = condition(t, assess(t, .375, fs[:3]...), "frame-twist", "")
	require.Empty(t, c.Facts, "three points of one rail tell nothing")
}

// A number that does not read stops the work; nothing of the frame is condemned by it.
func TestNumberStopsTheWork(t *testing.T) {
	a := assess(t, .375, found("number-stamp", "", "legible", "", passes(false)))
	require.Len(t, a.Problems, 1)
	require.Contains(t, a.Problems[0].Summary, "stop work")
	now, _ := open(t, a, "number-stamp", "")
	require.Equal(t, []string{"ask-owner-and-authority"}, now)
	require.Empty(t, assess(t, .375, found("number-stamp", "", "legible", "", passes(true))).Problems)
}

// A fitted bolt for a loose rivet of 3/8 in: SAE J429 grade 5, .0878 in2 by 85 ksi is 7,463 lbf; three quarters of it
// dry draw up at 35 lbf-ft (computed). For a 7/16 rivet the head and the nut take two spanners (ASME B18.2.1, B18.2.2).
func TestFittedBolt(t *testing.T) {
	loose := found("frame-rivets", "", "loose-rivets", "", count(3))
	f, ok := fact(condition(t, assess(t, .375, loose), "frame-rivets", ""), "fitted-bolt")
	require.True(t, ok)
	require.Equal(t, "3/8-24 grade 5, bears 7463 lbf, 35 lbf-ft dry, 9/16 in spanner", f.Value.Word)
	f, ok = fact(condition(t, assess(t, .4375, loose), "frame-rivets", ""), "fitted-bolt")
	require.True(t, ok)
	require.Contains(t, f.Value.Word, "5/8 in spanner on the head, 11/16 in on the nut")
	_, ok = fact(condition(t, assess(t, .375), "frame-rivets", ""), "fitted-bolt")
	require.False(t, ok)
}

// Rust over 22 % of a painted rail is degree Ri 5, over .4 % Ri 2 (ISO 4628-3, from memory): told, and condemning nothing.
func TestDegreeOfRusting(t *testing.T) {
	for percent, want := range map[float64]string{22: "Ri 5", .4: "Ri 2"} {
		v := core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: percent, Unit: "%"}}
		a := assess(t, .375, found("frame-coat", "", "rusted-area", "", v))
		f, ok := fact(condition(t, a, "frame-coat", ""), "degree-of-rusting")
		require.True(t, ok)
		require.Equal(t, want, f.Value.Word)
		now, _ := open(t, a, "frame-coat", "")
		require.Equal(t, []string{"new"}, now)
	}
}
