package cylinders

import (
	"testing"

	"github.com/fettle-tools/fettle/core"
	"github.com/stretchr/testify/require"
)

// The examples of this file are the trade's worked ones, common practice.

func TestBlockTakesTwenty(t *testing.T) {
	a := newBench(t).worn().assess()
	for position, want := range map[string][4]float64{"1": {.0031, .0064, .0082, .0153}, "2": {.0038, .0076, .0096, .0174}, "3": {.0039, .0082, .0101, .0180}, "4": {.0035, .0071, .0088, .0163}} {
		require.InDelta(t, want[0], a.fact("bore", position, "out-of-round"), tolerance, position)
		require.InDelta(t, want[1], a.fact("bore", position, "taper"), tolerance, position)
		require.InDelta(t, want[2], a.fact("bore", position, "over-standard"), tolerance, position)
		require.InDelta(t, want[2], a.fact("bore", position, "wear"), tolerance, position)
		require.InDelta(t, want[3], a.fact("bore", position, "required"), tolerance, position)
		require.InDelta(t, .020, a.fact("bore", position, "step-alone"), tolerance, position)
	}
	require.InDelta(t, .020, a.fact("bore", "1", "step-of-block"), tolerance)
	require.Equal(t, core.PastLimit, a.condition("bore", "3").Grade)
	require.Equal(t, "over-standard", a.condition("bore", "3").GoverningCheck)
	require.Equal(t, []string{".020", ".030", ".040", ".060", "other"}, a.agreed()[1:], "and sleeves in all bores")
	reasons := a.condition("bore", "1").Reasons
	require.Contains(t, reasons[len(reasons)-1].Text, "all to +.020, by bore 3")
}

// A pit of .0060 half way down bore 3: .0072 + .0120 + .0040 = .0232, so +.030 for all; or a sleeve there, +.020 for all.
func TestPitMakesTwoOffers(t *testing.T) {
	a := newBench(t).worn().set("bore-surface", "3", "pit-depth", "", inch(.006)).size("bore-surface", "3", "pit-diameter", "", 3.3822).assess()
	require.InDelta(t, .0232, a.fact("bore", "3", "required"), tolerance)
	require.InDelta(t, .030, a.fact("bore", "3", "step-of-block"), tolerance)
	require.InDelta(t, .020, a.fact("bore", "1", "step-alone"), tolerance)
	require.Equal(t, []string{"rebore-030", "rebore-040", "rebore-060", "sleeve-020", "sleeve-all", "block-replaced"}, a.open("bore", "3"))
	require.Equal(t, []string{"rebore-020", "rebore-030", "rebore-040", "rebore-060", "sleeve-all", "block-replaced"}, a.open("bore", "1"))
	require.Equal(t, []string{"rebore", "sleeve-bore/3"}, a.remedy("bore", "3", "sleeve-020").Operations)
	require.Equal(t, "+.020 does not clean it up: .0232 in has to come out", a.closedBecause("bore", "3", "rebore-020"))
	require.Equal(t, core.PastLimit, a.condition("bore-surface", "3").Grade)
	require.Equal(t, []string{"with-bore", "another-block"}, a.open("bore-surface", "3"))
	require.Contains(t, a.open("bore-surface", "1"), "reuse")
	reasons := a.condition("bore", "3").Reasons
	require.Contains(t, reasons[len(reasons)-1].Text, "or a sleeve in bore 3 and all to +.020")
}

// A pit spoils a bore that is good in all else.
func TestPitInAGoodBore(t *testing.T) {
	b := newBench(t)
	for _, n := range []string{"1", "2", "3", "4"} {
		b.bore(n, 3.3758, 3.3757, 3.3757, 3.3756, 3.3755, 3.3755)
	}
	require.Contains(t, b.assess().open("bore", "2"), "reuse")
	a := b.set("bore-surface", "2", "pit-depth", "", inch(.004)).assess()
	require.Contains(t, a.closedBecause("bore", "2", "reuse"), "a pit of .004 in: twice its depth comes out")
	require.Equal(t, []string{"rebore-020", "rebore-030", "rebore-040", "rebore-060", "sleeve-all", "block-replaced"}, a.open("bore", "2"))
	require.Contains(t, a.open("bore", "1"), "reuse")
}

// Thinnest wall .196 leaves .181 after +.030 and .166 after +.060, both over .125; .150 leaves .120 after +.060.
func TestWalls(t *testing.T) {
	b := newBench(t).worn().set("bore-surface", "3", "pit-depth", "", inch(.006)).size("bore-surface", "3", "pit-diameter", "", 3.3822)
	require.Contains(t, b.assess().problems(), "not every wall is measured")
	for _, n := range []string{"1", "2", "3", "4"} {
		b.size("bore", n, "wall-thickness", "", .196)
	}
	a := b.assess()
	require.InDelta(t, .181, a.fact("bore", "3", "wall-after"), tolerance)
	require.Contains(t, a.open("bore", "3"), "rebore-060")
	require.NotContains(t, a.problems(), "wall")
	a = b.set("bore", "2", "wall-thickness", "", inch(.150)).assess()
	require.Equal(t, "+.060 would leave .12 in of wall, where .125 in has to stand", a.closedBecause("bore", "2", "rebore-060"))
	require.Contains(t, a.open("bore", "2"), "rebore-040")
	a = b.set("bore", "2", "wall-thickness", "", inch(.136)).assess()
	require.Equal(t, []string{"rebore-020", "sleeve-030", "sleeve-all", "block-replaced"}, a.open("bore", "2"))
}

func TestNoOrderUntilAllBoresAreRead(t *testing.T) {
	a := newBench(t).bore("1", 3.3832, 3.3801, 3.3810, 3.3790, 3.3768, 3.3764).assess()
	require.Contains(t, a.problems(), "1 of 4 read in full: no order until all are")
	require.Equal(t, core.NotSeen, a.condition("bore", "2").Grade)
	require.Contains(t, a.open("bore", "2"), "reuse", "nothing is closed on a bore that was not read")
}

func TestPistonsToBeHad(t *testing.T) {
	a := newBench(t).fact("piston_sizes", core.Value{Kind: core.ValueWord, Word: "0, .030, .060"}).worn().assess()
	require.Equal(t, "no pistons are to be had at +.020", a.closedBecause("bore", "1", "rebore-020"))
	require.InDelta(t, .030, a.fact("bore", "1", "step-of-block"), tolerance)
	require.NotContains(t, a.agreed(), ".040")
}

func TestBeyondTheLargestStep(t *testing.T) {
	b := newBench(t)
	for _, n := range []string{"1", "2", "3", "4"} {
		b.bore(n, 3.4330, 3.4300, 3.4310, 3.4290, 3.4270, 3.4265)
	}
	a := b.assess()
	require.Equal(t, []string{"sleeve-all", "block-replaced"}, a.open("bore", "1"))
	require.Contains(t, a.problems(), "more than the largest step that has pistons -> sleeves, or another block")
}

// Bores marked and measured .020 over are as new there: reuse keeps .020, and boring to .020 is no remedy. The rule for a
// crank already ground, common practice.
func TestMarkedTwentyOverIsAsNewThere(t *testing.T) {
	over := func(b *bench) *bench {
		for _, n := range []string{"1", "2", "3", "4"} {
			b.bore(n, 3.3954, 3.3953, 3.3953, 3.3952, 3.3951, 3.3950)
		}
		return b.size("piston", "1", "skirt-clearance", "bore", 3.3954).size("piston", "1", "skirt-clearance", "skirt", 3.3920)
	}
	for name, b := range map[string]*bench{
		"by a mark on one piston": over(newBench(t)).size("bore", "1", "present-oversize", "", .020),
		"by a fact of the engine": over(newBench(t)).fact("bore_oversize", inch(.020)),
	} {
		t.Run(name, func(t *testing.T) {
			a := b.assess()
			for _, n := range []string{"1", "2", "3", "4"} {
				require.Equal(t, core.WithinNew, a.condition("bore", n).Grade, "%v", a.condition("bore", n).Reasons)
				require.Contains(t, a.open("bore", n), "reuse")
				require.Equal(t, []core.Yield{{Key: key, Value: ".020"}}, a.remedy("bore", n, "reuse").Yields)
				require.Equal(t, "the bores stand at +.020 already", a.closedBecause("bore", n, "rebore-020"))
				require.Equal(t, core.Yield{Key: key, Value: ".020"}, a.remedy("piston", n, "new-set").Yields[0])
			}
			require.Equal(t, []string{".020", ".030", ".040", ".060", "other"}, a.agreed())
			require.Empty(t, a.problems())
		})
	}
	a := over(newBench(t)).assess()
	require.Equal(t, core.PastLimit, a.condition("bore", "1").Grade)
	require.Contains(t, a.problems(), "every bore reads as +.020, but there is no mark")
	a = newBench(t).worn().size("bore", "1", "present-oversize", "", .030).assess()
	require.Contains(t, a.problems(), "marked +.030, but bore 1 reads 3.3764: not that size")
}
