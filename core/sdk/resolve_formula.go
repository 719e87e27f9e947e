package sdk

import (
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// input is what an identifier of a formula stands for: a reading, another check's value, or a fact.
type input struct {
	name    string
	check   int // index in the part's checks; -1 for a fact
	station string
}

// Marks in a scope for names that are known and yet cannot be used.
const (
	atStations = "\x00stations" // a check read at several stations
	severalOf  = "\x00several"  // a station of more than one check
)

// resolveFormulas checks all formulas of the sheet, with their units.
func (d *document) resolveFormulas(f *faults) {
	facts := scope{}
	for _, x := range d.facts {
		if x.unit != "" && x.unit != wordUnit {
			facts[x.name.text] = x.unit
		}
	}
	for i := range d.parts {
		p := &d.parts[i]
		for j := range p.checks {
			c := &p.checks[j]
			for _, x := range c.formulas() {
				if x != c.formula {
					f.checkFormula(x, facts)
				}
			}
			if c.formula != nil {
				s, inputs := p.scope(j, facts)
				f.checkFormula(c.formula, s)
				for _, name := range c.formula.names {
					c.inputs = append(c.inputs, inputs[name])
				}
			}
			f.boundsInOrder(&c.limit)
		}
		p.circles(f)
	}
}

// formulaName is a check's id as a formula writes it.
func formulaName(id string) string {
	return strings.Map(func(r rune) rune {
		if r == '-' || r == '.' {
			return '_'
		}
		return r
	}, id)
}

// scope is what the formula of the check j may name: its own stations, its siblings' stations and values, the facts.
func (p *partDoc) scope(j int, facts scope) (scope, map[string]input) {
	s, in := scope{}, map[string]input{}
	for n, u := range facts {
		s[n], in[n] = u, input{name: n, check: -1}
	}
	for k := range p.checks {
		c := &p.checks[k]
		if k == j || c.kind != core.Measured && c.kind != core.Derived && c.kind != core.Counted && c.kind != core.Judged {
			continue
		}
		name := formulaName(c.id.text)
		s[name], in[name] = c.unit, input{name: name, check: k}
		if len(c.stations) > 0 && c.kind != core.Derived {
			s[name] = atStations
		}
	}
	for k := range p.checks {
		if k == j {
			continue
		}
		for _, st := range p.checks[k].stations {
			unit := p.checks[k].unit
			if in[st.text].station != "" {
				unit = severalOf
			}
			s[st.text], in[st.text] = unit, input{name: st.text, check: k, station: st.text}
		}
	}
	for _, st := range p.checks[j].stations {
		s[st.text], in[st.text] = p.checks[j].unit, input{name: st.text, check: j, station: st.text}
	}
	return s, in
}

// circles faults derived checks that need each other.
func (p *partDoc) circles(f *faults) {
	edges := map[string][]string{}
	for _, c := range p.checks {
		for _, in := range c.inputs {
			if in.check >= 0 && in.station == "" {
				edges[c.id.text] = append(edges[c.id.text], p.checks[in.check].id.text)
			}
		}
	}
	for _, c := range p.checks {
		if c.formula != nil && reaches(edges, c.id.text, c.id.text) {
			f.add(c.formula.place, "let one of them be measured", "%s is worked out from itself", c.id.text)
		}
	}
}

// boundsInOrder faults written figures that contradict each other.
func (f *faults) boundsInOrder(l *limitDoc) {
	over := func(a, b *formula) bool {
		return a != nil && b != nil && a.fixed != nil && b.fixed != nil && *a.fixed > *b.fixed && !core.LessOrEqual(*a.fixed, *b.fixed)
	}
	switch {
	case over(l.newLow, l.newHigh):
		f.add(l.newLow.place, "write [lowest, highest]", "the new range is upside down")
	case over(l.wearLow, l.wearHigh):
		f.add(l.wearLow.place, "wear_low is the lower", "the wear limits are upside down")
	case over(l.wearLow, l.newLow):
		f.add(l.wearLow.place, "it is passed by wearing below new", "a new part would be past wear_low")
	case over(l.newHigh, l.wearHigh):
		f.add(l.wearHigh.place, "it is passed by wearing above new", "a new part would be past wear_high")
	}
}
