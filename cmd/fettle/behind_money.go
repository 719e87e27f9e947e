package main

import (
	"context"
	"fmt"
	"strconv"

	"github.com/spf13/pflag"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/store"
	"github.com/fettle-tools/fettle/core/web"
)

// Rates are what an hour costs, by skill.
func (b *behind) Rates() []core.Rate { return b.s.settings().Rates }

// SetWishes writes down what the owner will spend and what a week is worth.
func (b *behind) SetWishes(ctx context.Context, number, by, most, weekWorth string) error {
	job, err := b.s.book.Job(ctx, number)
	if err != nil {
		return err
	}
	errs := (&briefFlags{most: most, weekWorth: weekWorth}).sums(b.s, &job.Brief, func(flag string) string { return wishNames[flag] })
	if err := errs.orNil(); err != nil {
		return err
	}
	_, err = b.s.book.ChangeJob(ctx, number, by, store.Change{Brief: &job.Brief})
	return err
}

// wishNames are the flags of what is supposed as a page calls them.
var wishNames = map[string]string{"most": "the most to be spent", "week-worth": "what a week is worth", "horizon-years": "years", "horizon-km": "km", "rate": "an hour"}

// mostSuppositions is how many are kept while the book does not change.
const mostSuppositions = 8

// Suppose compares the plan with that of a supposition.
func (b *behind) Suppose(ctx context.Context, number string, x web.Supposition) (web.Supposed, error) {
	b.mu.Lock()
	if len(b.whatIfs) > mostSuppositions {
		b.whatIfs = nil
	}
	b.mu.Unlock()
	return keep(ctx, b, &b.whatIfs, fmt.Sprintf("%s %+v", number, x), func() (web.Supposed, error) { return b.suppose(ctx, number, x) })
}

func (b *behind) suppose(ctx context.Context, number string, x web.Supposition) (web.Supposed, error) {
	was, err := b.Plan(ctx, number)
	if err != nil {
		return web.Supposed{}, err
	}
	w, flags, err := b.supposition(x)
	if err != nil {
		return web.Supposed{}, err
	}
	req, words, err := w.request(ctx, b.s, was, flags)
	if err != nil {
		return web.Supposed{}, err
	}
	if x.Place != "" {
		more, err := b.otherwise(ctx, &req.Job, number, x)
		if err != nil {
			return web.Supposed{}, err
		}
		words = append(words, more)
	}
	now, err := b.s.suppose(ctx, req)
	return web.Supposed{Words: words, Comparison: core.Compare(was, now)}, err
}

// supposition puts what was typed on a page as the command has it. All that is wrong is told at once.
func (b *behind) supposition(x web.Supposition) (*supposed, *pflag.FlagSet, error) {
	w, flags := &supposed{}, pflag.NewFlagSet("", pflag.ContinueOnError)
	w.define(flags)
	var errs faults
	amount := func(flag, text string) {
		if text == "" {
			return
		}
		m, err := b.s.typedAmount("", text)
		if err == nil && core.Minor(m) <= 0 {
			err = core.Errorf(core.Invalid, "write an amount above 0", "%s is not above 0", text)
		}
		if err != nil {
			errs = append(errs, core.Errorf(core.Invalid, core.ErrorNext(err), "%s: %s", wishNames[flag], err))
			return
		}
		if flag == "rate" {
			text = x.Skill + "=" + m.Number()
		}
		_ = flags.Set(flag, text) // an amount is a text to it
	}
	amount("rate", x.Rate)
	amount("most", x.Most)
	amount("week-worth", x.WeekWorth)
	number := func(flag, text string) {
		if text == "" {
			return
		}
		if v, err := strconv.ParseFloat(text, 64); err != nil || v <= 0 || v > 1e7 {
			errs = append(errs, core.Errorf(core.Invalid, "write a number above 0", "%s: %q is no such number", wishNames[flag], text))
			return
		}
		_ = flags.Set(flag, text) // it has been read
	}
	number("horizon-years", x.Years)
	number("horizon-km", x.KM)
	return w, flags, errs.orNil()
}

// otherwise decides a part of a job otherwise, and says so in words.
func (b *behind) otherwise(ctx context.Context, job *core.Job, number string, x web.Supposition) (string, error) {
	p, c, err := b.choiceAt(ctx, number, x.Place)
	if err != nil {
		return "", err
	}
	name := c.Title()
	if x.Leave {
		*job = leaving(*job, leftOn(p, c, "supposed", "supposed"))
		return name + " left as it is", nil
	}
	pin, err := pinOn(p, c, x.Remedy, "supposed", "supposed")
	if err != nil {
		return "", err
	}
	*job = pinned(*job, pin)
	for _, r := range p.SheetOf(c.Place).PinsOpen(c.Target) {
		if r.ID == x.Remedy {
			return name + ": " + r.Name, nil
		}
	}
	return name + ": " + x.Remedy, nil
}

// Weigh begins to lay money against risk and waiting.
func (b *behind) Weigh(ctx context.Context, number string) error {
	return beginSlow(ctx, b, &b.weighings, number, func(ctx context.Context, req core.PlanRequest, _ func(n, of int)) (core.Weighing, error) {
		return b.s.planner().Weigh(ctx, req)
	})
}

// Weighing says how far it is.
func (b *behind) Weighing(ctx context.Context, number string) (web.Slow[core.Weighing], error) {
	return slowState(ctx, b, &b.weighings, number)
}

// Narrow begins to plan a job day by day.
func (b *behind) Narrow(ctx context.Context, number string) error {
	return beginSlow(ctx, b, &b.days, number, func(ctx context.Context, req core.PlanRequest, told func(n, of int)) ([]core.BudgetDay, error) {
		return b.s.planner().ByDay(ctx, req, b.s.settings().Zone, told)
	})
}

// Narrowing says how far it is.
func (b *behind) Narrowing(ctx context.Context, number string) (web.Slow[[]core.BudgetDay], error) {
	return slowState(ctx, b, &b.days, number)
}

func beginSlow[T any](ctx context.Context, b *behind, s *slowly[T], number string, work func(context.Context, core.PlanRequest, func(n, of int)) (T, error)) error {
	now, err := b.Changed(ctx)
	if err != nil {
		return err
	}
	job, err := b.s.book.Job(ctx, number)
	if err != nil {
		return err
	}
	s.begin(b.life, number, now, func(ctx context.Context, told func(n, of int)) (T, error) {
		req, err := b.s.request(ctx, job)
		if err != nil {
			var none T
			return none, err
		}
		return work(ctx, req, told)
	})
	return nil
}

func slowState[T any](ctx context.Context, b *behind, s *slowly[T], number string) (web.Slow[T], error) {
	now, err := b.Changed(ctx)
	if err != nil {
		return web.Slow[T]{}, err
	}
	return s.state(number, now)
}
