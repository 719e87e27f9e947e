package sdk

import (
	"fmt"

	"github.com/fettle-tools/fettle/core"
)

// part adds a part with its positions; one whose positions count to none is left out.
func (r *described) part(d *partDoc) {
	positions, err := expandAll(d.positions, r.count)
	if err != nil {
		r.problem(core.Problem{Severity: core.SeverityError, Summary: fmt.Sprintf("the positions of %s: %v", d.name.text, err), Next: "give the count again"})
		positions, _ = expandAll(d.positions, r.doc.usualCount)
	}
	if len(d.positions) > 0 && len(positions) == 0 {
		return
	}
	p := core.Part{ID: d.id.text, Name: d.name.text, Positions: positions, Count: d.count, SafetyCritical: d.safety, OneUse: d.oneUse,
		Checks: []core.Check{}, Reach: plain(d.reach)}
	if d.life != nil {
		life := *d.life
		p.Life = &life
	}
	for i := range d.checks {
		p.Checks = append(p.Checks, r.check(d, &d.checks[i]))
	}
	p.Outlook = r.doc.outlook(d)
	r.sheet.Parts = append(r.sheet.Parts, p)
	r.parts = append(r.parts, d)
}

func (r *described) check(p *partDoc, d *checkDoc) core.Check {
	c := core.Check{ID: d.id.text, Name: d.name, Kind: d.kind, Unit: d.unit, Stations: plain(d.stations), How: d.how, Instrument: d.instrument,
		TwoSided: d.twoSided, BeforeStrip: d.before, NeededForReuse: d.needed, Minutes: d.minutes, CountWhenFitted: d.fitted}
	c.Limit = r.limit(p, d)
	c.PlausibleLow, c.PlausibleHigh = r.bound(d.plausible[0], waiting{}), r.bound(d.plausible[1], waiting{})
	if c.PlausibleLow == nil || c.PlausibleHigh == nil {
		c.PlausibleLow, c.PlausibleHigh = nil, nil
	}
	if d.formula != nil {
		c.Formula = d.formula.text
		for _, in := range d.inputs {
			if _, ok := r.known[in.name]; in.check < 0 && !ok {
				r.wait(in.name, waiting{p.id.text, d.id.text, true})
			}
		}
	}
	return c
}

// limit works a limit out. If one bound cannot be, all stay empty: half a limit would pass what the whole would not.
func (r *described) limit(p *partDoc, d *checkDoc) core.Limit {
	l := core.Limit{Unit: d.unit, Source: d.limit.source, Confidence: d.limit.confidence, Origin: "sheet"}
	w, full, whole := &d.limit, l, true
	if w.worstClass != nil {
		worst := *w.worstClass
		full.WorstClass = &worst
	}
	if w.newClass != nil {
		v := float64(*w.newClass)
		full.NewHigh = &v
	}
	for _, b := range []struct {
		from *formula
		to   **float64
	}{{w.newLow, &full.NewLow}, {w.newHigh, &full.NewHigh}, {w.wearLow, &full.WearLow}, {w.wearHigh, &full.WearHigh}} {
		if b.from == nil {
			continue
		}
		if *b.to = r.bound(b.from, waiting{p.id.text, d.id.text, false}); *b.to == nil {
			whole = false
		}
	}
	if !whole {
		return l
	}
	if why := upsideDown(full); why != "" {
		r.problem(core.Problem{Severity: core.SeverityError, Summary: fmt.Sprintf("the limit of %s %s makes no sense for these facts: %s", p.id.text, d.id.text, why),
			Next: "check the facts; the limit is left empty"})
		return l
	}
	return full
}

// upsideDown says which bounds of a limit contradict each other, or "".
func upsideDown(l core.Limit) string {
	over := func(a, b *float64) bool { return a != nil && b != nil && !core.LessOrEqual(*a, *b) }
	switch {
	case over(l.NewLow, l.NewHigh):
		return "the new range is upside down"
	case over(l.WearLow, l.WearHigh):
		return "the wear limits are upside down"
	case over(l.WearLow, l.NewLow), over(l.WearLow, l.NewHigh), over(l.NewHigh, l.WearHigh), over(l.NewLow, l.WearHigh):
		return "a new part would be past the wear limit"
	}
	return ""
}

// outlook gives the states of an unseen part.
func (d *document) outlook(p *partDoc) []core.State {
	if p.oneUse {
		return []core.State{{Chance: 1, Grade: core.WornFit, Remedies: p.feasible(nil, []core.RemedyKind{core.Replace})}}
	}
	past, e := d.chance(p)
	id := ""
	if e != nil && !e.parted() {
		id = e.id.text
	}
	return twoStates(past, id,
		core.State{Grade: core.WornFit, Remedies: p.feasible(nil, nil)},
		core.State{Grade: core.PastLimit, Remedies: p.feasible(p.neededChecks(), nil)})
}

// twoStates joins a good and a bad state by the chance of the bad one, which is the register entry's event if there is one;
// a state of no chance is left out.
func twoStates(past float64, registerID string, good, bad core.State) []core.State {
	past = tidy(past)
	good.Chance = tidy(1 - past)
	bad.Chance, bad.RegisterID = past, registerID
	switch {
	case past <= 0:
		return []core.State{good}
	case past >= 1:
		return []core.State{bad}
	}
	return []core.State{good, bad}
}

func (p *partDoc) neededChecks() []string {
	var ids []string
	for _, c := range p.checks {
		if c.needed {
			ids = append(ids, c.id.text)
		}
	}
	return ids
}

// feasible lists the remedies that answer all of the checks that close reuse, of the kinds allowed (nil: any). Reuse
// answers nothing. The order is reuse, rebuild, replace, then as written.
func (p *partDoc) feasible(closing []string, allowed []core.RemedyKind) []string {
	ids := []string{}
	for rank := 0; rank <= 2; rank++ {
		for i := range p.remedies {
			r := &p.remedies[i]
			if r.kind.Rank() != rank || !allows(allowed, r.kind) {
				continue
			}
			if r.kind == core.Reuse && len(closing) == 0 || r.kind != core.Reuse && r.curesAll(closing) {
				ids = append(ids, r.id.text)
			}
		}
	}
	return ids
}

func allows(allowed []core.RemedyKind, k core.RemedyKind) bool {
	if allowed == nil {
		return true
	}
	for _, a := range allowed {
		if a == k {
			return true
		}
	}
	return false
}
