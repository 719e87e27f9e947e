package sdk

import (
	"math"
	"slices"

	"github.com/fettle-tools/fettle/core"
	"go.yaml.in/yaml/v3"
)

// wordUnit marks a fact that is a word: rules may read it, formulas may not.
const wordUnit = "word"

// factDoc is a fact that limits or positions depend on.
type factDoc struct {
	name      word
	means     string
	unit      string
	low, high *float64 // plausible
	absent    *int     // default, for counts only
	place     place
}

// reserved are words that CEL keeps for itself.
var reserved = []string{"true", "false", "null", "in", "as", "break", "const", "continue", "else", "for", "function", "if", "import", "let",
	"loop", "package", "namespace", "return", "var", "void", "while", "pi"}

// identifier reads a name that a formula may use.
func (f *faults) identifier(n *yaml.Node) word {
	w := f.text(n)
	if w.text == "" {
		return w
	}
	if !isName(w.text) {
		f.add(w.place, "start with a letter; use letters, digits and _", "%q cannot be named in a formula", w.text)
	} else if slices.Contains(reserved, w.text) {
		f.add(w.place, "choose another name", "%q is kept for formulas", w.text)
	}
	return w
}

func (f *faults) factDoc(n *yaml.Node) factDoc {
	k := f.keys(n, "a fact", "name means unit", "plausible default")
	d := factDoc{name: f.identifier(k.node["name"]), means: k.text("means").text, place: k.at}
	if unit := k.text("unit"); unit.text == wordUnit {
		d.unit = wordUnit
	} else {
		d.unit = f.unit(unit)
	}
	if k.has("plausible") {
		es := k.entries("plausible")
		if len(es) != 2 {
			f.add(k.place("plausible"), "write [lowest, highest]", "plausible wants two numbers")
		} else {
			low, high := f.number(es[0], -1e9, 1e9), f.number(es[1], -1e9, 1e9)
			d.low, d.high = &low, &high
			if low > high {
				f.add(at(es[0]), "write [lowest, highest]", "the plausible range is upside down")
			}
		}
	}
	if k.has("default") {
		if d.unit != "count" {
			f.add(k.place("default"), "take it out: a limit whose nominal is not known asks for it", "only a count has a default, never a size")
		} else {
			v := k.whole("default", 0, maxPositions, 0)
			d.absent = &v
			if d.low != nil && (float64(v) < *d.low || float64(v) > *d.high) {
				f.add(k.place("default"), "widen the range or change the default", "the default %d is not plausible", v)
			}
		}
	}
	return d
}

// unit reads the name of a unit of measure and gives its usual name.
func (f *faults) unit(w word) string {
	if w.text == "" {
		return ""
	}
	u, ok := core.FindUnit(w.text)
	if !ok {
		f.add(w.place, didYouMean(w.text, core.UnitNames()), "there is no unit %q", w.text)
		return ""
	}
	return u.Name
}

// wanted says in what form a fact is given.
func (d *factDoc) wanted() string {
	if d.unit == "count" {
		return "a whole number"
	}
	if d.unit == "1" {
		return "a plain number"
	}
	return "a size with its unit (" + d.unit + ")"
}

// value takes a fact as given and turns it into the fact's unit; why says what is wrong with it.
func (d *factDoc) value(v core.Value) (x float64, why string) {
	switch {
	case d.unit == "count":
		if v.Kind == core.ValueQuantity && v.Quantity.Unit == "count" && v.Quantity.Value == math.Trunc(v.Quantity.Value) {
			v = core.Value{Kind: core.ValueCount, Count: int(v.Quantity.Value)}
		}
		if v.Kind != core.ValueCount || v.Count < 0 {
			return 0, d.wanted() + " is wanted, not " + v.String()
		}
		x = float64(v.Count)
	case d.unit == "1" && v.Kind == core.ValueCount: // a plain ratio may well be whole
		x = float64(v.Count)
	case v.Kind != core.ValueQuantity:
		return 0, d.wanted() + " is wanted, not " + v.String()
	default:
		q, err := v.Quantity.In(d.unit)
		if err != nil {
			return 0, err.Error()
		}
		x = q.Value
	}
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return 0, "it is no number"
	}
	if d.low != nil && (!core.LessOrEqual(*d.low, x) || !core.LessOrEqual(x, *d.high)) {
		return 0, core.FormatNumber(x) + " " + d.unit + " is not plausible (expected " + core.FormatNumber(*d.low) + " to " + core.FormatNumber(*d.high) + ")"
	}
	return x, ""
}
