package core

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
)

// Look is something to look at next: the steps to open and the readings they allow.
type Look struct {
	Parts   []LookedAt `json:"parts"`
	Open    []LookStep `json:"open,omitempty"` // not done yet, in the order of the plan
	Minutes float64    `json:"minutes"`        // to open, to read, and to put back
	Share   float64    `json:"share"`          // of the variance of the price that it is expected to settle, 0 to 1
	// Together is the share that it and all ranked before it settle, never over 1; 0 beyond the first rankedTogether.
	Together float64 `json:"together,omitempty"`
	asked    ForecastLook
}

// LookedAt is a part of a look, with the checks to take.
type LookedAt struct {
	Place
	PartName string      `json:"part_name"`
	Checks   []LookCheck `json:"checks"`
}

// LookCheck is a check of a look.
type LookCheck struct {
	Check      string  `json:"check"`
	Name       string  `json:"name"`
	Instrument string  `json:"instrument,omitempty"`
	Minutes    float64 `json:"minutes"`
	Again      bool    `json:"again,omitempty"` // it was read, too near its limit to say
}

// LookStep is a step to be opened for a look.
type LookStep struct {
	ID    string  `json:"id"`
	Unit  string  `json:"unit,omitempty"`
	Name  string  `json:"name"`
	Hours float64 `json:"hours"` // likely, off and on again
}

// Last names the step that lays the parts open, and how many must be done before it; "" if everything is open.
func (l Look) Last() (name string, before int) {
	if len(l.Open) == 0 {
		return "", 0
	}
	return l.Open[len(l.Open)-1].Name, len(l.Open) - 1
}

// First says what must be opened first; "" if everything is open.
func (l Look) First() string {
	switch step, before := l.Last(); {
	case before == 1:
		return step + ", and a step before it"
	case before > 1:
		return fmt.Sprintf("%s, and %d steps before it", step, before)
	default:
		return step
	}
}

// Reads names the checks to take.
func (l LookedAt) Reads() []string {
	var names []string
	for _, c := range l.Checks {
		name := c.Name
		if c.Again {
			name += " again"
		}
		names = append(names, name)
	}
	return names
}

// PerHour is the share that an hour of the look settles, by which looks are ranked.
func (l Look) PerHour() float64 { return l.Share * 60 / max(l.Minutes, 1) }

// leastShare is the least of the variance that is worth a line of its own.
const leastShare = .0005

// LookNext ranks what could be looked at by the share of the price's variance that a minute of it settles, the most first. A look is one part,
// or all parts that the same steps lay open. Errors are those of Plan.
func (p *Planner) LookNext(ctx context.Context, req PlanRequest) ([]Look, error) {
	return p.LookInOrder(ctx, req, func(looks []Look) []Look {
		looks = slices.DeleteFunc(looks, func(l Look) bool { return l.Share < leastShare })
		slices.SortStableFunc(looks, func(x, y Look) int {
			return cmp.Or(cmp.Compare(y.PerHour(), x.PerHour()), cmp.Compare(y.Share, x.Share))
		})
		return looks
	})
}

// LookInOrder is LookNext in another order, for comparison. order is given all looks in the order of the sheets.
func (p *Planner) LookInOrder(ctx context.Context, req PlanRequest, order func([]Look) []Look) ([]Look, error) {
	sheets, _ := p.assess(ctx, req)
	s, err := p.settle(ctx, req, sheets)
	if err != nil {
		return nil, err
	}
	b, d := s.bench, s.due
	seen := b.lookable(d)
	looks, asked := b.looks(seen)
	f := b.forecast(d)
	shares, err := p.Looker.Settles(ctx, f, asked)
	if err != nil {
		return nil, err
	}
	for i := range looks {
		looks[i].Share, looks[i].asked = shares[i], asked[i]
	}
	looks = withSomethingNew(order(looks))
	return looks, p.together(ctx, f, looks)
}

// withSomethingNew drops the looks at parts that those ranked before them look at already.
func withSomethingNew(looks []Look) []Look {
	seen := map[ForecastPart]bool{}
	return slices.DeleteFunc(looks, func(l Look) bool {
		fresh := false
		for _, p := range l.asked {
			fresh = fresh || !seen[p]
			seen[p] = true
		}
		return !fresh
	})
}

// rankedTogether is of how many looks it is said what they settle together.
const rankedTogether = 100

// together fills in what each look settles with all before it.
func (p *Planner) together(ctx context.Context, f Forecast, looks []Look) error {
	n := min(len(looks), rankedTogether)
	asked := make([]ForecastLook, n)
	var all ForecastLook
	for i := range n {
		for _, at := range looks[i].asked {
			if !slices.Contains(all, at) {
				all = append(all, at)
			}
		}
		asked[i] = slices.Clone(all)
	}
	shares, err := p.Looker.Settles(ctx, f, asked)
	if err != nil {
		return err
	}
	known := 0.0
	for i, share := range shares {
		known = max(known, share, looks[i].Share) // effects that overlap are summed up twice: no less is known than before
		looks[i].Together = known
	}
	return nil
}

// lookable is a part that is not settled and can be looked at.
type lookable struct {
	at   ForecastPart
	part LookedAt
	open []int // steps of the access still to be opened
	mins float64
}

// lookable lists the parts whose state a reading would tell.
func (b *bench) lookable(d *due) []lookable {
	var out []lookable
	for k, blk := range d.sel.Blocks {
		for m, part := range blk.Parts {
			p := b.parts[part]
			checks := lookChecks(p)
			if len(b.sel.Parts[part].States) < 2 || len(checks) == 0 {
				continue
			}
			l := lookable{at: ForecastPart{k, m}, part: LookedAt{Place: p.place, PartName: p.part.Name, Checks: checks}, open: b.access.unopened(p.reach)}
			for _, c := range checks {
				l.mins += c.Minutes
			}
			out = append(out, l)
		}
	}
	return out
}

// lookChecks are the checks of a part that are still to be read, or the one to be read again.
func lookChecks(p benchPart) []LookCheck {
	again := p.cond.Grade == MeasureAgain
	ids := p.cond.ChecksNotRead
	if again {
		ids = []string{p.cond.GoverningCheck}
	}
	var out []LookCheck
	for _, id := range ids {
		if c := p.part.Check(id); c != nil {
			out = append(out, LookCheck{Check: c.ID, Name: c.Name, Instrument: c.Instrument, Minutes: c.Minutes, Again: again})
		}
	}
	return out
}

// unopened gives the steps that must still be opened to reach some, in the plan's order.
func (a *access) unopened(want []int) []int {
	gone := func(n int) bool { return a.steps[n].apart || a.steps[n].absent }
	return slices.DeleteFunc(a.closure(want, gone), gone)
}

// looks makes a look of each part, and one of all that the same steps lay open.
func (b *bench) looks(parts []lookable) (looks []Look, asked []ForecastLook) {
	add := func(open []int, which []lookable) {
		l, f := Look{Open: b.lookSteps(open)}, ForecastLook{}
		for _, s := range l.Open {
			l.Minutes += 60 * s.Hours
		}
		for _, p := range which {
			l.Parts, f = append(l.Parts, p.part), append(f, p.at)
			l.Minutes += p.mins
		}
		l.Minutes = math.Round(l.Minutes*10) / 10
		looks, asked = append(looks, l), append(asked, f)
	}
	done := map[string]bool{}
	for _, p := range parts {
		add(p.open, []lookable{p})
		key := fmt.Sprint(p.open)
		if len(p.open) == 0 || done[key] {
			continue
		}
		done[key] = true
		var together []lookable
		for _, q := range parts {
			if !slices.ContainsFunc(q.open, func(n int) bool { return !slices.Contains(p.open, n) }) && len(q.open) > 0 {
				together = append(together, q)
			}
		}
		if len(together) > 1 {
			add(p.open, together)
		}
	}
	return looks, asked
}

func (b *bench) lookSteps(open []int) []LookStep {
	var out []LookStep
	for _, n := range open {
		s := &b.access.steps[n]
		out = append(out, LookStep{ID: s.step.ID, Unit: s.unit, Name: s.step.Name, Hours: s.step.StripHours.Likely + s.step.Refit().Likely})
	}
	return out
}

// Instruments names what the look is done with, each once.
func (l Look) Instruments() []string {
	var out []string
	for _, p := range l.Parts {
		for _, c := range p.Checks {
			if c.Instrument != "" {
				out = appendNew(out, c.Instrument)
			}
		}
	}
	return out
}

// Called names the look in words: the part, or how many the steps lay open.
func (l Look) Called() string {
	if len(l.Parts) == 1 {
		return strings.TrimSpace(l.Parts[0].PartName + " " + l.Parts[0].Position)
	}
	var names []string
	for _, p := range l.Parts {
		names = appendNew(names, p.PartName)
	}
	if len(names) > 3 {
		names = append(names[:3], fmt.Sprintf("%d more", len(names)-3))
	}
	return fmt.Sprintf("%d parts: %s", len(l.Parts), strings.Join(names, ", "))
}
