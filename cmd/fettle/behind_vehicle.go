package main

import (
	"context"

	"github.com/fettle-tools/fettle/core"
)

// Standing assesses every subsystem of a job's extent. It is shared: nobody writes into it.
func (b *behind) Standing(ctx context.Context, number string) ([]core.UnitSheet, error) {
	b.want("standing "+number, func(ctx context.Context) error { _, err := b.standing(ctx, number); return err })
	return b.standing(ctx, number)
}

func (b *behind) standing(ctx context.Context, number string) ([]core.UnitSheet, error) {
	return keep(ctx, b, &b.stands, number, func() ([]core.UnitSheet, error) {
		job, err := b.s.book.Job(ctx, number)
		if err != nil {
			return nil, err
		}
		req, err := b.s.request(ctx, job)
		if err != nil {
			return nil, err
		}
		return b.s.planner().Assess(ctx, req), nil
	})
}

// Mark writes an identity mark down.
func (b *behind) Mark(ctx context.Context, job, by, unit string, m core.Mark) error {
	_, err := b.s.markUnit(ctx, job, by, unit, m)
	return err
}

// AddUnit brings a unit into a job.
func (b *behind) AddUnit(ctx context.Context, job, by string, u core.Unit) error {
	_, err := b.s.addUnit(ctx, job, by, u)
	return err
}

// Decide records what the owner decided of a unit.
func (b *behind) Decide(ctx context.Context, job, by, unit, words, worth string) error {
	given := &worth
	if worth == "" {
		given = nil
	}
	_, err := b.s.decideUnit(ctx, job, by, unit, words, given)
	return err
}
