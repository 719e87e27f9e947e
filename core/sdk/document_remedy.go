package sdk

import (
	"strings"

	"github.com/fettle-tools/fettle/core"
	"go.yaml.in/yaml/v3"
)

// remedyDoc is a remedy of a part as written.
type remedyDoc struct {
	id          word
	kind        core.RemedyKind
	name        string
	operations  []word
	steps       []word
	answersAll  bool
	answers     []word // check ids, where not all
	wearAfter   *float64
	residual    float64
	collateral  []word
	yields      []core.Yield
	requires    []refDoc
	excludes    []refDoc
	originality [2]int
	pinOnly     bool
	place       place
}

// refDoc names a remedy of another part: part[/position]#remedy.
type refDoc struct {
	part, position, remedy string
	place                  place
}

// residuals are the words for what chance of failing a remedy leaves (common practice, no source).
var residuals = map[string]float64{"none": 0, "low": .03, "medium": .10, "high": .25}

func (f *faults) remedyDoc(n *yaml.Node) remedyDoc {
	k := f.keys(n, "a remedy", "id kind",
		"name operations steps answers wear_after residual collateral yields requires excludes originality pin_only")
	r := remedyDoc{id: k.id("id"), name: k.text("name").text, operations: k.texts("operations"), steps: k.texts("steps"),
		collateral: k.texts("collateral"), pinOnly: k.yes("pin_only"), place: k.at}
	r.kind = core.RemedyKind(f.oneOf(k.node["kind"], "kind of remedy", "rebuild", "replace", "reuse").text)
	if r.name == "" {
		if r.kind == core.Reuse {
			r.name = "Clean and use again"
		} else {
			f.add(k.at, "add name: in words for the customer", "the remedy has no name")
		}
	}
	f.answers(k, &r)
	if k.has("wear_after") {
		v := k.number("wear_after", 0, 1, 0)
		r.wearAfter = &v
	}
	r.residual = f.residual(k)
	for _, key := range []string{"requires", "excludes"} {
		for _, e := range k.entries(key) {
			if ref := f.refDoc(e); key == "requires" {
				r.requires = append(r.requires, ref)
			} else {
				r.excludes = append(r.excludes, ref)
			}
		}
	}
	r.yields = f.yields(k.node["yields"])
	if k.has("originality") {
		r.originality = f.originality(k)
	}
	return r
}

// answers reads which checks a remedy cures: all, or a list. A replacement cures all if it does not say.
func (f *faults) answers(k keyed, r *remedyDoc) {
	switch n := k.node["answers"]; {
	case r.kind == core.Reuse:
		if n != nil {
			f.add(k.place("answers"), "take it out", "using a part again cures nothing")
		}
	case n == nil:
		r.answersAll = r.kind == core.Replace
		if r.kind == core.Rebuild {
			f.add(k.at, "add answers: all, or the list of checks it cures", "a rebuild does not say what it cures")
		}
	case n.Kind == yaml.ScalarNode && n.Value == "all":
		r.answersAll = true
	default:
		r.answers = f.texts(n)
		if n.Kind == yaml.SequenceNode && len(r.answers) == 0 {
			f.add(at(n), "name the checks it cures, or take the remedy out", "the remedy can never be reached: it cures nothing")
		}
	}
}

func (f *faults) residual(k keyed) float64 {
	n := k.node["residual"]
	if n == nil {
		return 0
	}
	if v, ok := residuals[n.Value]; ok && n.Kind == yaml.ScalarNode {
		return v
	}
	if n.Kind == yaml.ScalarNode && n.Tag == "!!str" {
		f.add(at(n), "write none, low, medium, high, or a chance such as .05", "%q is no residual risk", n.Value)
		return 0
	}
	return f.number(n, 0, 1)
}

// refDoc reads part[/position]#remedy.
func (f *faults) refDoc(n *yaml.Node) refDoc {
	w := f.text(n)
	target, remedy, ok := strings.Cut(w.text, "#")
	if w.text != "" && (!ok || target == "" || remedy == "") {
		f.add(w.place, "write part#remedy, or part/position#remedy", "%q names no remedy of a part", w.text)
		return refDoc{place: w.place}
	}
	part, position, _ := strings.Cut(target, "/")
	return refDoc{part, position, remedy, w.place}
}

func (f *faults) yields(n *yaml.Node) []core.Yield {
	if n == nil {
		return nil
	}
	if n.Kind != yaml.MappingNode {
		f.add(at(n), `write {main-undersize: "0.010"}`, "what the remedy yields is a set of keys, not %s", kindOf(n))
		return nil
	}
	var ys []core.Yield
	for i := 0; i+1 < len(n.Content); i += 2 {
		ys = append(ys, core.Yield{Key: f.id(n.Content[i]).text, Value: f.text(n.Content[i+1]).text})
	}
	return ys
}

func (f *faults) originality(k keyed) (o [2]int) {
	es := k.entries("originality")
	if len(es) != 2 {
		f.add(k.place("originality"), "write [1, 4]", "originality wants the least and the most level it suits")
		return o
	}
	o = [2]int{f.whole(es[0], 1, 4), f.whole(es[1], 1, 4)}
	if o[0] > o[1] {
		f.add(at(es[0]), "write [least, most]", "the levels of originality are upside down")
	}
	return o
}

// curesAll reports whether the remedy answers every one of the checks.
func (r *remedyDoc) curesAll(checks []string) bool {
	if r.answersAll {
		return true
	}
	for _, c := range checks {
		if !r.cures(c) {
			return false
		}
	}
	return true
}

func (r *remedyDoc) cures(check string) bool {
	if r.answersAll {
		return true
	}
	for _, a := range r.answers {
		if a.text == check {
			return true
		}
	}
	return false
}
