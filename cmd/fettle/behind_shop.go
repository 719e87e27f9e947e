package main

import (
	"context"
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/config"
	"github.com/fettle-tools/fettle/core/store"
	"github.com/fettle-tools/fettle/core/web"
)

// House is what the settings say.
func (b *behind) House() web.House {
	t := b.s.settings()
	h := web.House{File: config.SettingsFile, Currency: t.Currency, Rates: t.Rates, Taxes: t.Taxes, People: t.People, WeeklyHours: t.WeeklyHours, ValidDays: t.ValidDays, Faulty: b.s.said.Load().faulty}
	switch {
	case t.Sundries.PercentOfParts != "":
		h.Sundries = t.Sundries.PercentOfParts + " % of parts"
	case t.Sundries.AnHour != "":
		h.Sundries = t.Sundries.AnHour + " " + t.Currency + " an hour"
	}
	return h
}

// Skills are those of the sheets and of the strip plan, and those that have a price of an hour, each once.
func (b *behind) Skills(ctx context.Context) (skills []string) {
	add := func(skill string) {
		if skill != "" && !slices.Contains(skills, skill) {
			skills = append(skills, skill)
		}
	}
	for _, r := range b.s.settings().Rates {
		add(r.Skill)
	}
	add("mechanic")
	for _, us := range b.served(ctx) {
		for _, o := range us.Sheet.Operations {
			add(o.Skill)
		}
		for _, step := range us.Sheet.Steps {
			add(step.Skill)
		}
	}
	if plan, err := b.s.stripPlan(); err == nil {
		for _, step := range plan.Steps {
			add(step.Skill)
		}
	}
	return skills
}

// SetFigures writes into the settings what is said otherwise than they say it.
func (b *behind) SetFigures(_ context.Context, by string, f web.Figures) error {
	b.figures.Lock()
	defer b.figures.Unlock()
	edits, err := b.s.figures(f)
	if err != nil || len(edits) == 0 {
		return err
	}
	if err := b.s.editSettings(edits); err != nil {
		return err
	}
	b.s.resettle()
	b.s.logger.Info("the settings are changed", "by", by)
	return nil
}

// UndoPrice takes the last price or price file back, or brings it back.
func (b *behind) UndoPrice(ctx context.Context, by string, again bool) (string, error) {
	act := b.s.book.Undo
	if again {
		act = b.s.book.Redo
	}
	u, err := act(ctx, "", by, store.KindPrice)
	if err != nil {
		return "", err
	}
	var items strings.Builder
	printUndone(&items, u)
	return u.Words() + ": " + strings.Join(strings.Fields(items.String()), " "), nil
}

// Parties are those the shop keeps.
func (b *behind) Parties(ctx context.Context) ([]core.Party, error) { return b.s.book.Parties(ctx) }

// SetParty keeps a party, in the place of the one of its name.
func (b *behind) SetParty(ctx context.Context, by string, p core.Party, may, hour string) error {
	var errs faults
	var err error
	if p.MayAuthorise, err = b.s.typedAmountOr("", may); err != nil {
		errs = append(errs, err)
	}
	if p.HourRate, err = b.s.typedAmountOr("", hour); err != nil {
		errs = append(errs, err)
	}
	if len(errs) > 0 {
		return errs
	}
	return b.s.book.SetParty(ctx, by, p)
}

// Prices is the price book as it stands.
func (b *behind) Prices(ctx context.Context) ([]core.PriceEntry, error) {
	return keep(ctx, b, &b.prices, "", func() ([]core.PriceEntry, error) { return b.s.book.Prices(ctx) })
}

// Priced are the items that the sheets have.
func (b *behind) Priced(ctx context.Context) []web.Named { return b.s.priced(b.served(ctx)) }

// SetPrice writes a price down, and says what is odd about it.
func (b *behind) SetPrice(ctx context.Context, by string, p core.PriceEntry) (string, string, error) {
	p, odd, err := b.s.setPrice(ctx, by, p)
	if err != nil || odd == nil {
		return p.Item, "", err
	}
	return p.Item, odd.What + ": " + odd.Next, nil
}

// Unasked is what a job's money rests on that nobody has asked.
func (b *behind) Unasked(ctx context.Context, job string) ([]web.Unasked, error) {
	p, err := b.Plan(ctx, job)
	if err != nil {
		return nil, err
	}
	var out []web.Unasked
	for _, a := range toAskFirst(p) {
		out = append(out, web.Unasked{Key: a.Key, Name: a.Name, Count: a.Count, Each: a.Each, Why: a.Why})
	}
	return out, nil
}

// Zeroed are the instruments, each with the last look at its zero.
func (b *behind) Zeroed(ctx context.Context) ([]web.Zeroed, error) {
	list, err := b.s.zeroed(ctx)
	if err != nil {
		return nil, err
	}
	var out []web.Zeroed
	for _, i := range list {
		out = append(out, web.Zeroed{Instrument: i.Instrument, Zero: i.Zero})
	}
	return out, nil
}

// CheckZero writes down a look at an instrument's zero.
func (b *behind) CheckZero(ctx context.Context, id, by string, z core.ZeroCheck) error {
	_, err := b.s.checkZero(ctx, id, by, z)
	return err
}

// Plugins are those that are served, as they stand: none is started for it.
func (b *behind) Plugins() []web.Plugin {
	var out []web.Plugin
	for _, p := range b.s.plugins.List() {
		out = append(out, web.Plugin{Name: p.Name, From: p.Origin, Pin: pinWords(p), State: strings.TrimSpace(p.State + " " + p.Fault)})
	}
	return out
}

// Backup writes a copy of the book to a file.
func (b *behind) Backup(ctx context.Context, to string) error { return b.s.book.Backup(ctx, to) }
