package core

import (
	"cmp"
	"context"
	"slices"
)

// Weighing is money against risk, and money against waiting: what a further sum buys.
type Weighing struct {
	// Risks are sound plans that cost more and risk less from one to the next. The first is the least with every safety item done, the last the
	// cheapest with its risk counted in.
	Risks []Weighed `json:"risks"`
	// Waits are the cheapest sound plans with ever shorter longest waits, the cheapest of all first.
	Waits []Weighed `json:"waits"`
}

// Weighed is one plan of a Weighing.
type Weighed struct {
	Total   Money              `json:"total"`     // expected, before tax, reserves included
	Risk    Money              `json:"risk"`      // expected cost of doing things again
	Weeks   float64            `json:"weeks"`     // the longest wait for goods or work outside, likely
	Left    int                `json:"left"`      // ordinary parts left as they are
	Differs []ChoiceDifference `json:"differs"`   // from the plan before, in the sheets' order
	More    Money              `json:"more"`      // Total over the plan before
	Less    Money              `json:"less_risk"` // Risk under the plan before
}

// weighedCaps is how many sums of money the least and the dearest plan are parted by.
const weighedCaps = 20

// Weigh lays money against risk and against waiting. Errors are those of Plan.
func (p *Planner) Weigh(ctx context.Context, req PlanRequest) (Weighing, error) {
	req.Job.Brief.Most, req.Job.Brief.WeekWorth = nil, nil
	sheets, _ := p.assess(ctx, req)
	free, err := p.settle(ctx, req, sheets)
	if err != nil {
		return Weighing{}, err
	}
	least, err := p.least(ctx, free.bench.req, sheets)
	if err != nil {
		return Weighing{}, err
	}
	var w Weighing
	plans, err := p.between(ctx, least, free.sel.Money)
	if err != nil {
		return w, err
	}
	w.Risks = ladder(append(append([]settled{least}, plans...), free), func(was, now Weighed) bool { return Minor(now.Risk) < Minor(was.Risk) },
		func(was, now Weighed) bool {
			return Minor(now.Total) <= Minor(was.Total) && Minor(now.Risk) <= Minor(was.Risk)
		})
	choices, err := p.shorter(ctx, free.bench, nil, free.sel, nil)
	if err != nil {
		return w, err
	}
	plans = plans[:0]
	for _, sel := range choices {
		plans = append(plans, settled{bench: free.bench, sel: sel, due: free.bench.price(sel)})
	}
	w.Waits = ladder(plans, func(was, now Weighed) bool { return now.Weeks < was.Weeks },
		func(was, now Weighed) bool { return false })
	return w, nil
}

// between gives the plans of least risk under sums of money between the least plan's and the dearest's, in minor units.
func (p *Planner) between(ctx context.Context, least settled, dearest int64) ([]settled, error) {
	var caps []int64
	for i := int64(1); i < weighedCaps; i++ {
		caps = append(caps, least.sel.Money+(dearest-least.sel.Money)*i/weighedCaps)
	}
	sels, err := p.curve(ctx, least.bench, caps)
	var plans []settled
	for i, sel := range sels {
		if sel.Choice == nil {
			continue // not found in time
		}
		at := least
		at.sel, at.due, at.limit = sel, at.bench.price(sel), caps[i]
		plans = append(plans, at)
	}
	return plans, err
}

// curve gives the least risk under each of some caps on the money of what is settled, in one call where the Decider can; one without a Choice was not found in time. All caps can be kept.
func (p *Planner) curve(ctx context.Context, b *bench, caps []int64) ([]Selected, error) {
	if c, ok := p.Decider.(Curver); ok {
		ctx, stop := context.WithTimeout(ctx, curveWithin)
		defer stop()
		return c.Curve(ctx, b.sel, caps)
	}
	out := make([]Selected, len(caps))
	for i, most := range caps {
		var err error
		if out[i], err = p.decide(ctx, b.under(most)); err != nil {
			return out, err
		}
	}
	return out, nil
}

// weighed is a plan with its figures.
type weighed struct {
	Weighed
	choices []Choice
	risks   map[Place]int64 // of the settled parts; looked up only
}

func (s settled) weigh() weighed {
	choices := s.bench.choices(s.sel, s.due.ch, nil)
	order, _ := s.bench.order(s.due, choices)
	w := weighed{Weighed{Total: order.TotalBeforeTax, Risk: s.bench.money(s.bench.risk(s.sel)), Weeks: s.bench.longest(s.sel), Differs: []ChoiceDifference{}}, choices, map[Place]int64{}}
	for _, c := range choices {
		if c.Kind == LeftAsIs {
			w.Left++
		}
	}
	for i, k := range s.sel.Choice {
		if k >= 0 {
			w.risks[s.bench.parts[i].place] = s.bench.sel.Parts[i].Options[k].Risk
		}
	}
	return w
}

// ladder puts each plan beside the one before it. A plan that is no step on is left out, and so is one that a later plan makes needless. What
// lowers the risk most is named first.
func ladder(plans []settled, on, needless func(was, now Weighed) bool) []Weighed {
	var steps []weighed
	for _, s := range plans {
		now := s.weigh()
		for len(steps) > 0 && needless(steps[len(steps)-1].Weighed, now.Weighed) {
			steps = steps[:len(steps)-1]
		}
		if len(steps) == 0 || on(steps[len(steps)-1].Weighed, now.Weighed) {
			steps = append(steps, now)
		}
	}
	out := make([]Weighed, len(steps))
	for i, now := range steps {
		if i > 0 {
			was := steps[i-1]
			code := now.Total.CurrencyCode()
			now.Differs = choiceDifferences(was.choices, now.choices)
			slices.SortStableFunc(now.Differs, func(a, b ChoiceDifference) int {
				return cmp.Compare(was.risks[b.Place]-now.risks[b.Place], was.risks[a.Place]-now.risks[a.Place])
			})
			now.More, now.Less = MinorMoney(Minor(now.Total)-Minor(was.Total), code), MinorMoney(Minor(was.Risk)-Minor(now.Risk), code)
		}
		out[i] = now.Weighed
	}
	return out
}
