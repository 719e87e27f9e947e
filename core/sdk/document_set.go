package sdk

import (
	"strconv"
	"strings"

	"github.com/fettle-tools/fettle/core"
	"go.yaml.in/yaml/v3"
)

// setDoc binds parts that may only be used together.
type setDoc struct {
	id, name word
	members  []word // part, or part/position
	sameKind bool
	agreeOn  word
	complete bool
	place    place
}

func (f *faults) setDoc(n *yaml.Node) setDoc {
	k := f.keys(n, "a set", "id name members source", "same_kind agree_on complete_before_order")
	s := setDoc{id: k.id("id"), name: k.text("name"), members: k.texts("members"), sameKind: k.yes("same_kind"),
		complete: k.yes("complete_before_order"), place: k.at}
	if k.has("agree_on") {
		s.agreeOn = k.id("agree_on")
	}
	k.source()
	if s.sameKind == (s.agreeOn.text != "") && n.Kind == yaml.MappingNode {
		f.add(k.at, "write same_kind: true, or agree_on: with a yielded key", "a set is of the same kind, or agrees on a key")
	}
	return s
}

// triggerKinds are the kinds of check that a trigger may speak of.
var triggerKinds = map[core.ValueKind][]core.CheckKind{
	core.ValuePass:  {core.GoNoGo},
	core.ValueClass: {core.Judged},
	core.ValueCount: {core.Counted},
	core.ValueWord:  {core.Measured, core.Derived, core.Counted},
}

// pastLimit is the trigger "past limit" of a no-reuse rule.
const pastLimit = "past limit"

// noReuseDoc is a rule that nobody can override.
type noReuseDoc struct {
	id, part, check word
	trigger         core.Value
	allowed         []core.RemedyKind
	source          string
	place           place
}

func (f *faults) noReuseDoc(n *yaml.Node) noReuseDoc {
	k := f.keys(n, "a no-reuse rule", "id part trigger allowed source", "check")
	r := noReuseDoc{id: k.id("id"), part: k.id("part"), source: k.source(), place: k.at}
	if k.has("check") {
		r.check = k.id("check")
	}
	r.trigger = f.trigger(k.text("trigger"))
	for _, e := range k.entries("allowed") {
		r.allowed = append(r.allowed, core.RemedyKind(f.oneOf(e, "remedy here", "rebuild", "replace").text))
	}
	if k.has("allowed") && len(r.allowed) == 0 {
		f.add(k.place("allowed"), "write [replace], or [rebuild, replace]", "the rule allows nothing")
	}
	if r.trigger.Kind != core.ValueNotRead && r.check.text == "" && k.has("trigger") {
		f.add(k.at, "add check:", "the rule names no check")
	}
	return r
}

// trigger reads fails, class n, count n, missing or past limit.
func (f *faults) trigger(w word) core.Value {
	switch kind, rest, _ := strings.Cut(w.text, " "); {
	case w.text == "fails":
		return core.Value{Kind: core.ValuePass}
	case w.text == "missing":
		return core.Value{Kind: core.ValueNotRead, NotRead: core.PartMissing}
	case w.text == pastLimit:
		return core.Value{Kind: core.ValueWord, Word: pastLimit}
	case kind == "class" || kind == "count":
		if n, err := strconv.Atoi(rest); err == nil && n >= 1 && n <= 1000 {
			if kind == "class" {
				return core.Value{Kind: core.ValueClass, Class: n}
			}
			return core.Value{Kind: core.ValueCount, Count: n}
		}
	}
	if w.text != "" {
		f.add(w.place, `write fails, missing, past limit, "class 2" or "count 1"`, "%q is no trigger", w.text)
	}
	return core.Value{}
}

// registerDoc is one row of the register of hidden damage.
type registerDoc struct {
	id         word
	name       string
	chance     float64
	parts      []word
	operations []word
	times      float64
	history    []string
	each       bool       // an event of its own at each position
	groups     []groupDoc // or at each group of positions
	place      place
}

func (f *faults) registerDoc(n *yaml.Node) registerDoc {
	k := f.keys(n, "a register entry", "id name chance source", "parts operations times history each groups")
	r := registerDoc{id: k.id("id"), name: k.text("name").text, chance: k.number("chance", 0, 1, 0), parts: k.texts("parts"),
		operations: k.texts("operations"), times: k.number("times", 0, 1000, 1), each: k.yes("each"), groups: f.groups(k), place: k.at}
	k.source()
	if (r.each || k.has("groups")) && (r.each == k.has("groups") || !k.has("parts")) {
		f.add(k.at, "write each: true, or groups: {front: [LF, RF]}, beside parts:", "an event at each position, or at each group of them, speaks of parts")
	}
	for _, e := range k.entries("history") {
		r.history = append(r.history, f.oneOf(e, "history key", "water", "good-oil").text)
	}
	if k.has("parts") == k.has("operations") && n.Kind == yaml.MappingNode {
		f.add(k.at, "write parts: it speaks of, or operations: it raises", "a register entry speaks of parts, or raises operations")
	}
	return r
}
