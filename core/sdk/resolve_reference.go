package sdk

import (
	"slices"
	"strings"
)

// resolveReach wants steps of this bench to exist; others belong to the strip plan. Only where there are positions may a
// step be that of {position}.
func (d *document) resolveReach(f *faults, steps []word, positions bool) {
	for _, w := range steps {
		if bare := strings.ReplaceAll(w.text, "{position}", ""); bare != w.text && !positions {
			f.add(w.place, "name the step in full", "%s asks for a position, and there is none here", w.text)
		} else if strings.ContainsAny(bare, "{}") {
			f.add(w.place, "{position} is all that can stand there", "%s cannot be worked out", w.text)
		}
	}
	own := plain(wordsOf(d.steps, func(s *stepDoc) word { return s.id }))
	for _, w := range steps {
		name, ours := strings.CutPrefix(w.text, d.subsystem.text+":")
		switch {
		case ours && !slices.Contains(own, name):
			f.add(w.place, didYouMean(name, own), "there is no bench step %s", name)
		case !ours && slices.Contains(own, w.text):
			f.add(w.place, "write "+d.subsystem.text+":"+w.text, "a bench step of this subsystem is named without it")
		case !ours && strings.Contains(w.text, ":"):
			f.add(w.place, "name a step of the strip plan, or of this sheet", "%s is a bench step of another subsystem", w.text)
		}
	}
}

func (d *document) resolveSteps(f *faults) {
	before := map[string][]string{}
	for _, s := range d.steps {
		d.resolveReach(f, s.allOf, false)
		before[d.subsystem.text+":"+s.id.text] = plain(s.allOf)
		for _, clause := range s.anyOf {
			d.resolveReach(f, clause, false)
			before[d.subsystem.text+":"+s.id.text] = append(before[d.subsystem.text+":"+s.id.text], plain(clause)...)
		}
		for _, w := range s.destroys {
			part, check, _ := strings.Cut(w.text, "/")
			if p := d.part(part); p == nil || p.check(check) == nil {
				f.add(w.place, "write part/check", "%s is no reading of this sheet", w.text)
			}
		}
	}
	for _, s := range d.steps {
		if id := d.subsystem.text + ":" + s.id.text; reaches(before, id, id) {
			f.add(s.id.place, "take one of them out", "the step %s has to come before itself", s.id.text)
		}
	}
}

// reaches reports whether a graph leads from a node, by one edge or more, to a goal.
func reaches(edges map[string][]string, from, goal string) bool {
	seen, next := map[string]bool{}, slices.Clone(edges[from])
	for len(next) > 0 {
		n := next[len(next)-1]
		next = next[:len(next)-1]
		if n == goal {
			return true
		}
		if !seen[n] {
			seen[n] = true
			next = append(next, edges[n]...)
		}
	}
	return false
}

// resolveOperations wants includes and afters without circles, groups of positions that exist, and no operation for nothing.
func (d *document) resolveOperations(f *faults, hasRules bool) {
	used, includes, after := map[string]bool{}, map[string][]string{}, map[string][]string{}
	for _, p := range d.parts {
		for _, r := range p.remedies {
			for _, w := range append(slices.Clone(r.operations), r.collateral...) {
				used[w.text] = true
			}
		}
	}
	for _, r := range d.register {
		for _, w := range r.operations {
			used[w.text] = true
		}
	}
	for _, o := range d.operations {
		includes[o.id.text], after[o.id.text] = plain(o.includes), plain(o.after)
		for _, w := range o.includes {
			used[w.text] = true
		}
		for _, w := range slices.Concat(o.includes, o.after) {
			if d.operation(w.text) == nil {
				f.add(w.place, didYouMean(w.text, d.operationIDs()), "there is no operation %s", w.text)
			}
		}
	}
	for _, o := range d.operations {
		if reaches(includes, o.id.text, o.id.text) {
			f.add(o.id.place, "take one of them out", "the operation %s includes itself", o.id.text)
		}
		if reaches(after, o.id.text, o.id.text) {
			f.add(o.id.place, "take one of them out", "the operation %s comes after itself", o.id.text)
		}
		if !used[o.id.text] && !o.byRule && !hasRules && o.id.text != "" {
			f.add(o.id.place, "name it in a remedy, or write by_rule: true if rules in Go use it", "no remedy can reach the operation %s", o.id.text)
		}
		d.resolveGroups(f, &o)
	}
}

// resolveGroups wants each position in one group at most, and each position served in one.
func (d *document) resolveGroups(f *faults, o *operationDoc) {
	if len(o.groups) == 0 {
		return
	}
	f.unique("groups of this operation", wordsOf(o.groups, func(g *groupDoc) word { return g.name }))
	var grouped []string
	for _, g := range o.groups {
		for _, p := range f.checkPositions(d, g.members) {
			if slices.Contains(grouped, p) {
				f.add(g.name.place, "keep it in one", "the position %s is in two groups", p)
			}
			grouped = append(grouped, p)
		}
	}
	for _, p := range d.parts {
		if !slices.ContainsFunc(p.remedies, func(r remedyDoc) bool {
			return slices.ContainsFunc(r.operations, func(w word) bool { return w.text == o.id.text })
		}) {
			continue
		}
		positions, err := expandAll(p.positions, d.usualCount)
		for _, pos := range positions {
			if err == nil && !slices.Contains(grouped, pos) {
				f.add(o.id.place, "put it into a group", "the position %s of %s is in no group of %s", pos, p.id.text, o.id.text)
			}
		}
	}
}

func (d *document) resolveSets(f *faults) {
	for _, s := range d.sets {
		for _, m := range s.members {
			d.resolveMember(f, m)
		}
	}
}

// resolveMember wants a part, or part/position, of this sheet.
func (d *document) resolveMember(f *faults, w word) {
	id, position, _ := strings.Cut(w.text, "/")
	p := d.part(id)
	if p == nil {
		f.add(w.place, didYouMean(id, d.partIDs()), "there is no part %s", id)
		return
	}
	d.checkPosition(f, p, position, w.place)
}

// resolveNoReuse wants a trigger that suits its check, and a way out.
func (d *document) resolveNoReuse(f *faults) {
	for _, r := range d.noReuse {
		p := d.part(r.part.text)
		if p == nil {
			if r.part.text != "" {
				f.add(r.part.place, didYouMean(r.part.text, d.partIDs()), "there is no part %s", r.part.text)
			}
			continue
		}
		if r.check.text != "" {
			c := p.check(r.check.text)
			if c == nil {
				f.add(r.check.place, didYouMean(r.check.text, p.checkIDs()), "the part %s has no check %s", p.id.text, r.check.text)
			} else if kinds, ok := triggerKinds[r.trigger.Kind]; ok && !slices.Contains(kinds, c.kind) {
				f.add(r.place, "fails is for go/no-go, class for judged, count for counted, past limit for measured and derived",
					"the trigger does not suit the %s check %s", c.kind, c.id.text)
			}
		}
		out := slices.ContainsFunc(p.remedies, func(m remedyDoc) bool {
			return !m.pinOnly && slices.Contains(r.allowed, m.kind) && (r.check.text == "" || m.cures(r.check.text))
		})
		if !out && len(r.allowed) > 0 {
			f.add(r.place, "add such a remedy to the part", "no remedy of %s is allowed by %s and answers it", p.id.text, r.id.text)
		}
	}
}

func (d *document) resolveRegister(f *faults) {
	for _, r := range d.register {
		for _, m := range r.parts {
			d.resolveMember(f, m)
		}
		for _, g := range r.groups {
			for _, at := range g.members {
				if !slices.ContainsFunc(r.parts, func(w word) bool {
					id, _, _ := strings.Cut(w.text, "/")
					p := d.part(id)
					return p != nil && slices.ContainsFunc(p.positions, func(x word) bool {
						known, _ := expand(x.text, d.usualCount)
						return slices.Contains(known, at.text)
					})
				}) {
					f.add(at.place, "write a position of its parts", "no part of %s has the position %s", r.id.text, at.text)
				}
			}
		}
		for _, o := range r.operations {
			if d.operation(o.text) == nil {
				f.add(o.place, didYouMean(o.text, d.operationIDs()), "there is no operation %s", o.text)
			}
		}
	}
}
