package sdk

import (
	"github.com/fettle-tools/fettle/core"
	"go.yaml.in/yaml/v3"
)

// partDoc is a kind of part as written.
type partDoc struct {
	id, name  word
	positions []word
	count     int
	safety    bool
	oneUse    bool
	noReuse   bool // reuse: false
	reach     []word
	life      *core.Life
	outlook   *outlookDoc
	checks    []checkDoc
	remedies  []remedyDoc
	place     place
}

// outlookDoc is the chance that a part is past its limit before anything of it is seen: a number, or a register entry's.
type outlookDoc struct {
	past     float64
	register word
	place    place
}

func (f *faults) partDoc(n *yaml.Node) partDoc {
	k := f.keys(n, "a part", "id name checks remedies", "positions count safety one_use reuse reach life outlook")
	p := partDoc{
		id: k.id("id"), name: k.text("name"), positions: k.texts("positions"), count: k.whole("count", 1, 10000, 1),
		safety: k.yes("safety"), oneUse: k.yes("one_use"), reach: k.texts("reach"), place: k.at,
	}
	p.noReuse = p.oneUse || k.has("reuse") && !k.yes("reuse")
	if k.has("positions") && len(p.positions) == 0 {
		f.add(k.place("positions"), "take the key out for a single part", "no positions are listed")
	}
	if k.has("life") {
		p.life = f.lifeDoc(k.node["life"])
	}
	if k.has("outlook") {
		p.outlook = f.outlookDoc(k.node["outlook"])
	}
	for _, c := range k.entries("checks") {
		p.checks = append(p.checks, f.checkDoc(c))
	}
	for _, r := range k.entries("remedies") {
		p.remedies = append(p.remedies, f.remedyDoc(r))
	}
	if k.has("checks") && len(p.checks) == 0 {
		f.add(k.place("checks"), "add a check", "the part has no checks: nothing could be said of it")
	}
	p.impliedReuse()
	return p
}

// impliedReuse puts reuse first where the sheet does not write it: cleaned and fitted again.
func (p *partDoc) impliedReuse() {
	for i := range p.remedies {
		if p.remedies[i].kind == core.Reuse {
			return
		}
	}
	if !p.noReuse {
		p.remedies = append([]remedyDoc{{id: word{"reuse", p.place}, kind: core.Reuse, name: "Clean and use again", place: p.place}}, p.remedies...)
	}
}

func (f *faults) lifeDoc(n *yaml.Node) *core.Life {
	k := f.keys(n, "a life", "typical unit sigma source", "")
	l := &core.Life{Typical: k.number("typical", 0, 1e8, 0), Sigma: k.number("sigma", .01, 5, 0), Source: k.source()}
	l.Unit = f.oneOf(k.node["unit"], "unit of a life", "km", "a").text
	if k.has("typical") && l.Typical <= 0 {
		f.add(k.place("typical"), "write what such a part usually lasts", "a life of nothing")
	}
	return l
}

func (f *faults) outlookDoc(n *yaml.Node) *outlookDoc {
	k := f.keys(n, "an outlook", "", "past register")
	o := &outlookDoc{past: k.number("past", 0, 1, 0), place: k.at}
	if k.has("register") {
		o.register = k.id("register")
	}
	if k.has("past") == k.has("register") && k.node != nil {
		f.add(k.at, "write {past: .3}, or {register: H01}", "an outlook is one chance, or one register entry")
	}
	return o
}

// check finds a check by id; nil if there is none.
func (p *partDoc) check(id string) *checkDoc {
	for i := range p.checks {
		if p.checks[i].id.text == id {
			return &p.checks[i]
		}
	}
	return nil
}

func (p *partDoc) checkIDs() []string {
	ids := make([]string, len(p.checks))
	for i, c := range p.checks {
		ids[i] = c.id.text
	}
	return ids
}

func (p *partDoc) remedyIDs() []string {
	ids := make([]string, len(p.remedies))
	for i, r := range p.remedies {
		ids[i] = r.id.text
	}
	return ids
}
