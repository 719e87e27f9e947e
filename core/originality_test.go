package core_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/budget"
	"github.com/fettle-tools/fettle/core/decide"
)

// Each part has a remedy that keeps what is old, and none goes with that of the other: what is bought in is offered for these two, and it is said. The
// gear keeps to what was asked for.
func TestPartsThatNoOriginalRemedySuitsAreOfferedTheOthers(t *testing.T) {
	b := box()
	spindle := b.answer.Remedies[0].Target
	for i := range b.answer.Remedies {
		switch r := &b.answer.Remedies[i]; {
		case r.ID == "ring-alone":
			r.Excludes = []core.RemedyRef{{Target: spindle, Remedy: "overhaul"}}
		case r.ID == "overhaul" && r.Target.Part == "ring", r.ID == "pair":
			r.OriginalityMax = 3
		}
	}
	req := request()
	req.Job.Brief.Originality = 4
	p := plan(t, req, b)
	require.Equal(t, "overhaul", choice(t, p, "spindle").Remedy)
	require.Equal(t, "overhaul", choice(t, p, "ring").Remedy)
	gear := choice(t, p, "gear")
	require.Equal(t, core.Reuse, gear.Kind)
	require.Nil(t, gear.RunnerUp, "the pair stays closed")
	require.Len(t, p.Problems, 1)
	require.Equal(t, core.SeverityWarning, p.Problems[0].Severity)
	require.Equal(t, core.Target{Part: "ring"}, p.Problems[0].Target)
	require.Contains(t, p.Problems[0].Summary, "no remedy that keeps the originality asked for goes with what is open for the parts bound to it")

	// Under a cap the same is offered.
	m, err := core.NewMoney("1000", "USD")
	require.NoError(t, err)
	req.Job.Brief.Most = &m
	require.Equal(t, "overhaul", choice(t, plan(t, req, b), "ring").Remedy)

	// What two of a set have to come with is closed by it: it is offered, and of the part that it is of it is said.
	r := request()
	r.Job.Brief.Originality = 4
	c := box()
	whole, agrees := core.RemedyRef{Target: core.Target{Part: "gear"}, Remedy: "pair"}, func(size string) []core.Yield { return []core.Yield{{Key: "size", Value: size}} }
	c.answer.Remedies[0].Requires, c.answer.Remedies[0].Yields = []core.RemedyRef{whole}, agrees("other")
	c.answer.Remedies[1].Requires, c.answer.Remedies[1].Yields = []core.RemedyRef{whole}, agrees("other")
	c.answer.Remedies[2].Excludes, c.answer.Remedies[2].Yields = []core.RemedyRef{whole}, agrees("0")
	c.answer.Remedies[4].OriginalityMin, c.answer.Remedies[4].OriginalityMax = 1, 3
	c.sheet.Sets = []core.Set{{ID: "size", Name: "one size", Members: []core.Target{spindle, {Part: "ring"}}, AgreeOn: "size"}}
	p = plan(t, r, c)
	require.Equal(t, "pair", choice(t, p, "gear").Remedy)
	require.Equal(t, "overhaul", choice(t, p, "ring").Remedy)
	require.Equal(t, core.Target{Part: "gear"}, p.Problems[0].Target)
	require.Contains(t, p.Problems[0].Summary, "the others are offered")

	// Where none of its remedies is closed, nothing suits.
	req.Job.Brief.Originality, req.Job.Brief.Most = 0, nil
	b.answer.Remedies[1].Excludes = []core.RemedyRef{{Target: spindle, Remedy: "overhaul"}}
	_, err = (&core.Planner{Assessors: []core.Named{{Subsystem: "box", Assessor: b}}, Decider: decide.Solver{}, Budgeter: budget.Simulator{}}).Plan(t.Context(), req)
	var unsuited *core.Unsuited
	require.ErrorAs(t, err, &unsuited)
	require.Equal(t, core.Invalid, core.ErrorCode(err))
}
