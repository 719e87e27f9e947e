package main

import (
	"context"

	"github.com/fettle-tools/fettle/core"
)

// WeeklyHours is how many hours a week there are for all jobs together.
func (b *behind) WeeklyHours() float64 { return b.s.settings().WeeklyHours }

// KeptPlan is the last plan that was made of a job. Where none is kept one is begun beside the pages, once for a state of the book, one job after
// another; coming says that it is under way.
func (b *behind) KeptPlan(ctx context.Context, job string) (p *core.Plan, fresh, coming bool) {
	now, err := b.Changed(ctx)
	b.mu.Lock()
	defer b.mu.Unlock()
	if k, ok := b.plans[job]; ok {
		return &k.value, err == nil && k.at == now, false
	}
	x, begun := b.begun[job]
	if err == nil && (!begun || x.at != now && !x.value) {
		if b.begun == nil {
			b.begun = map[string]kept[bool]{}
		}
		x = kept[bool]{now, true}
		b.begun[job] = x
		go b.planBeside(job)
	}
	return nil, false, x.value
}

// planBeside makes the plan of a job that nobody waits for.
func (b *behind) planBeside(job string) {
	b.beside.Lock()
	defer b.beside.Unlock()
	if err := safely(func() error { _, err := b.plan(b.life, job); return err }); err != nil && b.life.Err() == nil {
		b.s.logger.Warn("not planned", "job", job, "error", err)
	}
	b.mu.Lock()
	defer b.mu.Unlock()
	b.begun[job] = kept[bool]{b.begun[job].at, false}
}
