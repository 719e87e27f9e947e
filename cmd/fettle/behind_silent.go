package main

import (
	"context"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// described are the sheets of a job as its subsystems describe them, side by side; those that do not answer and may lie in the job come last, as failed.
func (b *behind) described(ctx context.Context, job core.Job) ([]core.UnitSheet, error) {
	_ = b.s.plugins.Start(ctx) // side by side; what does not start says so when it is asked
	var sheets []core.UnitSheet
	silent := map[string]bool{}
	for _, n := range b.s.names {
		got, err := b.s.describe(ctx, job, []string{n})
		if ctx.Err() != nil {
			return nil, ctx.Err()
		}
		if err != nil {
			silent[n] = true
		}
		sheets = append(sheets, got...)
	}
	if len(silent) == 0 {
		return sheets, nil
	}
	stands, err := b.standing(ctx, job.Number)
	for _, us := range stands {
		if silent[us.Subsystem] && us.Failed && us.Unit == "" {
			sheets = append(sheets, us)
		}
	}
	return sheets, err
}

// Again has a subsystem tried once more. What was worked out without it is let go.
func (b *behind) Again(subsystem string) {
	name, _, _ := strings.Cut(subsystem, "@")
	b.s.plugins.Again(name)
	b.mu.Lock()
	defer b.mu.Unlock()
	b.plans, b.lists, b.seen, b.stands, b.arrivals, b.sheets, b.looks, b.whatIfs, b.strip, b.parts = nil, nil, nil, nil, nil, nil, nil, nil, nil, nil
}
