package core

import (
	"cmp"
	"context"
	"slices"
)

// Wait is the longest wait for goods or work outside that a choice of remedies brings. Waits run side by side, so the longest counts.
type Wait struct {
	Weeks float64 `json:"weeks"`          // likely
	Worth Money   `json:"worth,omitzero"` // of a week less, to the owner
	// Cheapest is the longest wait of the cheapest sound plan; Costs is what the shorter wait costs more than that.
	Cheapest float64 `json:"cheapest_weeks"`
	Costs    Money   `json:"costs"`
	// Within is that the plan keeps to a sum: Cheapest is then that of the plan of least risk within it, and Costs is the risk that the shorter wait adds.
	Within bool `json:"within,omitempty"`
}

// leadOf is how long an option's goods and outwork take to come, in likely weeks.
func (b *bench) leadOf(o SelectOption) float64 {
	weeks := 0.0
	for _, n := range o.Operations {
		weeks = max(weeks, b.ops[n].cost.Lead.Likely)
	}
	return weeks
}

// longest is the longest lead of what is chosen for parts that are settled.
func (b *bench) longest(sel Selected) float64 {
	weeks := 0.0
	for i, k := range sel.Choice {
		if k >= 0 {
			weeks = max(weeks, b.leadOf(b.sel.Parts[i].Options[k]))
		}
	}
	return weeks
}

// leads are the leads of the options of parts that are settled, the longest first, each once.
func (b *bench) leads() []float64 {
	var out []float64
	for _, p := range b.sel.Parts {
		for _, o := range p.Options {
			if w := b.leadOf(o); len(p.States) == 1 && !slices.Contains(out, w) {
				out = append(out, w)
			}
		}
	}
	slices.SortFunc(out, func(x, y float64) int { return cmp.Compare(y, x) })
	return out
}

// sooner is the Selection without the options of settled parts that take longer than some weeks; ok is false if a part then has none.
func (b *bench) sooner(weeks float64) (sel Selection, ok bool) {
	sel = b.sel
	sel.Parts = slices.Clone(sel.Parts)
	for i, p := range sel.Parts {
		if len(p.States) != 1 {
			continue
		}
		st := p.States[0]
		st.Options = slices.DeleteFunc(slices.Clone(st.Options), func(k int) bool { return b.leadOf(p.Options[k]) > weeks+Slack })
		if len(st.Options) == 0 {
			return sel, false
		}
		sel.Parts[i].States = []SelectState{st}
	}
	return sel, true
}

// shorter gives the cheapest sound choices with ever shorter longest waits, the cheapest of all (which must be given) first. Each wait is shorter
// than that of the choice before; the last is the shortest there is. Stop ends it early. Under a limit on money, in minor units, they are the
// choices of least risk within it; nil: none.
func (p *Planner) shorter(ctx context.Context, b *bench, limit *int64, cheapest Selected, stop func(Selected) bool) ([]Selected, error) {
	out := []Selected{cheapest}
	wait := b.longest(cheapest)
	for _, weeks := range b.leads() {
		if weeks >= wait-Slack {
			continue
		}
		sel, ok := b.sooner(weeks)
		if !ok {
			break
		}
		sel.Cap = limit
		got, err := p.decide(ctx, sel)
		if ErrorCode(err) == Invalid {
			break // parts that go together cannot all come so soon, or not for so little
		}
		if err != nil {
			return out, err
		}
		if stop != nil && stop(got) {
			break
		}
		out, wait = append(out, got), b.longest(got)
	}
	return out, nil
}

// weighWait takes a shorter wait where the owner holds it to be worth more than it costs: money, risk and the longest wait at the owner's price
// together are then the least there is.
func (p *Planner) weighWait(ctx context.Context, s *settled) error {
	worth := s.bench.req.Job.Brief.WeekWorth
	if worth == nil {
		return nil
	}
	b, cheapest := s.bench, s.sel
	sum := func(sel Selected) float64 { return float64(sel.Value) + float64(Minor(*worth))*b.longest(sel) }
	best := sum(cheapest)
	// What is sooner costs no less: beyond the best sum no shorter wait pays.
	choices, err := p.shorter(ctx, b, nil, cheapest, func(sel Selected) bool { return float64(sel.Value) >= best })
	if err != nil {
		return err
	}
	for _, sel := range choices[1:] {
		if x := sum(sel); x < best-Slack {
			best, s.sel = x, sel
		}
	}
	s.wait = &Wait{Weeks: b.longest(s.sel), Worth: *worth, Cheapest: b.longest(cheapest), Costs: b.money(s.sel.Value - cheapest.Value)}
	return nil
}

// weighWaitWithin does the same within a sum, in minor units: the risk of the choice and the longest wait at the owner's price together are then
// the least there is within it. No more parts are left as they are for the sake of a shorter wait.
func (p *Planner) weighWaitWithin(ctx context.Context, s *settled, most int64) error {
	worth := s.bench.req.Job.Brief.WeekWorth
	if worth == nil {
		return nil
	}
	b, safest := s.bench, s.sel
	sum := func(sel Selected) float64 { return float64(b.risk(sel)) + float64(Minor(*worth))*b.longest(sel) }
	best, left := sum(safest), len(s.left())
	choices, err := p.shorter(ctx, b, &s.limit, safest, func(sel Selected) bool { return float64(b.risk(sel)) >= best })
	if err != nil {
		return err
	}
	for _, sel := range choices[1:] {
		try := settled{bench: b, sel: sel, due: b.price(sel), limit: s.limit, within: s.within}
		if x := sum(sel); x < best-Slack && len(try.left()) <= left && try.total() <= most {
			best, *s = x, try
		}
	}
	s.wait = &Wait{Weeks: b.longest(s.sel), Worth: *worth, Cheapest: b.longest(safest), Costs: b.money(b.risk(s.sel) - b.risk(safest)), Within: true}
	return nil
}
