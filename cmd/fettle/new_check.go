package main

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// checkJob looks up what a new job names: packs, units, the extent's names and the steps done before it came. All faults are told at once.
func (s *shop) checkJob(ctx context.Context, job core.Job) error {
	req, err := s.request(ctx, job)
	if err != nil {
		return err
	}
	var errs faults
	names := slices.Clone(s.names)
	for i, u := range job.Units {
		if slices.ContainsFunc(job.Units[:i], func(v core.Unit) bool { return v.ID == u.ID }) {
			errs = append(errs, core.Errorf(core.Invalid, fmt.Sprintf("give each its own name, like %s=NAME", u.Kind), "two units are called %q", u.ID))
		}
		names = append(names, u.ID, u.Kind)
	}
	var steps []string
	for _, step := range req.Strip.Steps {
		steps = append(steps, step.ID)
		if step.Scope != "" && job.Vehicle != nil {
			names = append(names, step.Scope)
		}
	}
	for _, n := range job.Extent.Names {
		errs = append(errs, known("--name", n, names)...)
	}
	for _, a := range job.Extent.Apart {
		if step, _, _ := strings.Cut(a, "@"); !strings.Contains(a, ":") { // a bench step of a sheet is named subsystem:step
			errs = append(errs, known("--apart", step, steps)...)
		}
	}
	return errs.orNil()
}

// known tells a word that is not in a list, with the nearest that is.
func known(flag, word string, list []string) faults {
	if slices.Contains(list, word) {
		return nil
	}
	next := "use one of: " + strings.Join(slices.Compact(slices.Sorted(slices.Values(list))), ", ")
	if n := core.Nearest(word, list); n != "" {
		next = fmt.Sprintf("did you mean %q?", n)
	}
	return faults{core.Errorf(core.Invalid, next, "%s %q is not known", flag, word)}
}
