package main

import (
	"context"
	"slices"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/store"
)

// Pin fixes the remedy of a part, if a sound plan can be made with it; no remedy takes the pin out.
func (b *behind) Pin(ctx context.Context, number, place, remedy, reason, by string) error {
	if remedy == "" {
		return b.takeBack(ctx, number, place, by, pinnedAt, unpin)
	}
	p, c, err := b.choiceAt(ctx, number, place)
	if err != nil {
		return err
	}
	pin, err := pinOn(p, c, remedy, reason, by)
	if err != nil {
		return err
	}
	return b.decide(ctx, number, by, store.Change{Pins: []core.Pin{pin}})
}

// Leave leaves a part as it is by the owner's word; no reason takes that back.
func (b *behind) Leave(ctx context.Context, number, place, reason, by string) error {
	if reason == "" {
		return b.takeBack(ctx, number, place, by, leftAt, unleave)
	}
	p, c, err := b.choiceAt(ctx, number, place)
	if err != nil {
		return err
	}
	return b.decide(ctx, number, by, store.Change{Left: []core.Left{leftOn(p, c, reason, by)}})
}

// choiceAt finds a part by its whole place.
func (b *behind) choiceAt(ctx context.Context, number, place string) (core.Plan, core.Choice, error) {
	p, err := b.Plan(ctx, number)
	if err != nil {
		return p, core.Choice{}, err
	}
	i := slices.IndexFunc(p.Choices, func(c core.Choice) bool { return c.Place.String() == place })
	if i < 0 {
		return p, core.Choice{}, core.Errorf(core.NotFound, "see the choices for what lies in this job", "no part %q in this job", place)
	}
	return p, p.Choices[i], nil
}

// takeBack takes the pin, or the word to leave a part, back. It plans nothing: where no plan can be made, this is what opens the way to one.
func (b *behind) takeBack(ctx context.Context, number, place, by string, places func(core.Job) []core.Place, undo undoing) error {
	job, err := b.s.book.Job(ctx, number)
	if err != nil {
		return err
	}
	at := slices.DeleteFunc(places(job), func(p core.Place) bool { return p.String() != place })
	if len(at) == 0 {
		return core.Errorf(core.NotFound, "see the choices", "that was taken back already")
	}
	_, err = b.s.book.ChangeJob(ctx, number, by, undo(at, by))
	return err
}

// decide writes pins and parts left down, if a plan can be made with them.
func (b *behind) decide(ctx context.Context, number, by string, change store.Change) error {
	job, err := b.s.book.Job(ctx, number)
	if err != nil {
		return err
	}
	if err := b.s.sound(ctx, job, change); err != nil {
		return err
	}
	_, err = b.s.book.ChangeJob(ctx, number, by, change)
	return err
}
