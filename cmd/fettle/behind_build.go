package main

import (
	"context"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/web"
)

// Fitting begins what is fitted, and gives the sheet that the part is on.
func (b *behind) Fitting(ctx context.Context, job, what string) (core.Fit, core.UnitSheet, error) {
	story, err := b.Story(ctx, job)
	if err != nil {
		return core.Fit{}, core.UnitSheet{}, err
	}
	if what, err = b.partCalled(ctx, job, what); err != nil {
		return core.Fit{}, core.UnitSheet{}, err
	}
	return b.s.fitAs(ctx, story, what, "", buildFlags{})
}

// partCalled is addressOf among the parts of a job.
func (b *behind) partCalled(ctx context.Context, job, what string) (string, error) {
	parts, err := b.Parts(ctx, job)
	if err != nil {
		return "", err
	}
	return addressOf(what, parts)
}

// Fit writes down what was fitted.
func (b *behind) Fit(ctx context.Context, job, by string, t web.Fitting) error {
	story, err := b.s.book.Story(ctx, job)
	if err != nil {
		return err
	}
	what, err := b.partCalled(ctx, job, t.What)
	if err != nil {
		return err
	}
	f := buildFlags{readings: t.Readings, torques: t.Torques, shims: t.Shims, used: t.Used, second: t.Second, why: t.Why, with: t.With, again: t.Again}
	fit, _, err := b.s.fitAs(ctx, story, what, by, f)
	if err != nil {
		return err
	}
	_, err = b.s.book.Act(ctx, job, by, &fit)
	return err
}

// Work writes hours down.
func (b *behind) Work(ctx context.Context, job, by string, t web.Working) error {
	story, err := b.s.book.Story(ctx, job)
	if err != nil {
		return err
	}
	w, err := b.s.hoursAs(ctx, story, t.Task, t.Hours, hoursFlags{who: t.Who, rate: t.Rate, line: t.Line})
	if err != nil {
		return err
	}
	_, err = b.s.book.Act(ctx, job, by, w)
	return err
}
