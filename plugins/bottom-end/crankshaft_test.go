package bottomend

import (
	"testing"

	"github.com/fettle-tools/fettle/core"
	"github.com/stretchr/testify/require"
)

// End float .0165 in, old washers .0905 each, standard .0930, oversize .0980: one of each leaves .0065. The trade's
// worked example, common practice.
func TestThrustWashersForTheEndFloat(t *testing.T) {
	a := newBench(t).soundCrank(.0165).size("thrust-washer", "front", "thickness", "", .0905, 0).size("thrust-washer", "rear", "thickness", "", .0905, 0).assess()
	c := a.condition("crankshaft", "")
	require.Equal(t, core.PastLimit, c.Grade)
	require.Equal(t, "end-float", c.GoverningCheck)
	require.Equal(t, []string{"thrust-washers", "replace-crankshaft"}, a.open("crankshaft", ""))
	r := a.remedy("crankshaft", "", "thrust-washers")
	require.Equal(t, "Thrust washers .093 in and .098 in: end float .0065 in", r.Name)
	require.Equal(t, []core.Yield{{Key: "thrust-pair", Value: "0.093 and 0.098"}}, r.Yields)
	require.InDelta(t, .0065, a.fact("crankshaft", "", "end-float-after"), tolerance)
	for _, side := range []string{"front", "rear"} {
		require.Equal(t, []string{"new-washers"}, a.open("thrust-washer", side), "the old one does not go back")
		require.Equal(t, core.WornFit, a.condition("thrust-washer", side).Grade)
	}
}

func TestNoPairFits(t *testing.T) {
	a := newBench(t).soundCrank(.0400).size("thrust-washer", "front", "thickness", "", .0905, 0).size("thrust-washer", "rear", "thickness", "", .0905, 0).assess()
	require.Contains(t, a.remedy("crankshaft", "", "thrust-washers").Operations, "machine-thrust-face")
	require.Contains(t, a.problems(), "no pair of thrust washers to be had fits this end float")
}

func TestThrustSizesToBeHad(t *testing.T) {
	a := newBench(t).fact("thrust_sizes", core.Value{Kind: core.ValueWord, Word: ".0930, .0955, .0980"}).soundCrank(.0165).
		size("thrust-washer", "front", "thickness", "", .0905, 0).size("thrust-washer", "rear", "thickness", "", .0905, 0).assess()
	require.InDelta(t, .0065, a.fact("crankshaft", "", "end-float-after"), .0011, "nearest the middle of .0030 to .0080")
}

func TestWashersNotMeasured(t *testing.T) {
	a := newBench(t).soundCrank(.0165).assess()
	require.Contains(t, a.problems(), "the washers for this end float cannot be chosen yet")
	require.Contains(t, a.open("crankshaft", ""), "thrust-washers")
}

// A crank whose end float is out and whose crack test is still to come keeps its washers, and the test is asked for.
func TestEndFloatWaitsForTheCrackTest(t *testing.T) {
	a := newBench(t).size("crankshaft", "", "runout", "", .0018, 0).size("crankshaft", "", "end-float", "", .0165, 0).pass("crankshaft", "", "fillets", true).
		find("crankshaft", "", "crack-test", "", core.Value{Kind: core.ValueNotRead, NotRead: core.NotMeasured}).assess()
	c := a.condition("crankshaft", "")
	require.Equal(t, core.PastLimit, c.Grade)
	require.Equal(t, []string{"thrust-washers", "replace-crankshaft"}, a.open("crankshaft", ""))
	require.ElementsMatch(t, a.open("crankshaft", ""), c.States[0].Remedies)
	require.Contains(t, a.problems(), "it may condemn it: crack-test -> crack test and measure it before anything is spent on it")
}

// While runout cannot tell, washers alone would use a crank again on a doubt.
func TestEndFloatWithADoubtfulRunout(t *testing.T) {
	a := newBench(t).soundCrank(.0165).drop("crankshaft", "", "runout").size("crankshaft", "", "runout", "", .0030, .0005).assess()
	require.Equal(t, []string{"true-up", "replace-crankshaft"}, a.open("crankshaft", ""))
	require.Contains(t, a.remedy("crankshaft", "", "true-up").Operations, "thrust-washers")
}

func TestBentCrankIsTruedOrReplaced(t *testing.T) {
	a := newBench(t).size("crankshaft", "", "runout", "", .0040, 0).size("crankshaft", "", "end-float", "", .005, 0).
		pass("crankshaft", "", "crack-test", true).pass("crankshaft", "", "fillets", true).assess()
	require.Equal(t, []string{"true-up", "replace-crankshaft"}, a.open("crankshaft", ""))
	r := a.remedy("crankshaft", "", "true-up")
	require.Equal(t, []string{"crack-test", "regrind", "straighten-crankshaft"}, r.Operations)
	require.Len(t, r.Excludes, 7, "no journal stays as it is")
}

func TestBadFilletIsGroundOut(t *testing.T) {
	a := newBench(t).size("crankshaft", "", "runout", "", .0005, 0).size("crankshaft", "", "end-float", "", .005, 0).
		pass("crankshaft", "", "crack-test", true).pass("crankshaft", "", "fillets", false).assess()
	require.Equal(t, core.Failed, a.condition("crankshaft", "").Grade)
	require.Equal(t, []string{"true-up", "replace-crankshaft"}, a.open("crankshaft", ""))
}

// Rule N19: a cracked crankshaft is replaced, whatever else is wrong or right with it.
func TestCrackedCrankIsReplaced(t *testing.T) {
	for _, endFloat := range []float64{.005, .0165, .001} {
		b := newBench(t).size("crankshaft", "", "runout", "", .0040, 0).size("crankshaft", "", "end-float", "", endFloat, 0).
			pass("crankshaft", "", "crack-test", false).pass("crankshaft", "", "fillets", false)
		a := b.assess()
		c := a.condition("crankshaft", "")
		require.Equal(t, core.Failed, c.Grade)
		require.Equal(t, []string{"replace-crankshaft"}, a.open("crankshaft", ""))
		for _, s := range c.States {
			require.Equal(t, []string{"replace-crankshaft"}, s.Remedies)
		}
	}
}
