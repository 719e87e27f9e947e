package main

import (
	"context"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/web"
)

// AsFound says what is asked of what came, and what is not photographed or read of it yet.
func (b *behind) AsFound(ctx context.Context, story core.Story) (web.AsFound, error) {
	return keep(ctx, b, &b.arrivals, story.Job.Number, func() (web.AsFound, error) {
		list, err := b.s.arrivalList()
		if err != nil {
			return web.AsFound{}, err
		}
		v, err := b.s.arrival(ctx, story, list)
		return web.AsFound{Asked: v.questions, Missing: v.Missing, Photos: v.Photos, Wanted: v.Wanted, Unmarked: v.Unmarked, Marks: v.Marks, Unread: v.Unread, Gone: v.Gone, NotAsked: v.NotAsked}, err
	})
}

// Arrive writes down what came, as the command does.
func (b *behind) Arrive(ctx context.Context, job, by string, a core.Arrival, answers []string, brief *core.Brief) error {
	list, err := b.s.arrivalList()
	if err != nil {
		return err
	}
	_, err = b.s.takeIn(ctx, job, by, list, a, answers, brief)
	return err
}
