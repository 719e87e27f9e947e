package main

import (
	"context"

	"github.com/fettle-tools/fettle/core"
)

// WeeklyHours is how many hours a week there are for all jobs together.
func (b *behind) WeeklyHours() float64 { return b.s.settings.WeeklyHours }

// KeptPlan is the last plan that was made of a job; nothing is planned for it.
func (b *behind) KeptPlan(ctx context.Context, job string) (*core.Plan, bool) {
	now, err := b.s.book.Changed(ctx)
	b.mu.Lock()
	defer b.mu.Unlock()
	k, ok := b.plans[job]
	if !ok {
		return nil, false
	}
	return &k.value, err == nil && k.at == now
}
