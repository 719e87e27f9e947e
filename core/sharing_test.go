package core_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// To open the box: wash 1 h, out 2 h, open 1 h; back together (2 + 1) x 1.35 = 4.05 h, as no refit is given. The overhaul takes 2 h.
func TestLabourThatIsDoneOnceIsSaid(t *testing.T) {
	b := box()
	for i := range b.answer.Operations {
		b.answer.Operations[i].Hours = core.Range3{Low: 2, Likely: 2, High: 2}
	}
	b.answer.Conditions[2].Grade = core.PastLimit
	b.answer.Conditions[2].States = []core.State{{Chance: 1, Grade: core.PastLimit, Remedies: []string{"pair"}}}
	p := plan(t, request(), b)

	spindle, ring, gear := choice(t, p, "spindle"), choice(t, p, "ring"), choice(t, p, "gear")
	require.InDelta(t, 10.05, spindle.Shared.Alone, 1e-9)
	require.InDelta(t, 0, spindle.Shared.Adds, 1e-9, "the ring asks for the same overhaul")
	require.Equal(t, "box/ring", spindle.Shared.With)
	require.Equal(t, "box/spindle", ring.Shared.With)
	require.Equal(t, []string{"box/ring", "box/gear"}, spindle.Drags)

	require.InDelta(t, 10.05, gear.Shared.Alone, 1e-9)
	require.InDelta(t, 2, gear.Shared.Adds, 1e-9, "its own work; the box is open")
	require.InDelta(t, 8.05, gear.Shared.Saves(), 1e-9)
	require.Equal(t, "spindle", gear.Shared.WithName)

	// Later, from the assembled vehicle: 4 h at 85 and 3 h x (1.2 + 4 x 1.35 + 1.5) / 6 at 85, the pair's 2 h and 320.
	require.Equal(t, "1174.25", gear.Later.Number())
}

// Whoever opens the box again fits new joints, for 30. An overhaul brings them; what lies open on the way, of another sheet, is left.
func TestOpeningAgainMakesOneUsePartsNew(t *testing.T) {
	joined := func(b fake, part, op, reach string) fake {
		b.sheet.Parts = append(b.sheet.Parts, core.Part{ID: part, Name: part, Count: 1, OneUse: true, Reach: []string{reach}, Checks: []core.Check{{ID: "always-new", Kind: core.OneUse}}})
		b.answer.Conditions = append(b.answer.Conditions, core.Condition{Target: core.Target{Part: part}, States: []core.State{{Chance: 1, Remedies: []string{"new"}}}})
		b.answer.Remedies = append(b.answer.Remedies, core.Remedy{ID: "new", Target: core.Target{Part: part}, Kind: core.Replace, Name: "new", Feasible: true, Operations: []string{op}})
		return b
	}
	b := joined(joined(box(), "joint", "reseal", "box-open"), "plug", "plug", "box-shafts-out")
	b.answer.Operations[3] = operation("reseal", flat("30"))
	b.answer.Operations = append(b.answer.Operations, operation("plug", flat("7")))
	other := joined(fake{sheet: core.Sheet{Subsystem: "hoses", Title: "Hoses", UnitKind: "vehicle"}}, "hose", "hose", "box-out")
	other.answer.Operations = []core.Operation{operation("hose", flat("90"))}
	req := request()
	req.Strip.Steps = append(req.Strip.Steps, core.Step{ID: "box-shafts-out", Name: "shafts out", AllOf: []string{"box-open"}, Scope: "box"})
	p := plan(t, req, b, other)
	require.Equal(t, "1034.25", choice(t, p, "gear").Later.Number(), "684.25 to open and close, the pair 320, the joints 30")
	require.Equal(t, "984.25", choice(t, p, "spindle").Later.Number(), "the overhaul of 300 includes the joints")
}

// What is opened by the extent anyway is done once with no other part's work.
func TestLabourOfTheExtentIsNoPartsOwn(t *testing.T) {
	b := box()
	b.answer.Conditions = b.answer.Conditions[:1]
	req := request()
	require.Nil(t, choice(t, plan(t, req, b), "spindle").Shared, "it alone opens the box")

	req.Job.Extent = core.Extent{Kind: core.ExtentNamed, Names: []string{"box"}}
	s := choice(t, plan(t, req, b), "spindle").Shared
	require.InDelta(t, 8.05, s.Saves(), 1e-9)
	require.Zero(t, s.With)
}

// A part whose strip is done already, apart when it came, saves its refit alone.
func TestWhatCameApartIsNotOpenedTwice(t *testing.T) {
	req := request()
	req.Job.Extent.Apart = []string{"wash", "box-out", "box-open"}
	s := choice(t, plan(t, req, box()), "spindle").Shared
	require.InDelta(t, 4.05, s.Alone, 1e-9)
	require.InDelta(t, 4.05, s.Saves(), 1e-9)
}
