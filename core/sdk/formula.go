package sdk

import (
	"math"
	"strconv"
	"strings"

	"go.yaml.in/yaml/v3"
)

// formula is a number or an expression of a sheet.
type formula struct {
	text    string // as written
	unit    string // of the result
	place   place  // of its first character
	oneLine bool   // columns within it can be told
	fixed   *float64
	names   []string    // identifiers used, in the order of the alphabet
	whole   *expression // nil of a number
}

// maxFormula bounds a formula, in bytes.
const maxFormula = 2000

// readFormula reads a number or a formula; nil if it is absent or null.
func (f *faults) readFormula(n *yaml.Node, unit string) *formula {
	if n == nil || n.Kind == yaml.ScalarNode && n.Tag == "!!null" {
		return nil
	}
	if n.Kind != yaml.ScalarNode {
		f.add(at(n), "write a number, or a formula such as D - .0015", "a number or a formula is wanted here, not %s", kindOf(n))
		return nil
	}
	x := &formula{text: strings.TrimSpace(n.Value), unit: unit, place: at(n)}
	x.oneLine = n.Style&(yaml.LiteralStyle|yaml.FoldedStyle) == 0 && !strings.ContainsAny(n.Value, "\n\\")
	if n.Style&(yaml.DoubleQuotedStyle|yaml.SingleQuotedStyle) != 0 {
		x.place.column++
	}
	if x.text == "" || len(x.text) > maxFormula {
		f.add(at(n), "write a number, or a formula such as D - .0015", "this formula is blank or longer than %d letters", maxFormula)
		return nil
	}
	if v, err := strconv.ParseFloat(x.text, 64); err == nil && !math.IsNaN(v) && !math.IsInf(v, 0) && n.Tag != "!!bool" {
		x.fixed = &v
		return x
	}
	return x
}

// where gives the place of the byte i of the text.
func (x *formula) where(i int) place {
	if !x.oneLine {
		return x.place
	}
	return place{x.place.line, x.place.column + min(max(i, 0), len(x.text))}
}

// eval works the formula out. value gives an identifier in the unit the formula expects; ok is false if one of them is
// not known or the result is no finite number.
func (x *formula) eval(value func(name string) (float64, bool)) (result float64, ok bool) {
	if x.fixed != nil {
		return *x.fixed, true
	}
	values := make([]float64, len(x.names))
	for i, name := range x.names {
		if values[i], ok = value(name); !ok {
			return 0, false
		}
	}
	return x.work(values)
}

// work evaluates with the values of its names, in their order.
func (x *formula) work(values []float64) (float64, bool) {
	v := x.whole.work(values)
	return v, !math.IsNaN(v) && !math.IsInf(v, 0)
}

// missing lists the identifiers that value does not know.
func (x *formula) missing(known func(name string) bool) []string {
	var ms []string
	for _, n := range x.names {
		if !known(n) {
			ms = append(ms, n)
		}
	}
	return ms
}
