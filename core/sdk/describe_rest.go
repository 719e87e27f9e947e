package sdk

import (
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// rest adds what hangs on parts: sets, rules, register, steps, cautions.
func (r *described) rest() {
	d := r.doc
	for _, s := range d.sets {
		set := core.Set{ID: s.id.text, Name: s.name.text, SameKind: s.sameKind, AgreeOn: s.agreeOn.text, CompleteBeforeOrder: s.complete}
		for _, m := range s.members {
			set.Members = append(set.Members, r.members(m.text)...)
		}
		if len(set.Members) > 0 {
			r.sheet.Sets = append(r.sheet.Sets, set)
		}
	}
	for _, n := range d.noReuse {
		r.sheet.NoReuse = append(r.sheet.NoReuse, core.NoReuse{ID: n.id.text, Part: n.part.text, Check: n.check.text, Trigger: n.trigger, Allowed: slices.Clone(n.allowed), Source: n.source})
	}
	for i := range d.register {
		r.sheet.Hidden = append(r.sheet.Hidden, r.hidden(&d.register[i])...)
	}
	for _, s := range d.steps {
		step := s.step
		step.ID, step.Scope = d.subsystem.text+":"+s.id.text, d.unitKind.text
		step.AllOf = plain(s.allOf)
		for _, clause := range s.anyOf {
			step.AnyOf = append(step.AnyOf, plain(clause))
		}
		for _, w := range s.destroys {
			step.Destroys = append(step.Destroys, d.subsystem.text+"/"+w.text)
		}
		r.sheet.Steps = append(r.sheet.Steps, step)
	}
	for _, c := range d.cautions {
		r.sheet.Cautions = append(r.sheet.Cautions, c.core(""))
	}
}

// members expands "part" to all its positions, and "part/position" to that one; positions that are not there give none.
func (r *described) members(name string) []core.Target {
	id, position, one := strings.Cut(name, "/")
	p := r.sheet.Part(id)
	if p == nil {
		return nil
	}
	if !one {
		return p.Targets()
	}
	for _, t := range p.Targets() {
		if t.Position == position {
			return []core.Target{t}
		}
	}
	return nil
}
