package core

import (
	"context"
	"slices"
)

// What is opened for parts not yet seen, whatever they turn out to be, is open for all others too.

// decideTwice decides, and again with those steps open that every option of some block opens, until there are none left: a part that is
// reused because its unit stays shut is looked at with its unit open. It gives the
// steps with those open too.
func decideTwice(ctx context.Context, d Decider, s Selection) (Selected, []SelectStep, error) {
	var last Selected
	var before []SelectStep
	for pass := 0; ; pass++ {
		out, err := d.Decide(ctx, s)
		if pass > 0 && s.Cap != nil && ErrorCode(err) == Invalid {
			return last, before, nil // within the cap there is no money to open them for certain: they stay held in reserve
		}
		if err != nil {
			return out, s.Steps, err
		}
		last, before = out, s.Steps
		more := certainSteps(out)
		if len(more) == 0 {
			return out, s.Steps, nil
		}
		s.Steps = slices.Clone(s.Steps)
		for _, n := range more {
			s.Steps[n].Open = true
		}
	}
}

// certainSteps are those that every option of some block opens beyond the optimum's, ascending.
func certainSteps(sel Selected) []int {
	var all []int
	for _, b := range sel.Blocks {
		for _, n := range b.Options[0].Steps {
			if !slices.ContainsFunc(b.Options, func(o BlockOption) bool { return !slices.Contains(o.Steps, n) }) && !slices.Contains(all, n) {
				all = append(all, n)
			}
		}
	}
	slices.Sort(all)
	return all
}
