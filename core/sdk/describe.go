package sdk

import (
	"fmt"

	"github.com/fettle-tools/fettle/core"
)

// described is a sheet for one unit's facts: positions and limits worked out.
type described struct {
	doc       *document
	sheet     core.Sheet
	parts     []*partDoc // of sheet.Parts, one for one
	known     map[string]float64
	values    map[string]core.Value
	instances *instances
	problems  []core.Problem
	told      map[core.Problem]bool
	asked     map[string][]waiting // by fact that is not known
}

// describe works a sheet out for the facts given. A limit whose fact is not known stays empty and a problem asks for the
// fact: no figure is made up.
func (d *document) describe(given []core.Fact) *described {
	r := &described{doc: d, known: map[string]float64{}, values: map[string]core.Value{}, asked: map[string][]waiting{}, told: map[core.Problem]bool{}}
	r.takeFacts(given)
	r.sheet = core.Sheet{Subsystem: d.subsystem.text, Title: d.title.text, Version: d.version.text, UnitKind: d.unitKind.text,
		OutlookWeight: d.outlookWeight, Parts: []core.Part{}, Operations: []core.Operation{}}
	for _, f := range d.facts {
		if f.absent != nil {
			r.sheet.DefaultFacts = append(r.sheet.DefaultFacts, core.Fact{Name: f.name.text, Value: core.Value{Kind: core.ValueCount, Count: *f.absent}, Source: "the sheet: " + f.means})
		}
	}
	for i := range d.parts {
		r.part(&d.parts[i])
	}
	for _, o := range d.operations {
		op := o.copy()
		op.Includes = plain(o.includes)
		r.sheet.Operations = append(r.sheet.Operations, op)
	}
	r.rest()
	r.instances = d.instances(r)
	return r
}

// problem notes a problem, once.
func (r *described) problem(p core.Problem) {
	p.Subsystem = r.doc.subsystem.text
	if !r.told[p] {
		r.told[p] = true
		r.problems = append(r.problems, p)
	}
}

// takeFacts keeps the facts the sheet knows, each once, in the sheet's unit.
func (r *described) takeFacts(given []core.Fact) {
	names := wordsOf(r.doc.facts, func(f *factDoc) word { return f.name })
	for _, g := range given {
		f := r.doc.fact(g.Name)
		if f == nil {
			if near := nearest(g.Name, plain(names)); near != "" {
				r.problem(core.Problem{Severity: core.SeverityNote, Summary: fmt.Sprintf("the fact %s is not used here", g.Name), Next: "did you mean " + near + "?"})
			}
			r.values[g.Name] = g.Value
			continue
		}
		if g.Value.Kind == core.ValueNone || g.Value.Kind == core.ValueNotRead {
			continue
		}
		if old, twice := r.values[g.Name]; twice {
			if old != g.Value {
				r.problem(core.Problem{Severity: core.SeverityWarning, Summary: fmt.Sprintf("the fact %s is given twice: %s and %s", g.Name, old, g.Value), Next: "keep one; the first is used"})
			}
			continue
		}
		if f.unit == wordUnit {
			r.values[g.Name] = g.Value
			continue
		}
		x, why := f.value(g.Value)
		if why != "" {
			r.problem(core.Problem{Severity: core.SeverityError, Summary: fmt.Sprintf("the fact %s (%s) cannot be used: %s", g.Name, f.means, why), Next: "give it again, as " + f.wanted()})
			continue
		}
		r.values[g.Name], r.known[g.Name] = g.Value, x
	}
	for _, f := range r.doc.facts {
		if _, ok := r.known[f.name.text]; !ok && f.absent != nil {
			r.known[f.name.text] = float64(*f.absent)
			r.values[f.name.text] = core.Value{Kind: core.ValueCount, Count: *f.absent}
		}
	}
}

// count gives a count for a position; at most maxPositions.
func (r *described) count(name string) (int, bool) {
	v, ok := r.known[name]
	if ok && v > maxPositions {
		r.problem(core.Problem{Severity: core.SeverityError, Summary: fmt.Sprintf("the fact %s counts more than %d positions", name, maxPositions), Next: "give it again"})
		ok = false
	}
	if !ok {
		return r.doc.usualCount(name)
	}
	return int(v), true
}

// fact gives a fact in the unit that a formula with this result expects.
func (r *described) fact(name, resultUnit string) (float64, bool) {
	v, ok := r.known[name]
	if !ok {
		return 0, false
	}
	return toResult(v, r.doc.fact(name).unit, resultUnit), true
}

// toResult converts a value of the result's own dimension into the result's unit; others stay as they are.
func toResult(v float64, unit, resultUnit string) float64 {
	if unit == resultUnit {
		return v
	}
	if x, err := core.Convert(v, unit, resultUnit); err == nil {
		return x
	}
	return v
}

// bound works one bound out; nil if it is not written or a fact is not known.
func (r *described) bound(x *formula, waits waiting) *float64 {
	if x == nil {
		return nil
	}
	v, ok := x.eval(func(name string) (float64, bool) { return r.fact(name, x.unit) })
	if !ok {
		for _, name := range x.missing(func(n string) bool { _, ok := r.known[n]; return ok }) {
			r.wait(name, waits)
		}
		return nil
	}
	return &v
}
