package core

import (
	"fmt"
	"slices"
)

// order writes the lines: access, work, what goes back, and the reserves; totals are sums of rounded lines.
func (b *bench) order(d *due, choices []Choice) (WorkOrder, []Problem) {
	w := orderWriter{b: b, d: d, choices: choices}
	w.strip()
	w.work()
	w.refit()
	w.reserves()
	return w.close()
}

type orderWriter struct {
	b        *bench
	d        *due
	choices  []Choice
	lines    []Line
	shares   [][]TaxShare
	problems []Problem
	saved    float64 // hours that what may fall due would make unnecessary, at their chances
}

func (w *orderWriter) strip() {
	for n, s := range w.b.access.steps {
		if w.d.stepDue[n] == 1 && !s.absent && !s.apart {
			w.add(w.step(n, LineStrip, s.strip, "Strip: "), s.strip.Shares)
		}
	}
}

func (w *orderWriter) refit() {
	for n, s := range w.b.access.steps {
		if w.d.stepDue[n] == 1 && !s.absent && s.refit.Total() != (Range3{}) {
			w.add(w.step(n, LineRefit, s.refit, "Refit: "), s.refit.Shares)
		}
	}
}

func (w *orderWriter) step(n int, kind LineKind, c Cost, prefix string) Line {
	s := w.b.access.steps[n]
	l := w.line(string(kind)+":"+s.key, kind, prefix+s.step.Name, c)
	l.Unit, l.People, l.Skill, l.Cautions = s.unit, s.step.People, s.step.Skill, s.step.Cautions
	l.Shared = len(w.d.stepParts[n])
	return l
}

// line fills what a cost says.
func (w *orderWriter) line(id string, kind LineKind, name string, c Cost) Line {
	t := c.Total()
	l := Line{ID: id, Kind: kind, Name: name, Amount: w.b.money(c.Expected), Low: w.b.money(round(t.Low)), Likely: w.b.money(round(t.Likely)),
		High: w.b.money(round(t.High)), Hours: c.Hours, LeadWeeks: c.Lead, Typical: w.b.money(c.Typical)}
	for _, it := range c.Items {
		l.Items = append(l.Items, OrderItem{Key: it.Key, Name: it.Name, Count: it.Count, Each: w.b.money(round(it.Each.Mean())),
			Supplier: it.Supplier, Kind: it.Kind, Typical: it.Typical, OneUse: it.OneUse, Old: w.b.old(it)})
	}
	return l
}

// old reports whether a price that was asked is older than PriceOldDays.
func (b *bench) old(it PricedItem) bool {
	return !it.Typical && !it.Asked.IsZero() && b.req.Terms.Today.Sub(it.Asked).Hours() > 24*PriceOldDays
}

func (w *orderWriter) work() {
	for n, o := range w.b.ops {
		if w.d.opDue[n] != 1 || w.d.opPaid[n] == 0 {
			continue
		}
		l := w.operation(n, LineWork, "work:", o.op.Name, o.cost)
		w.add(l, o.cost.Shares)
	}
}

func (w *orderWriter) operation(n int, kind LineKind, prefix, name string, c Cost) Line {
	o := w.b.ops[n]
	l := w.line(prefix+o.key, kind, name, c)
	s := w.b.sheets[o.sheet]
	l.Subsystem, l.Unit, l.Skill, l.Outwork, l.Cautions = s.Subsystem, s.Unit, o.op.Skill, o.op.OutworkKind, o.op.Cautions
	l.Shared = len(w.d.opParts[n])
	for _, p := range w.d.opParts[n] {
		w.behind(&l, p)
	}
	return l
}

// behind adds what stands behind a line: the part, its remedy, findings, checks and rules.
func (w *orderWriter) behind(l *Line, part int) {
	c := w.choices[part]
	l.Places = append(l.Places, c.Place)
	l.Safety = l.Safety || w.b.parts[part].part.SafetyCritical
	if c.Remedy != "" {
		l.Remedies = appendNew(l.Remedies, c.Remedy)
	}
	for _, r := range c.Reasons {
		for _, id := range r.FindingIDs {
			l.FindingIDs = appendNew(l.FindingIDs, id)
		}
		l.Checks = appendNew(l.Checks, r.Check)
		l.Rules = appendNew(l.Rules, r.Rule)
	}
}

func appendNew(xs []string, x string) []string {
	if x == "" || slices.Contains(xs, x) {
		return xs
	}
	return append(xs, x)
}

// reserves are the costs that may fall due, each at its chance.
func (w *orderWriter) reserves() {
	credit := w.credits()
	for n, o := range w.b.ops {
		p := w.d.opPaid[n]
		if w.d.opDue[n] == 1 || p == 0 {
			continue
		}
		l := w.operation(n, LineReserve, "reserve:", reserveWord+o.op.Name, o.cost)
		w.reserve(l, o.cost, p, credit[n])
	}
	for n, s := range w.b.access.steps {
		if p := w.d.stepDue[n]; p > 0 && p < 1 && !s.absent {
			c := s.refit
			if !s.apart {
				c = sumCosts(s.strip, s.refit)
			}
			l := w.step(n, LineReserve, c, reserveWord+"open and close, ")
			for _, part := range w.d.stepParts[n] {
				w.behind(&l, part)
			}
			w.reserve(l, c, p, 0)
		}
	}
	for _, e := range w.b.ownEvents(w.d) {
		l := w.line("reserve:"+e.key, LineReserve, reserveWord+e.row.Name, e.cost)
		l.Subsystem, l.Unit, l.Rules = w.b.sheets[e.sheet].Subsystem, w.b.sheets[e.sheet].Unit, []string{e.row.ID}
		w.reserve(l, e.cost, e.chance, 0)
	}
}

// reserve scales a cost to its chance, less what it would make unnecessary.
func (w *orderWriter) reserve(l Line, c Cost, p float64, credit int64) {
	amount := max(round(float64(c.Expected)*p)-credit, 0)
	l.Chance, l.Amount = &p, w.b.money(amount)
	l.Low = w.b.money(0)
	if p < .5 {
		l.Likely = w.b.money(0)
	}
	l.Typical = w.b.money(min(round(float64(c.Typical)*p), amount))
	w.add(l, scaleShares(c, amount))
}

// scaleShares shares an amount out over a cost's tax classes, in proportion, to the last minor unit.
func scaleShares(c Cost, amount int64) []TaxShare {
	var out []TaxShare
	rest := amount
	for i, s := range c.Shares {
		n := rest
		if i < len(c.Shares)-1 && c.Expected != 0 {
			n = round(float64(s.Amount) / float64(c.Expected) * float64(amount))
		}
		rest -= n
		out = append(out, TaxShare{s.Class, n})
	}
	return out
}

// credits gives, for each operation that may make a certain one unnecessary, what is then saved, at its chance.
func (w *orderWriter) credits() map[int]int64 {
	out := map[int]int64{}
	for n := range w.b.ops {
		short := w.d.opDue[n] - w.d.opPaid[n]
		if w.d.opDue[n] != 1 || short <= 0 || w.d.opPaid[n] == 0 {
			continue
		}
		for i := range w.b.ops {
			if slices.Contains(w.b.sel.Operations[i].Includes, n) && w.d.opPaid[i] > 0 {
				out[i] += round(short * float64(w.b.ops[n].cost.Expected))
				w.saved += short * w.b.ops[n].cost.Hours.Mean()
				break
			}
		}
	}
	return out
}

func sumCosts(a, b Cost) Cost {
	a.Hours, a.Labour, a.Goods, a.Outwork = a.Hours.Add(b.Hours), a.Labour.Add(b.Labour), a.Goods.Add(b.Goods), a.Outwork.Add(b.Outwork)
	a.Expected += b.Expected
	a.Typical += b.Typical
	a.Shares = slices.Clone(a.Shares)
	for _, s := range b.Shares {
		if i := slices.IndexFunc(a.Shares, func(x TaxShare) bool { return x.Class == s.Class }); i >= 0 {
			a.Shares[i].Amount += s.Amount
		} else {
			a.Shares = append(a.Shares, s)
		}
	}
	a.Items = append(slices.Clone(a.Items), b.Items...)
	return a
}

// ownEvent is a register row that speaks of no part: an event of its own.
type ownEvent struct {
	key    string
	sheet  int
	row    Hidden
	chance float64
	cost   Cost
	times  float64
}

// ownEvents lists the rows that speak of no part and whose operations are not already due.
func (b *bench) ownEvents(d *due) []ownEvent {
	var es []ownEvent
	for i, s := range b.sheets {
		for j, h := range s.Sheet.Hidden {
			if len(h.Parts) > 0 {
				continue
			}
			e := ownEvent{key: opKey(s, h.ID), sheet: i, row: h, chance: b.outlooks[i].rowChance(j), times: h.Times}
			if e.times == 0 {
				e.times = 1
			}
			for _, n := range b.operations(s, h.Operations) {
				if d.opDue[n] < 1 {
					e.cost = sumCosts(e.cost, b.ops[n].cost)
				}
			}
			if e.cost.Expected > 0 {
				e.cost = timesCost(e.cost, e.times)
				es = append(es, e)
			}
		}
	}
	return es
}

func timesCost(c Cost, k float64) Cost {
	c.Hours, c.Labour, c.Goods, c.Outwork = c.Hours.Scale(k), c.Labour.Scale(k), c.Goods.Scale(k), c.Outwork.Scale(k)
	amount := round(float64(c.Expected) * k)
	c.Shares = scaleShares(c, amount)
	c.Expected, c.Typical = amount, round(float64(c.Typical)*k)
	return c
}

func (w *orderWriter) add(l Line, shares []TaxShare) {
	tax, unknown := w.b.req.Terms.TaxOf(shares)
	l.Tax = w.b.money(tax)
	for _, s := range shares {
		l.TaxShares = append(l.TaxShares, TaxedShare{s.Class, w.b.money(s.Amount)})
	}
	for _, class := range unknown {
		p := Problem{Severity: SeverityWarning, Summary: fmt.Sprintf("no tax rate for %q: none is added", class), Next: "set taxes in fettle.yaml; 0 is a rate"}
		if !slices.ContainsFunc(w.problems, func(q Problem) bool { return q.Summary == p.Summary }) {
			w.problems = append(w.problems, p)
		}
	}
	w.lines, w.shares = append(w.lines, l), append(w.shares, shares)
}

// close sums the rounded lines.
func (w *orderWriter) close() (WorkOrder, []Problem) {
	o := WorkOrder{Lines: append([]Line{}, w.lines...), Taxes: []TaxTotal{}}
	var before, tax, typical int64
	for _, t := range w.b.req.Terms.Taxes {
		o.Taxes = append(o.Taxes, TaxTotal{Class: t.Class, Name: t.Name, Percent: t.Percent})
	}
	bases, taxes := make([]int64, len(o.Taxes)), make([]int64, len(o.Taxes))
	for i, l := range w.lines {
		before += Minor(l.Amount)
		tax += Minor(l.Tax)
		typical += Minor(l.Typical)
		p := 1.0
		if l.Chance != nil {
			p = *l.Chance
		}
		o.HoursExpected += p * l.Hours.Mean()
		for _, s := range w.shares[i] {
			for k, t := range w.b.req.Terms.Taxes {
				if t.Class == s.Class {
					one, _ := w.b.req.Terms.TaxOf([]TaxShare{s})
					bases[k] += s.Amount
					taxes[k] += one
				}
			}
		}
	}
	o.HoursExpected -= w.saved
	for k := range o.Taxes {
		o.Taxes[k].Base, o.Taxes[k].Tax = w.b.money(bases[k]), w.b.money(taxes[k])
	}
	o.TotalBeforeTax, o.Tax, o.Total, o.Typical = w.b.money(before), w.b.money(tax), w.b.money(before+tax), w.b.money(typical)
	o.DoneOnce = w.doneOnce()
	return o, w.problems
}

// doneOnce is the access saved: what each subsystem would open by itself, less what is opened once for all, in likely strip hours.
func (w *orderWriter) doneOnce() float64 {
	alone, once := 0.0, 0.0
	closed := w.b.access.allClosed()
	hours := func(n int) float64 {
		if s := closed.steps[n]; !s.absent && !s.apart {
			return s.step.StripHours.Likely
		}
		return 0
	}
	union := make([]bool, len(closed.steps))
	for sheet := range w.b.sheets {
		var want []int
		for o := range w.b.ops {
			if w.b.ops[o].sheet != sheet || w.d.opDue[o] != 1 || w.d.opPaid[o] != 1 {
				continue
			}
			for _, part := range w.d.opParts[o] {
				if k := w.d.sel.Choice[part]; k >= 0 {
					want = append(want, w.b.sel.Parts[part].Options[k].Steps...)
				}
			}
		}
		for _, n := range closed.closure(want, nil) {
			alone += hours(n)
			union[n] = true
		}
	}
	for n, in := range union {
		if in {
			once += hours(n)
		}
	}
	return max(0, alone-once)
}
