package main

import (
	"context"
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/web"
)

// Choices are what a new job may be made of. A subsystem that does not answer is left out.
func (b *behind) Choices(ctx context.Context) (web.Choices, error) {
	var c web.Choices
	parties, err := b.s.book.Parties(ctx)
	if err != nil {
		return c, err
	}
	for _, p := range parties {
		if slices.Contains(p.Roles, "owner") {
			c.Owners = append(c.Owners, p.Name)
		}
	}
	jobs, err := b.s.book.Jobs(ctx)
	if err != nil {
		return c, err
	}
	for _, j := range jobs {
		if !slices.Contains(c.Owners, j.Owner.Name) {
			c.Owners = append(c.Owners, j.Owner.Name)
		}
	}
	if c.Packs, err = b.s.packs(); err != nil {
		return c, err
	}
	c.Kinds = b.Kinds(ctx)
	for _, us := range b.served(ctx) {
		c.Subsystems = append(c.Subsystems, web.Subsystem{Name: us.Subsystem, Title: us.Sheet.Title})
	}
	return c, nil
}

// Kinds are the kinds of unit that subsystems are served for, in bench order.
func (b *behind) Kinds(ctx context.Context) (kinds []string) {
	for _, us := range b.served(ctx) {
		if k := us.Sheet.UnitKind; k != "" && k != wholeVehicle && !slices.Contains(kinds, k) {
			kinds = append(kinds, k)
		}
	}
	return kinds
}

// served are the sheets of all subsystems as they are without a job, asked once.
func (b *behind) served(ctx context.Context) []core.UnitSheet {
	b.mu.Lock()
	have := b.sheets
	b.mu.Unlock()
	if len(have) == len(b.s.names) {
		return have
	}
	sheets := b.s.served(ctx)
	b.mu.Lock()
	defer b.mu.Unlock()
	b.sheets = sheets
	return sheets
}

// OpenJob opens a job as the command does.
func (b *behind) OpenJob(ctx context.Context, by string, j core.Job) (core.Job, error) {
	j.Title = strings.TrimSpace(j.Title)
	if errs := j.CheckOpening(); len(errs) > 0 {
		return j, faults(errs)
	}
	return b.s.openJob(ctx, j, by)
}
