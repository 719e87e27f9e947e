package main

import (
	"context"

	"github.com/fettle-tools/fettle/core"
)

// Looks ranks what to look at next of a job. They are shared: nobody writes into them.
func (b *behind) Looks(ctx context.Context, job string) ([]core.Look, error) {
	b.want("look "+job, func(ctx context.Context) error { _, err := b.looked(ctx, job); return err })
	return b.looked(ctx, job)
}

func (b *behind) looked(ctx context.Context, job string) ([]core.Look, error) {
	return keep(ctx, b, &b.looks, job, func() ([]core.Look, error) {
		j, err := b.s.book.Job(ctx, job)
		if err != nil {
			return nil, err
		}
		return b.s.looks(ctx, j)
	})
}
