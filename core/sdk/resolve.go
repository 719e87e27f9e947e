package sdk

import (
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// resolve tells what in a sheet does not agree with something else in it.
func (d *document) resolve(f *faults, hasRules bool) {
	d.uniqueIDs(f)
	d.resolveFormulas(f)
	for i := range d.parts {
		d.resolvePart(f, &d.parts[i])
	}
	d.resolveOperations(f, hasRules)
	d.resolveSets(f)
	d.resolveNoReuse(f)
	d.resolveRegister(f)
	d.resolveSteps(f)
	for _, c := range d.cautions {
		if c.part.text != "" && d.part(c.part.text) == nil {
			f.add(c.part.place, didYouMean(c.part.text, d.partIDs()), "there is no part %s", c.part.text)
		}
	}
}

// unique faults the second of two equal ids.
func (f *faults) unique(what string, ids []word) {
	for i, id := range ids {
		if id.text != "" && slices.ContainsFunc(ids[:i], func(o word) bool { return o.text == id.text }) {
			f.add(id.place, "give it another id", "there are two %s called %s", what, id.text)
		}
	}
}

// wordsOf collects one word of each of a list.
func wordsOf[T any](list []T, of func(t *T) word) []word {
	ws := make([]word, len(list))
	for i := range list {
		ws[i] = of(&list[i])
	}
	return ws
}

func (d *document) uniqueIDs(f *faults) {
	f.unique("facts", wordsOf(d.facts, func(t *factDoc) word { return t.name }))
	f.unique("parts", wordsOf(d.parts, func(t *partDoc) word { return t.id }))
	f.unique("operations", wordsOf(d.operations, func(t *operationDoc) word { return t.id }))
	f.unique("steps", wordsOf(d.steps, func(t *stepDoc) word { return t.id }))
	f.unique("sets", wordsOf(d.sets, func(t *setDoc) word { return t.id }))
	f.unique("no-reuse rules", wordsOf(d.noReuse, func(t *noReuseDoc) word { return t.id }))
	f.unique("register entries", wordsOf(d.register, func(t *registerDoc) word { return t.id }))
	for i := range d.parts {
		p := &d.parts[i]
		f.unique("checks of this part", wordsOf(p.checks, func(t *checkDoc) word { return t.id }))
		f.unique("remedies of this part", wordsOf(p.remedies, func(t *remedyDoc) word { return t.id }))
		for j := range p.checks {
			f.unique("stations of this check", p.checks[j].stations)
		}
	}
}

func (d *document) resolvePart(f *faults, p *partDoc) {
	f.checkPositions(d, p.positions)
	d.resolveReach(f, p.reach, len(p.positions) > 0)
	needed := 0
	for i := range p.checks {
		c := &p.checks[i]
		if p.safety && c.kind == core.GoNoGo {
			if c.saysNeeded != nil && !c.needed {
				f.add(*c.saysNeeded, "take it out", "on a safety-critical part every go/no-go check is needed for reuse")
			}
			c.needed = true
		}
		if c.kind == core.OneUse && !p.oneUse {
			f.add(c.place, "write one_use: true at the part, or change the kind", "a one-use check on a part that is not one_use")
		}
		if c.needed {
			needed++
		}
	}
	oneUseCheck := slices.ContainsFunc(p.checks, func(c checkDoc) bool { return c.kind == core.OneUse })
	switch {
	case p.oneUse && !oneUseCheck && len(p.checks) > 0:
		f.add(p.place, "add a check of kind one-use", "a one_use part has no one-use check")
	case !p.noReuse && needed == 0 && len(p.checks) > 0:
		f.add(p.place, "write needed_for_reuse: true at the checks that decide", "no check of this part is needed for reuse: a blank would pass")
	}
	d.resolveOutlook(f, p)
	d.resolveRemedies(f, p)
}

// resolveOutlook wants the chance of an unseen part from one place.
func (d *document) resolveOutlook(f *faults, p *partDoc) {
	var entries []*registerDoc
	for i := range d.register {
		r := &d.register[i]
		if slices.ContainsFunc(r.parts, func(w word) bool { id, _, _ := strings.Cut(w.text, "/"); return id == p.id.text }) {
			entries = append(entries, r)
		}
	}
	switch {
	case len(entries) > 1:
		f.add(p.place, "let one of them name it", "the register entries %s and %s both speak of %s", entries[0].id.text, entries[1].id.text, p.id.text)
	case p.outlook == nil && len(entries) == 0 && !p.oneUse:
		f.add(p.place, "add outlook: {past: .3}", "the part has no outlook: what an unseen one may turn out to be")
	case p.outlook == nil:
	case p.outlook.register.text == "" && len(entries) == 1:
		f.add(p.outlook.place, "write outlook: {register: "+entries[0].id.text+"}", "the register entry %s already gives its chance", entries[0].id.text)
	case p.outlook.register.text != "" && (len(entries) == 0 || entries[0].id.text != p.outlook.register.text):
		f.add(p.outlook.register.place, "name it among the entry's parts, or write {past: ...}", "no register entry %s speaks of %s", p.outlook.register.text, p.id.text)
	}
}

// resolveRemedies wants every remedy to be reachable, and every state of the part to have one.
func (d *document) resolveRemedies(f *faults, p *partDoc) {
	replace, all := false, false
	for i := range p.remedies {
		r := &p.remedies[i]
		switch {
		case r.kind == core.Reuse && p.noReuse:
			f.add(r.place, "take it out", "the part is never used again, so this remedy can never be reached")
		case r.kind == core.Reuse && r.id.text != "reuse", r.kind != core.Reuse && r.id.text == "reuse":
			f.add(r.id.place, "keep the id reuse for the kind reuse", "the id %s does not go with the kind %s", r.id.text, r.kind)
		case r.kind == core.Rebuild && p.oneUse:
			f.add(r.place, "take it out", "a one-use part is always replaced, so this remedy can never be reached")
		}
		replace = replace || r.kind == core.Replace && !r.pinOnly
		all = all || r.kind != core.Reuse && !r.pinOnly && r.curesAll(p.checkIDs())
		for _, a := range r.answers {
			if p.check(a.text) == nil {
				f.add(a.place, didYouMean(a.text, p.checkIDs()), "the part has no check %s", a.text)
			}
		}
		for _, o := range append(slices.Clone(r.operations), r.collateral...) {
			if d.operation(o.text) == nil {
				f.add(o.place, didYouMean(o.text, d.operationIDs()), "there is no operation %s", o.text)
			}
		}
		d.resolveReach(f, r.steps, len(p.positions) > 0)
		d.resolveRefs(f, p, r)
	}
	switch {
	case !replace:
		f.add(p.place, "add a remedy of kind replace that may be chosen", "the part cannot be replaced: nothing could be done if it is missing")
	case !all:
		f.add(p.place, "let one remedy answer all", "no remedy answers every check: some state would have none")
	}
}

func (d *document) resolveRefs(f *faults, p *partDoc, r *remedyDoc) {
	for _, ref := range append(slices.Clone(r.requires), r.excludes...) {
		if ref.part == "" {
			continue
		}
		o := d.part(ref.part)
		if o == nil {
			f.add(ref.place, didYouMean(ref.part, d.partIDs()), "there is no part %s", ref.part)
			continue
		}
		if !slices.Contains(o.remedyIDs(), ref.remedy) {
			f.add(ref.place, didYouMean(ref.remedy, o.remedyIDs()), "the part %s has no remedy %s", ref.part, ref.remedy)
		}
		if ref.part == p.id.text && ref.remedy == r.id.text && (ref.position == "{position}" || len(p.positions) == 0) {
			f.add(ref.place, "take it out", "the remedy names itself")
		}
		if ref.position != "{position}" {
			d.checkPosition(f, o, ref.position, ref.place)
			continue
		}
		here, _ := expandAll(p.positions, d.usualCount)
		if len(p.positions) == 0 {
			f.add(ref.place, "name the position, or leave it out", "the part %s has no positions to take one from", p.id.text)
		}
		for _, pos := range here {
			d.checkPosition(f, o, pos, ref.place)
		}
	}
}

// checkPosition wants a position that the part has; "" is good anywhere.
func (d *document) checkPosition(f *faults, p *partDoc, position string, at place) {
	if position == "" {
		return
	}
	known, err := expandAll(p.positions, d.usualCount)
	if err == nil && !slices.Contains(known, position) {
		f.add(at, didYouMean(position, known), "the part %s has no position %s", p.id.text, position)
	}
}
