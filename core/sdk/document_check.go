package sdk

import (
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
	"go.yaml.in/yaml/v3"
)

// checkDoc is a check as written.
type checkDoc struct {
	id         word
	name       string
	kind       core.CheckKind
	unit       string
	stations   []word
	how        string
	instrument string
	limit      limitDoc
	twoSided   bool
	before     bool
	needed     bool
	saysNeeded *place // where needed_for_reuse is written
	minutes    float64
	plausible  [2]*formula
	formula    *formula
	inputs     []input // what the formula's names stand for, in their order
	fitted     float64
	place      place
}

// formulas gives all formulas of the check, nil where none is written; its own, if it is derived, comes last.
func (c *checkDoc) formulas() [7]*formula {
	return [...]*formula{c.limit.newLow, c.limit.newHigh, c.limit.wearLow, c.limit.wearHigh, c.plausible[0], c.plausible[1], c.formula}
}

// limitDoc is a limit whose bounds may be formulas.
type limitDoc struct {
	newLow, newHigh, wearLow, wearHigh *formula
	worstClass, newClass               *int
	source, confidence                 string
	place                              place
}

// empty reports that no bound is written.
func (l *limitDoc) empty() bool {
	return l.newLow == nil && l.newHigh == nil && l.wearLow == nil && l.wearHigh == nil && l.worstClass == nil
}

// minutesByKind is how long a check takes where a sheet does not say (common practice, no source).
var minutesByKind = map[core.CheckKind]float64{core.Measured: 3, core.Derived: 1, core.Counted: 2, core.Judged: 1, core.GoNoGo: 3, core.OneUse: 0}

// unitByKind is the unit of the kinds that have only one.
var unitByKind = map[core.CheckKind]string{core.Counted: "count", core.Judged: "class 0-3", core.GoNoGo: "pass/fail", core.OneUse: "count"}

func (f *faults) checkDoc(n *yaml.Node) checkDoc {
	k := f.keys(n, "a check", "id kind limit",
		"name unit stations how instrument two_sided before_strip needed_for_reuse minutes plausible formula count_when_fitted")
	c := checkDoc{id: k.id("id"), twoSided: k.yes("two_sided"), before: k.yes("before_strip"), needed: k.yes("needed_for_reuse"), place: k.at}
	c.kind = core.CheckKind(f.oneOf(k.node["kind"], "kind of check", "measured", "derived", "counted", "judged", "go/no-go", "one-use").text)
	if c.name = k.text("name").text; c.name == "" {
		c.name = strings.ReplaceAll(c.id.text, "-", " ")
	}
	c.how, c.instrument = k.text("how").text, k.text("instrument").text
	c.minutes = k.number("minutes", 0, 10000, minutesByKind[c.kind])
	c.fitted = k.number("count_when_fitted", 0, 10000, 0)
	if k.has("needed_for_reuse") {
		p := k.place("needed_for_reuse")
		c.saysNeeded = &p
	}
	for _, s := range k.entries("stations") {
		c.stations = append(c.stations, f.identifier(s))
	}
	f.checkUnit(k, &c)
	if k.has("limit") {
		c.limit = f.limitDoc(k.node["limit"], &c)
	}
	f.checkFigures(k, &c)
	return c
}

// checkUnit wants a unit where the kind does not settle it.
func (f *faults) checkUnit(k keyed, c *checkDoc) {
	fixed, settled := unitByKind[c.kind]
	if k.has("unit") {
		c.unit = f.unit(k.text("unit"))
		if settled && c.unit != "" && c.unit != fixed {
			f.add(k.place("unit"), "leave the unit out", "a %s check is in %q, not in %s", c.kind, fixed, c.unit)
		}
	} else if !settled && c.kind != "" {
		f.add(k.at, "add unit:", "a %s check has no unit", c.kind)
	}
	if settled {
		c.unit = fixed
	}
}

// checkFigures reads the formula and the plausible range, and says which keys a kind has no use for.
func (f *faults) checkFigures(k keyed, c *checkDoc) {
	sized := c.kind == core.Measured || c.kind == core.Derived
	if k.has("formula") {
		c.formula = f.readFormula(k.node["formula"], c.unit)
	}
	if k.has("formula") != (c.kind == core.Derived) && c.kind != "" {
		if c.kind == core.Derived {
			f.add(k.at, "add formula:, or make it measured", "a derived check has no formula")
		} else {
			f.add(k.place("formula"), "take it out, or make the check derived", "a %s check has no use for a formula", c.kind)
		}
	}
	if k.has("plausible") {
		es := k.entries("plausible")
		switch {
		case !sized:
			f.add(k.place("plausible"), "take it out", "a %s check has no plausible range", c.kind)
		case len(es) != 2:
			f.add(k.place("plausible"), "write [lowest, highest]", "plausible wants two figures")
		default:
			c.plausible = [2]*formula{f.readFormula(es[0], c.unit), f.readFormula(es[1], c.unit)}
		}
	}
	if k.has("stations") && c.kind == core.OneUse {
		f.add(k.place("stations"), "take them out", "a one-use check has no stations")
	}
	if k.has("count_when_fitted") && c.kind != core.Counted {
		f.add(k.place("count_when_fitted"), "take it out", "a %s check counts nothing", c.kind)
	}
}

func (f *faults) limitDoc(n *yaml.Node, c *checkDoc) limitDoc {
	k := f.keys(n, "a limit", "source confidence", "new wear_low wear_high worst_class new_class")
	l := limitDoc{source: k.source(), place: k.at}
	l.confidence = f.oneOf(k.node["confidence"], "confidence", "high", "medium", "low").text
	if k.has("new") {
		if es := k.entries("new"); len(es) == 2 {
			l.newLow, l.newHigh = f.readFormula(es[0], c.unit), f.readFormula(es[1], c.unit)
		} else {
			f.add(k.place("new"), "write [lowest, highest]; either may be null", "new wants two figures")
		}
	}
	l.wearLow, l.wearHigh = f.readFormula(k.node["wear_low"], c.unit), f.readFormula(k.node["wear_high"], c.unit)
	if k.has("worst_class") {
		v := k.whole("worst_class", 0, 3, 0)
		l.worstClass = &v
	}
	if k.has("new_class") {
		v := k.whole("new_class", 0, 3, 0)
		l.newClass = &v
	}
	f.limitSuits(k, &l, c)
	return l
}

// limitSuits wants of each kind the bounds it is judged by, and none other.
func (f *faults) limitSuits(k keyed, l *limitDoc, c *checkDoc) {
	allowed := "new wear_low wear_high"
	switch c.kind {
	case core.Judged:
		allowed = "worst_class new_class"
	case core.GoNoGo, core.OneUse:
		allowed = ""
	}
	for _, key := range []string{"new", "wear_low", "wear_high", "worst_class", "new_class"} {
		if k.has(key) && !slices.Contains(strings.Fields(allowed), key) && c.kind != "" {
			f.add(k.place(key), "take it out", "the limit of a %s check has no %s", c.kind, key)
		}
	}
	switch {
	case c.kind == core.Judged && l.worstClass == nil:
		f.add(k.at, "add worst_class: 0, 1, 2 or 3", "a judged check has no worst class")
	case c.kind == core.Judged && l.newClass != nil && *l.newClass > *l.worstClass:
		f.add(k.place("new_class"), "make it no worse than worst_class", "a new part would be past the limit")
	case allowed == "new wear_low wear_high" && l.empty() && c.kind != "":
		f.add(k.at, "add new:, wear_low: or wear_high:", "the limit has no bounds")
	}
	if c.twoSided && (l.newLow == nil && l.newHigh == nil) {
		f.add(k.at, "add new: [lowest, highest]", "a two-sided check needs to know what new is")
	}
}
