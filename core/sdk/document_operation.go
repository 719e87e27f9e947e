package sdk

import (
	"strings"

	"github.com/fettle-tools/fettle/core"
	"go.yaml.in/yaml/v3"
)

// operationDoc is an operation as written: paid once for the job, once for the unit whichever sheet asks, or for each piece, pair, axle or set.
type operationDoc struct {
	id       word
	op       core.Operation // as for the job; instances copy it
	per      string
	groups   []groupDoc
	includes []word
	after    []word
	byRule   bool // used by rules in Go alone
	place    place
}

// groupDoc is the positions that share one instance.
type groupDoc struct {
	name    word
	members []word
}

func (f *faults) operationDoc(n *yaml.Node, currency string) operationDoc {
	k := f.keys(n, "an operation", "id name", "skill hours items outwork outwork_kind lead_weeks per groups includes after cautions by_rule")
	o := operationDoc{id: k.id("id"), per: "job", includes: k.texts("includes"), after: k.texts("after"), byRule: k.yes("by_rule"), place: k.at}
	if k.has("per") {
		o.per = f.oneOf(k.node["per"], "way to pay for an operation", "job", "unit", "piece", "pair", "axle", "set").text
	}
	o.op = core.Operation{ID: o.id.text, Name: k.text("name").text, Skill: k.text("skill").text, OutworkKind: k.text("outwork_kind").text, ServedPer: o.per}
	o.op.Hours, o.op.LeadWeeks = f.range3(k.node["hours"]), f.range3(k.node["lead_weeks"])
	if o.op.Hours.High > 0 && !k.has("skill") {
		f.add(k.place("hours"), "add skill: such as mechanic", "nobody is named for these hours")
	}
	for _, e := range k.entries("items") {
		o.op.Items = append(o.op.Items, f.itemDoc(e, currency))
	}
	if k.has("outwork") {
		o.op.Outwork = f.money3(k.node["outwork"], currency)
	}
	if k.has("outwork") != k.has("outwork_kind") {
		f.add(k.at, "write both outwork: and outwork_kind:, or neither", "outwork wants its money and what it is")
	}
	for _, e := range k.entries("cautions") {
		o.op.Cautions = append(o.op.Cautions, f.cautionDoc(e).core(""))
	}
	o.op.After = plain(o.after)
	o.groups = f.groups(k)
	switch {
	case k.has("groups") && (o.per == "job" || o.per == "unit" || o.per == "piece"):
		f.add(k.place("groups"), "take them out", "an operation paid per %s has no groups", o.per)
	case !k.has("groups") && (o.per == "pair" || o.per == "axle"):
		f.add(k.place("per"), "add groups: {front: [LF, RF]}", "which positions make one %s is not said", o.per)
	}
	return o
}

func (f *faults) groups(k keyed) []groupDoc {
	n := k.node["groups"]
	if n == nil {
		return nil
	}
	if n.Kind != yaml.MappingNode {
		f.add(at(n), "write {front: [LF, RF]}", "groups are a set of keys, not %s", kindOf(n))
		return nil
	}
	var gs []groupDoc
	for i := 0; i+1 < len(n.Content); i += 2 {
		gs = append(gs, groupDoc{f.id(n.Content[i]), f.texts(n.Content[i+1])})
	}
	return gs
}

func (f *faults) range3(n *yaml.Node) core.Range3 {
	v, _ := f.three(n)
	return core.Range3{Low: v[0], Likely: v[1], High: v[2]}
}

// amount is how money is written: no sign, no exponent.
// isAmount reports a plain decimal: digits, and digits after a point if there is one.
func isAmount(s string) bool {
	whole, part, pointed := strings.Cut(s, ".")
	digits := func(s string) bool { return s != "" && strings.Trim(s, "0123456789") == "" }
	return digits(whole) && (!pointed || digits(part))
}

// money3 reads three amounts, kept as written.
func (f *faults) money3(n *yaml.Node, currency string) core.Money3 {
	before := len(f.list)
	_, as := f.three(n)
	m := core.Money3{Low: as[0], Likely: as[1], High: as[2], Currency: currency}
	if currency == "" || len(f.list) > before {
		return m
	}
	for i, s := range as {
		if _, err := core.NewMoney(s, currency); err != nil || !isAmount(s) {
			f.add(at(n.Content[i]), "write an amount such as 12.50", "%q is no amount of money", s)
		}
	}
	return m
}

func (f *faults) itemDoc(n *yaml.Node, currency string) core.Item {
	k := f.keys(n, "an item", "key name count each", "one_use tax")
	it := core.Item{Key: k.id("key").text, Name: k.text("name").text, Count: k.number("count", 0, 1e6, 0), OneUse: k.yes("one_use"), TaxClass: "parts"}
	if k.has("each") {
		it.TypicalEach = f.money3(k.node["each"], currency)
	}
	if k.has("tax") {
		it.TaxClass = k.text("tax").text
	}
	return it
}

// cautionDoc is a usual warning as written: a text, or a text with its place and source.
type cautionDoc struct {
	text, source string
	part, step   word
	place        place
}

// commonPractice is the source of what the trade knows and nobody printed.
const commonPractice = "common practice, no source"

func (f *faults) cautionDoc(n *yaml.Node) cautionDoc {
	if n.Kind == yaml.ScalarNode {
		w := f.text(n)
		return cautionDoc{text: w.text, source: commonPractice, place: w.place}
	}
	k := f.keys(n, "a caution", "text source", "part step")
	return cautionDoc{text: k.text("text").text, source: k.source(), part: k.text("part"), step: k.text("step"), place: k.at}
}

func (c cautionDoc) core(step string) core.Caution {
	if step == "" {
		step = c.step.text
	}
	return core.Caution{Text: c.text, Part: c.part.text, Step: step, Source: c.source}
}
