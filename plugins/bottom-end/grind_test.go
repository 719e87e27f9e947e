package bottomend

import (
	"testing"

	"github.com/fettle-tools/fettle/core"
	"github.com/stretchr/testify/require"
)

// The examples of this file are the trade's worked ones, common practice; that all of a group are ground if one is:
// TM 5-3805-262-34. Sums to .00005 in.
const tolerance = .00005

var mains, pins = groups[0], groups[1]

func (b *bench) mains() *bench {
	return b.journal("main-journal", "M1", 2.4978, 2.4985, 2.4976, 2.4984).
		journal("main-journal", "M2", 2.4950, 2.4968, 2.4946, 2.4966).
		journal("main-journal", "M3", 2.4972, 2.4981, 2.4969, 2.4980)
}

func (b *bench) pins() *bench {
	return b.journal("crankpin", "P1", 1.9962, 1.9979, 1.9960, 1.9978).
		journal("crankpin", "P2", 1.9941, 1.9968, 1.9936, 1.9966).
		journal("crankpin", "P3", 1.9958, 1.9976, 1.9955, 1.9975).
		journal("crankpin", "P4", 1.9890, 1.9898, 1.9888, 1.9897)
}

func TestMainsTakeTen(t *testing.T) {
	a := newBench(t).mains().assess()
	for _, c := range []struct {
		position                   string
		wear, oor, taper, required float64
	}{{"M1", .0024, .0008, .0002, .0052}, {"M2", .0054, .0020, .0004, .0094}, {"M3", .0031, .0011, .0003, .0062}} {
		require.InDelta(t, c.wear, a.fact("main-journal", c.position, "wear"), tolerance)
		require.InDelta(t, c.oor, a.fact("main-journal", c.position, "out-of-round"), tolerance)
		require.InDelta(t, c.taper, a.fact("main-journal", c.position, "taper"), tolerance)
		require.InDelta(t, c.required, a.fact("main-journal", c.position, "required"), tolerance)
		require.InDelta(t, .010, a.fact("main-journal", c.position, "step-alone"), tolerance)
		require.InDelta(t, .010, a.fact("main-journal", c.position, "step-of-group"), tolerance)
	}
	require.Equal(t, ".010", a.agreed(mains, "M1", "M2", "M3"))
	require.Contains(t, a.problems(), "mains: close: only .0006 in to spare at -.010 -> ask the grinder before buying shells")
	reasons := a.condition("main-journal", "M1").Reasons
	require.Contains(t, reasons[len(reasons)-1].Text, "all to -.010, by M2")
	require.Contains(t, reasons[len(reasons)-1].Text, "without M2, M3 would still need -.010")
}

func TestTwinTakesTwenty(t *testing.T) {
	a := newBench(t).journal("main-journal", "M1", 2.4978, 2.4985, 2.4976, 2.4984).
		journal("main-journal", "M2", 2.4942, 2.4966, 2.4938, 2.4962).
		journal("main-journal", "M3", 2.4972, 2.4981, 2.4969, 2.4980).assess()
	require.InDelta(t, .0106, a.fact("main-journal", "M2", "required"), tolerance)
	require.NotContains(t, a.open("main-journal", "M2"), "regrind-010")
	require.Contains(t, a.open("main-journal", "M1"), "regrind-010", "alone it would do; the group does not agree")
	require.Equal(t, ".020", a.agreed(mains, "M1", "M2", "M3"))
	require.Contains(t, a.closedBecause("main-journal", "M2", "regrind-010"), "-.010 does not clean it up: .0106 in has to come off")
}

func TestPinsTakeTwentyByTheOddOne(t *testing.T) {
	a := newBench(t).pins().assess()
	for position, want := range map[string][2]float64{"P1": {.0078, .010}, "P2": {.0114, .020}, "P3": {.0085, .010}, "P4": {.0141, .020}} {
		require.InDelta(t, want[0], a.fact("crankpin", position, "required"), tolerance, position)
		require.InDelta(t, want[1], a.fact("crankpin", position, "step-alone"), tolerance, position)
	}
	require.Equal(t, ".020", a.agreed(pins, "P1", "P2", "P3", "P4"))
	require.Contains(t, a.problems(), "pins: P4 reads as ground before, the others do not: a mismatched set -> check the stamps on the shells")
	reasons := a.condition("crankpin", "P1").Reasons
	require.Contains(t, reasons[len(reasons)-1].Text, "all to -.020, by P4")
	require.Contains(t, reasons[len(reasons)-1].Text, "without P4, P2 would still need -.020")
}

func TestMainsAndPinsMayDiffer(t *testing.T) {
	a := newBench(t).mains().pins().assess()
	require.Equal(t, ".010", a.agreed(mains, "M1", "M2", "M3"))
	require.Equal(t, ".020", a.agreed(pins, "P1", "P2", "P3", "P4"))
}

func TestPartlyReadGroup(t *testing.T) {
	a := newBench(t).journal("crankpin", "P1", 1.9962, 1.9979, 1.9960, 1.9978).journal("crankpin", "P3", 1.9958, 1.9976, 1.9955, 1.9975).assess()
	require.Contains(t, a.problems(), "pins: 2 of 4 journals read in full: no order until all are")
	require.Equal(t, core.NotSeen, a.condition("crankpin", "P2").Grade)
	require.Contains(t, a.open("crankpin", "P2"), "regrind-040", "nothing is closed on a journal that was not read")
}

func TestScoreSetsTheStep(t *testing.T) {
	b := newBench(t).mains()
	for i := range b.findings {
		if f := &b.findings[i]; f.Target.Position == "M1" && f.Check == "score-depth" {
			f.Value.Quantity.Value = .005
		}
	}
	// M1: the score is deeper than the wear beside it: 2.5000 - 2.4976 + 2 x .005 + .0020 = .0144.
	a := b.assess()
	require.InDelta(t, .0144, a.fact("main-journal", "M1", "required"), tolerance)
	require.Equal(t, ".020", a.agreed(mains, "M1", "M2", "M3"))
}

func TestStepWithoutShellsIsSkipped(t *testing.T) {
	a := newBench(t).fact("main_shells", core.Value{Kind: core.ValueWord, Word: "0 .020 .030"}).mains().assess()
	require.Equal(t, ".020", a.agreed(mains, "M1", "M2", "M3"))
	require.Equal(t, "no shells are to be had at -.010", a.closedBecause("main-journal", "M1", "regrind-010"))
}

func TestBeyondTheLargestStep(t *testing.T) {
	a := newBench(t).mains().journal("main-journal", "M2", 2.4600, 2.4620, 2.4595, 2.4615).assess()
	require.Equal(t, []string{"weld-and-grind", "crank-replaced"}, a.open("main-journal", "M2"))
	require.Equal(t, "welded", a.agreed(mains, "M1", "M2", "M3"))
	require.Contains(t, a.problems(), "more than the largest step -> weld and grind, or another crankshaft")
	require.Contains(t, a.condition("main-journal", "M2").States[0].Remedies, "weld-and-grind")
}

// Nothing is said of grinding while every journal may be used again.
func TestSoundMainsSayNothing(t *testing.T) {
	b := newBench(t)
	for _, m := range []string{"M1", "M2", "M3"} {
		b.journal("main-journal", m, 2.4998, 2.4999, 2.4998, 2.4999).pass("main-journal", m, "heat-colour", true)
	}
	a := b.assess()
	require.Equal(t, core.WithinNew, a.condition("main-journal", "M1").Grade)
	require.Equal(t, "0", a.agreed(mains, "M1", "M2", "M3"))
	require.Empty(t, a.problems())
}

// A reground main: shell bore 2.4920 by bore gauge (+/- .0002), journal 2.4897 by micrometer (+/- .0001): clearance .0023
// +/- .00022, within .0015 to .0030. Worked example, common practice; uncertainty by root sum of squares (JCGM 100).
func TestClearanceOfTwoMates(t *testing.T) {
	a := newBench(t).size("main-bearing", "M2", "oil-clearance", "bore", 2.4920, .0002).size("main-bearing", "M2", "oil-clearance", "journal", 2.4897, micrometer).assess()
	c := a.condition("main-bearing", "M2")
	require.Equal(t, core.WithinNew, c.Grade)
	require.InDelta(t, .0023, a.fact("main-bearing", "M2", "oil-clearance"), tolerance)
	require.InDelta(t, .00022, c.Facts[0].Value.Quantity.Bound, .00001)
}
