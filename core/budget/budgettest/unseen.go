package budgettest

import (
	"context"
	"slices"

	"github.com/fettle-tools/fettle/core"
)

// Unseen is an Assessor that leaves only some of its parts open: every other part that may be in several states is as good as seen, in the
// likeliest of them, the first of several that are.
type Unseen struct {
	core.Assessor
	Open func(unit string, t core.Target) bool
}

// Assess asks the Assessor and cuts the states.
func (u Unseen) Assess(ctx context.Context, req core.AssessRequest) (core.Assessment, error) {
	a, err := u.Assessor.Assess(ctx, req)
	if err != nil {
		return a, err
	}
	a.Conditions = slices.Clone(a.Conditions)
	for i := range a.Conditions {
		c := &a.Conditions[i]
		if len(c.States) < 2 || u.Open(req.Unit, c.Target) {
			continue
		}
		likeliest := c.States[0]
		for _, s := range c.States[1:] {
			if s.Chance > likeliest.Chance {
				likeliest = s
			}
		}
		likeliest.Chance, likeliest.RegisterID = 1, ""
		c.States = []core.State{likeliest}
	}
	return a, nil
}
