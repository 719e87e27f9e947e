package sdk

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// journal has two planes in the order FV, FH, RV, RH.
func journal(position string, fv, fh, rv, rh float64) Journal {
	return Journal{Position: position, Planes: []Plane{{&fv, &fh}, {&rv, &rh}}}
}

func mains() []Journal {
	return []Journal{
		journal("M1", 2.4978, 2.4985, 2.4976, 2.4984),
		journal("M2", 2.4950, 2.4968, 2.4946, 2.4966),
		journal("M3", 2.4972, 2.4981, 2.4969, 2.4980),
	}
}

func pins() []Journal {
	return []Journal{
		journal("P1", 1.9962, 1.9979, 1.9960, 1.9978),
		journal("P2", 1.9941, 1.9968, 1.9936, 1.9966),
		journal("P3", 1.9958, 1.9976, 1.9955, 1.9975),
		journal("P4", 1.9890, 1.9898, 1.9888, 1.9897),
	}
}

const tol = 5e-5 // of sizes in inches

// Worked example of the trade, common practice: three mains of 2.5000 in.
func TestGrindMains(t *testing.T) {
	g := MainsRule(2.5).Group(mains())
	for i, want := range []struct{ min, oor, taper, wear, req float64 }{
		{2.4976, .0008, .0002, .0024, .0052},
		{2.4946, .0020, .0004, .0054, .0094},
		{2.4969, .0011, .0003, .0031, .0062},
	} {
		j := g.Journals[i]
		require.InDelta(t, want.min, j.Min, tol)
		require.InDelta(t, want.oor, j.OutOfRound, tol)
		require.InDelta(t, want.taper, j.Taper, tol)
		require.InDelta(t, want.wear, j.Wear, tol)
		require.InDelta(t, want.req, j.Required, tol)
		require.Equal(t, .010, j.Alone)
	}
	require.Equal(t, .010, g.Step)
	require.Equal(t, "M2", g.Driver)
	require.Equal(t, "M3", g.NextDriver)
	require.InDelta(t, .0006, g.Margin, tol)
	require.True(t, g.Close, "under .0010 to spare")
	require.InDelta(t, 2.4900, g.FinishedHigh, 1e-9)
	require.InDelta(t, 2.4895, g.FinishedLow, 1e-9)
	require.True(t, g.Settled)
	require.Empty(t, g.Mismatched)
	require.Contains(t, g.Words()[0], "all to -.010, by M2, which needs 0.0094 off")
}

// The twin of it: a few tenths more on one journal move the whole group a step.
func TestGrindTwin(t *testing.T) {
	js := mains()
	js[1] = journal("M2", 2.4942, 2.4966, 2.4938, 2.4962)
	g := MainsRule(2.5).Group(js)
	require.InDelta(t, .0024, g.Journals[1].OutOfRound, tol)
	require.InDelta(t, .0062, g.Journals[1].Wear, tol)
	require.InDelta(t, .0106, g.Required, tol)
	require.Equal(t, .020, g.Step)
	require.Equal(t, .010, g.NextStep, "M3 alone would take less")
	require.False(t, g.Close)
}

// Worked example of the trade, common practice: four pins of 2.0000 in, one of them from another crank or reground.
func TestGrindPins(t *testing.T) {
	g := MainsRule(2.0).Group(pins())
	for i, want := range []struct{ wear, req, alone float64 }{{.0040, .0078, .010}, {.0064, .0114, .020}, {.0045, .0085, .010}, {.0112, .0141, .020}} {
		require.InDelta(t, want.wear, g.Journals[i].Wear, tol)
		require.InDelta(t, want.req, g.Journals[i].Required, tol)
		require.Equal(t, want.alone, g.Journals[i].Alone)
	}
	require.Equal(t, .020, g.Step)
	require.Equal(t, "P4", g.Driver)
	require.Equal(t, "P2", g.NextDriver)
	require.Equal(t, .020, g.NextStep, "without P4, P2 still needs it")
	require.Equal(t, []string{"P4"}, g.Mismatched)
	require.InDelta(t, 1.9800, g.FinishedHigh, 1e-9)
	require.InDelta(t, 1.9795, g.FinishedLow, 1e-9)
	require.Contains(t, g.Words(), "without P4, P2 would still need -.020")
}

// The odd one out is named whichever way it is odd.
func TestGrindMismatched(t *testing.T) {
	at := func(sizes ...float64) (js []Journal) {
		for i, s := range sizes {
			js = append(js, journal(fmt.Sprintf("M%d", i+1), s-.0004, s-.0001, s-.0005, s-.0002))
		}
		return js
	}
	for _, c := range []struct {
		sizes []float64
		want  []string
	}{
		{[]float64{2.50, 2.50, 2.50}, nil},
		{[]float64{2.49, 2.49, 2.49}, nil},
		{[]float64{2.49, 2.50, 2.50}, []string{"M1"}},
		{[]float64{2.49, 2.49, 2.50}, []string{"M3"}},
		{[]float64{2.49, 2.48, 2.49}, []string{"M2"}},
		{[]float64{2.49, 2.50}, []string{"M1"}},
	} {
		require.Equal(t, c.want, MainsRule(2.5).Group(at(c.sizes...)).Mismatched, "%v", c.sizes)
	}
}

// The step is never taken from part of a group: two pins alone would have bought the wrong shells.
func TestGrindIncomplete(t *testing.T) {
	js := pins()
	js[1].Planes = []Plane{{}, {}}
	js[3].Planes[1].H = nil
	g := MainsRule(2.0).Group(js)
	require.False(t, g.Complete)
	require.False(t, g.Settled)
	require.Equal(t, 11, g.Taken)
	require.Equal(t, 16, g.Needed)
	require.Contains(t, g.Words(), "no order until all are read: P2 0 of 4, P4 3 of 4")

	require.Equal(t, []string{"nothing read: 2 readings to take"}, MainsRule(2.0).Group([]Journal{{Position: "P1", Planes: []Plane{{}}}}).Words())

	js[0] = journal("P1", 1.950, 1.951, 1.950, 1.951)
	g = MainsRule(2.0).Group(js)
	require.True(t, g.Beyond)
	require.True(t, g.Settled, "no further reading makes it smaller")
	require.Zero(t, g.Step)
}

// Shells that are not to be had move the group to the next step that is.
func TestGrindSkipsStepsWithoutShells(t *testing.T) {
	r := MainsRule(2.5)
	r.Shells = []float64{.020, .040}
	g := r.Group(mains())
	require.Equal(t, .020, g.Step)
	require.Equal(t, []float64{.010}, g.Skipped)

	r.Shells = []float64{}
	g = r.Group(mains())
	require.True(t, g.Beyond)
	require.Contains(t, g.Words()[0], "no shells to be had")
}

// A score deeper than the wear beside it sets the step: twice its depth on diameter.
func TestGrindScore(t *testing.T) {
	js := mains()
	js[0].Scores = []Score{{Reading: 2.4985, Depth: .0040}}
	g := MainsRule(2.5).Group(js)
	require.InDelta(t, .0015+.0080+.0020, g.Journals[0].Required, tol)
	require.True(t, g.Journals[0].Scored)
	require.Equal(t, "M1", g.Driver)
	require.Equal(t, .020, g.Step)

	js[0].Scores = []Score{{Reading: 2.4985, Depth: .0010}}
	g = MainsRule(2.5).Group(js)
	require.InDelta(t, .0052, g.Journals[0].Required, tol, "shallower than the wear beside it")
	require.Empty(t, g.ScoreLeft)

	js[1].Scores = []Score{{Reading: 2.4946, Depth: .0050}}
	g = MainsRule(2.5).Group(js)
	require.Equal(t, []string{"M2"}, g.ScoreLeft, "not deeper than the wear, but .0174 would be needed to lose it")
}

func TestGrindExactlyAtAStep(t *testing.T) {
	g := MainsRule(2.5).Group([]Journal{journal("M1", 2.4920, 2.4920, 2.4920, 2.4920)})
	require.Equal(t, .010, g.Step, "required .0100 exactly")
	require.True(t, g.Close)

	r := MainsRule(2.5)
	r.U = StandardUncertainty(.0001)
	require.True(t, r.Group([]Journal{journal("M1", 2.4919, 2.4919, 2.4919, 2.4919)}).Uncertain, ".0101 with a micrometer")
	require.False(t, r.Group(mains()).Uncertain)
}

// A crank at a step already is graded against that step; the readings themselves stay absolute.
func TestCrankAlreadyAtAStep(t *testing.T) {
	js := []Journal{
		journal("M1", 2.4897, 2.4898, 2.4896, 2.4897),
		journal("M2", 2.4896, 2.4897, 2.4895, 2.4896),
		journal("M3", 2.4898, 2.4900, 2.4897, 2.4899),
	}
	r := MainsRule(2.5)
	p := r.Present(.010, js)
	require.True(t, p.Agreed)
	require.Equal(t, .010, p.Step)
	low, high := UndersizeBand(2.4995, 2.5, p.Step)
	for _, x := range []float64{2.4895, 2.4897, 2.4900} {
		j := Judge(x, 0, minLimit(low, high, 2.4985-p.Step), core.Measured, false)
		require.Equal(t, core.WithinNew, j.Grade, "%v: %s", x, j.Words)
	}
	require.Equal(t, core.PastLimit, Judge(2.4897, 0, minLimit(2.4995, 2.5, 2.4985), core.Measured, false).Grade, "against the standard size")

	require.Equal(t, .020, r.Group(js).Step, "if it is ground after all")
	require.Empty(t, r.Group(js).Mismatched, "all are at the same step")

	halfStep := []Journal{journal("M1", 2.4849, 2.4850, 2.4849, 2.4850)}
	for _, c := range []struct {
		marked   float64
		journals []Journal
		why      string
	}{
		{0, js, "there is no mark"},
		{.020, js, "not that size"},
		{.015, halfStep, "no step of this crank"},
		{.010, pins(), "not that size"},
		{.010, nil, "no journal read"},
	} {
		p := r.Present(c.marked, c.journals)
		if len(c.journals) == 4 {
			p = MainsRule(2.0).Present(c.marked, c.journals)
		}
		require.False(t, p.Agreed, c.why)
		require.Zero(t, p.Step)
		require.Contains(t, p.Words, c.why)
	}
	require.True(t, r.Present(0, mains()).Agreed)
}

func TestUndersizeInWords(t *testing.T) {
	for step, want := range map[float64]string{.010: "-.010", .02: "-.020", .0125: "-.0125", 1.5: "-1.500", 0: "-.000"} {
		require.Equal(t, want, Undersize(step))
	}
}

// TM 5-3805-262-34 p. 4-24: rod journals of 2.748 to 2.749 in, undersize by .010, .020, .030.
func TestUndersizeBands(t *testing.T) {
	for _, want := range []struct{ step, low, high float64 }{{.010, 2.738, 2.739}, {.020, 2.728, 2.729}, {.030, 2.718, 2.719}} {
		low, high := UndersizeBand(2.748, 2.749, want.step)
		require.InDelta(t, want.low, low, 1e-9)
		require.InDelta(t, want.high, high, 1e-9)
	}
}
