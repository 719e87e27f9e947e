package core

import (
	"context"
	"errors"
	"slices"
)

// settled is a choice with the table that it was made on.
type settled struct {
	bench  *bench
	sel    Selected
	due    *due
	within *Within
	wait   *Wait
	limit  int64 // on the money of what is settled, in minor units, where the choice keeps within a sum
}

// Within says how a plan keeps to the most that the owner will spend.
type Within struct {
	Most      Money   `json:"most"`
	Kept      bool    `json:"kept"`       // the total before tax is within it
	LeastSafe Money   `json:"least_safe"` // the least total before tax that leaves no safety-critical part as it is
	Risk      Money   `json:"risk"`       // what the choice is expected to cost in doing things again
	Left      int     `json:"left"`       // parts left as they are because of it
	Enough    float64 `json:"enough"`     // the chance that it is enough, 0 to 1
}

// settle chooses: the cheapest sound plan; where a week is worth money to the owner, with the longest wait counted; where that comes to more
// than the owner will spend, the least risk within it.
func (p *Planner) settle(ctx context.Context, req PlanRequest, sheets []UnitSheet) (settled, error) {
	s, err := p.sound(ctx, req, sheets)
	if err != nil {
		return s, err
	}
	if err := p.weighWait(ctx, &s); err != nil {
		return s, err
	}
	s.due = s.bench.price(s.sel)
	if req.Job.Brief.Most != nil {
		err = p.keepWithin(ctx, &s, sheets)
	}
	return s, err
}

// sound is the cheapest sound plan. Where the originality that is asked for leaves remedies of some parts that do not go together, the others of
// those parts are offered too, and it is said.
func (p *Planner) sound(ctx context.Context, req PlanRequest, sheets []UnitSheet) (settled, error) {
	for {
		b := newBench(req, sheets)
		sel, err := p.decide(ctx, b.sel)
		if err == nil {
			return settled{bench: b, sel: sel}, nil
		}
		var unsuited *Unsuited
		if !errors.As(err, &unsuited) {
			return settled{}, err
		}
		more := b.mayOffer(unsuited.Parts)
		if len(more) == 0 {
			return settled{}, err
		}
		req.offered = slices.Concat(req.offered, more)
	}
}

// mayOffer are the parts, of some that do not go together, of which originality closes remedies; else those of which their remedies require one.
func (b *bench) mayOffer(parts []int) (out []Place) {
	add := func(x benchPart) {
		if x.kept && !slices.Contains(out, x.place) && !slices.Contains(b.req.offered, x.place) {
			out = append(out, x.place)
		}
	}
	for _, i := range parts {
		add(b.parts[i])
	}
	if len(out) > 0 {
		return out
	}
	for _, i := range parts {
		for _, r := range b.parts[i].options {
			for _, q := range r.Requires {
				for _, x := range b.parts {
					if x.sheet == b.parts[i].sheet && x.place.Target == q.Target {
						add(x)
					}
				}
			}
		}
	}
	return out
}

// total is what the lines of an order come to before tax, in minor units.
func (s settled) total() int64 {
	o, _ := s.bench.order(s.due, s.bench.choices(s.sel, s.due.ch, nil))
	return Minor(o.TotalBeforeTax)
}

// left are the parts that are left as they are though the owner has not said so.
func (s settled) left() []LeftPart {
	var out []LeftPart
	for i, k := range s.sel.Choice {
		if p := s.bench.parts[i]; k >= 0 && p.left == nil && p.options[k].Kind == LeftAsIs {
			out = append(out, LeftPart{p.place, p.part.Name})
		}
	}
	return out
}

// risk is what a choice is expected to cost in doing things again, in minor units.
func (b *bench) risk(sel Selected) int64 {
	sum := int64(0)
	for i, k := range sel.Choice {
		if k >= 0 {
			sum += b.sel.Parts[i].Options[k].Risk
		}
	}
	return sum
}

// tries is how often what lies between two plans of the curve is halved.
const tries = 5

// keepWithin takes the least risk within the most to be spent, if the cheapest sound choice comes to more. Ordinary parts that are settled may
// then be left. Where not even that is enough it takes what costs least, and says so.
func (p *Planner) keepWithin(ctx context.Context, s *settled, sheets []UnitSheet) error {
	req := s.bench.req
	most := Minor(*req.Job.Brief.Most)
	s.within = &Within{Most: *req.Job.Brief.Most, Kept: true}
	least, err := p.least(ctx, req, sheets)
	if err != nil {
		return err
	}
	leastTotal := least.total()
	s.within.LeastSafe = s.bench.money(leastTotal)
	if s.total() > most {
		least.within = s.within
		*s, err = p.capped(ctx, least, leastTotal, s.sel.Money, most)
		if err != nil {
			return err
		}
		if err := p.weighWaitWithin(ctx, s, most); err != nil {
			return err
		}
	}
	s.within.Left = len(s.left())
	s.within.Kept = s.total() <= most
	s.within.Risk = s.bench.money(s.bench.risk(s.sel))
	return nil
}

// least is the choice of the least money in which no safety-critical part is left, and of the least risk at that money.
func (p *Planner) least(ctx context.Context, req PlanRequest, sheets []UnitSheet) (settled, error) {
	req.leaving = true
	s := settled{bench: newBench(req, sheets)}
	riskless := s.bench.sel
	riskless.Parts = slices.Clone(riskless.Parts)
	for i := range riskless.Parts {
		part := &riskless.Parts[i]
		part.Options = slices.Clone(part.Options)
		for k := range part.Options {
			part.Options[k].Risk = 0
		}
	}
	sel, steps, err := p.decideOpen(ctx, riskless)
	if err != nil {
		return s, err
	}
	s.bench.sel.Steps = steps // its money leaves out what is opened in any case, and so does every cap on it
	s.sel, err = p.decide(ctx, s.bench.under(sel.Money))
	if err != nil {
		return s, err
	}
	s.due, s.limit = s.bench.price(s.sel), sel.Money
	return s, nil
}

// under is the Selection under a cap on the money of what is settled, in minor units.
func (b *bench) under(most int64) Selection {
	sel := b.sel
	sel.Cap = &most
	return sel
}

// capped takes the least risk whose total, reserves and all, keeps within the most. The total is not quite the cap and the rest: what is held in
// reserve costs less where more is opened for certain, so that a higher cap may come to the same. The whole curve up to the dearest plan's money is
// looked at, and then what lies between its plans; nothing that Weigh shows is better.
func (p *Planner) capped(ctx context.Context, least settled, leastTotal, dearest, most int64) (settled, error) {
	best := least
	if most < leastTotal {
		return best, nil
	}
	plans, err := p.between(ctx, least, dearest)
	if err != nil {
		return best, err
	}
	for _, at := range plans {
		if at.total() <= most && at.bench.risk(at.sel) < best.bench.risk(best.sel) {
			best = at
		}
	}
	low, high := best.limit, dearest // limits known to keep within, and not to
	for _, at := range plans {
		if at.limit > low && at.total() > most {
			high = min(high, at.limit)
		}
	}
	for range tries {
		limit := low + (high-low)/2
		if limit <= low {
			break
		}
		try, sel := least, least.bench.under(limit)
		sel.Bare = true
		if try.sel, err = p.decide(ctx, sel); err != nil {
			return best, err
		}
		try.due, try.limit = try.bench.price(try.sel), limit
		if try.total() > most {
			high = limit
			continue
		}
		if try.bench.risk(try.sel) < best.bench.risk(best.sel) {
			best = try
		}
		low = limit
	}
	p.nextBest(ctx, &best)
	best.limit = low
	return best, nil
}

// nextBest finds what each part's next best remedy risks within the limit of a choice that was made without.
func (p *Planner) nextBest(ctx context.Context, s *settled) {
	if s.sel.Marginals != nil {
		return
	}
	if again, err := p.decide(ctx, s.bench.under(s.limit)); err == nil && slices.Equal(again.Choice, s.sel.Choice) {
		s.sel.Marginals, s.sel.AtLeast = again.Marginals, again.AtLeast
	}
}

// problems says what the owner is to be asked where what may be spent is not enough.
func (w Within) problems() []Problem {
	if w.Kept {
		return nil
	}
	return []Problem{{Severity: SeverityError, Summary: "what may be spent, " + w.Most.Round().Number() + " before tax, is not enough: the least with every safety item done is " + w.LeastSafe.Number(),
		Next: "agree on more, or on a part that is left on the owner's word: fettle job leave"}}
}
