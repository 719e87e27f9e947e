package main

import (
	"context"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/web"
)

// Strip is how far the strip-down of a job is.
func (b *behind) Strip(ctx context.Context, job string) (core.Stripdown, error) {
	return keep(ctx, b, &b.strip, job, func() (core.Stripdown, error) {
		story, err := b.s.book.Story(ctx, job)
		if err != nil {
			return core.Stripdown{}, err
		}
		req, err := b.s.request(ctx, story.Job)
		if err != nil {
			return core.Stripdown{}, err
		}
		p, err := b.Plan(ctx, job)
		if err != nil {
			return core.Stripdown{}, err
		}
		return b.s.stripdown(req, p.Sheets, p.Steps, story), nil
	})
}

// Step writes down what became of a step.
func (b *behind) Step(ctx context.Context, job string, said web.StepSaid) error {
	story, err := b.s.book.Story(ctx, job)
	if err != nil {
		return err
	}
	if _, there, err := b.s.book.Batch(ctx, job, said.ID); err != nil || there {
		return err
	}
	f := stripFlags{hours: said.Hours, who: said.Who, people: said.People, confirm: said.Confirmed, lost: said.Lost}
	switch said.Is {
	case core.StepIsDone:
		f.done = true
	case core.StepIsUndone:
		f.undo = said.Why
	case core.StepIsSkipped:
		f.skip = said.Why
	default:
		return core.Errorf(core.Invalid, "load the page again", "%q is not what becomes of a step", said.Is)
	}
	_, _, err = b.s.strip(ctx, story, said.Step, f, said.By, said.ID)
	return err
}
