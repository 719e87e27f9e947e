package main

import (
	"context"
	"strings"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/web"
)

// Run writes down a run and its snags.
func (b *behind) Run(ctx context.Context, job, by string, t web.Running) error {
	story, err := b.s.book.Story(ctx, job)
	if err != nil {
		return err
	}
	acts, err := runFlags{distance: t.Distance, again: t.Again, readings: t.Readings, snags: t.Snags, safety: t.Safety && len(t.Snags) > 0}.acts(story, t.What)
	if err != nil {
		return err
	}
	if len(acts) == 0 {
		return core.Errorf(core.Invalid, "say what was done: first start, 20 miles", "nothing was said of the run")
	}
	_, err = b.s.book.Act(ctx, job, by, acts...)
	return err
}

// Settle writes down what became of a snag.
func (b *behind) Settle(ctx context.Context, job, by string, t web.Settling) error {
	story, err := b.s.book.Story(ctx, job)
	if err != nil {
		return err
	}
	f := runFlags{clear: t.Snag}
	if t.How == "" {
		f = runFlags{leave: t.Snag, who: t.Who}
	}
	g, err := settled(story, t.How, f)
	if err != nil {
		return err
	}
	_, err = b.s.book.Act(ctx, job, by, g)
	return err
}

// HandOver ends a job.
func (b *behind) HandOver(ctx context.Context, job, by string, h core.Handover) error {
	_, err := b.s.book.Act(ctx, job, by, &h)
	return err
}

// Pay writes money down.
func (b *behind) Pay(ctx context.Context, job, by string, p core.Payment, sum string) error {
	story, err := b.s.book.Story(ctx, job)
	if err != nil {
		return err
	}
	if err := b.s.payment(story, strings.TrimSpace(p.Is), sum, &p); err != nil {
		return err
	}
	_, err = b.s.book.Act(ctx, job, by, &p)
	return err
}
