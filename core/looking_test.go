package core_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/budget"
	"github.com/fettle-tools/fettle/core/decide"
)

func lookNext(t *testing.T, req core.PlanRequest, fakes ...fake) []core.Look {
	t.Helper()
	p := core.Planner{Decider: decide.Solver{}, Budgeter: budget.Simulator{}, Looker: budget.Simulator{}}
	for _, f := range fakes {
		p.Assessors = append(p.Assessors, core.Named{Subsystem: f.sheet.Subsystem, Assessor: f})
	}
	looks, err := p.LookNext(context.Background(), req)
	require.NoError(t, err)
	for i, l := range looks {
		require.Greater(t, l.Share, 0.)
		require.LessOrEqual(t, l.Share, 1.)
		require.LessOrEqual(t, l.Together, 1.)
		require.Positive(t, l.Minutes)
		require.NotEmpty(t, l.Parts)
		if i > 0 {
			require.GreaterOrEqual(t, looks[i-1].PerHour(), l.PerHour(), "the most for its time first")
		}
	}
	return looks
}

// unseenBox has a spindle and a ring that nobody has read: four minutes and two, behind the opened box.
func unseenBox() fake {
	f := box()
	for i := range f.sheet.Parts {
		p := &f.sheet.Parts[i]
		p.Reach = []string{"box-open"}
		p.Checks = []core.Check{{ID: "wear", Name: "wear", Kind: core.Measured, Unit: "in", Instrument: "micrometer", Minutes: 4, NeededForReuse: true}}
	}
	for i := range f.answer.Conditions {
		c := &f.answer.Conditions[i]
		if part := c.Target.Part; part == "spindle" || part == "ring" {
			c.Grade, c.ChecksNotRead, c.ReadingsNeeded = core.NotSeen, []string{"wear"}, 1
			c.States = []core.State{{Chance: .5, Grade: core.WithinNew, Remedies: append([]string{"reuse"}, c.States[0].Remedies...)},
				{Chance: .5, Grade: core.PastLimit, Remedies: c.States[0].Remedies}}
			f.answer.Remedies = append(f.answer.Remedies, core.Remedy{ID: "reuse", Target: c.Target, Kind: core.Reuse, Name: "reuse", Feasible: true})
		}
	}
	return f
}

// What the same steps lay open is one look: opening and closing them once, and the minutes of each reading.
func TestALookCountsOpeningAndReading(t *testing.T) {
	f := unseenBox()
	looks := lookNext(t, request(), f)
	require.NotEmpty(t, looks)
	together := looks[0]
	require.Len(t, together.Parts, 2, "what the same steps lay open is looked at together")
	require.Equal(t, []string{"micrometer"}, together.Instruments())
	name, before := together.Last()
	require.Equal(t, "box open", name)
	require.Equal(t, 2, before)
	open := 0.0
	for _, s := range together.Open {
		open += 60 * s.Hours
	}
	require.InDelta(t, open+8, together.Minutes, .1)
	require.Greater(t, together.Share, .3)

	// Once the box is open only the readings cost time, and a part alone is a look.
	req := request()
	req.Job.Extent.Apart = []string{"wash", "box-out", "box-open"}
	looks = lookNext(t, req, unseenBox())
	require.Len(t, looks, 2)
	require.InDelta(t, 4, looks[0].Minutes, 1e-9)
	require.Empty(t, looks[0].Open)
	require.Greater(t, looks[1].Together, looks[0].Together)
}

// What is read and settled is not looked at again.
func TestNothingIsLeftToLookAt(t *testing.T) {
	require.Empty(t, lookNext(t, request(), box()))
}
