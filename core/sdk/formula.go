package sdk

import (
	"math"
	"strconv"
	"strings"
	"sync"

	"cel.dev/cel-go/cel"
	"go.yaml.in/yaml/v3"
)

// formula is a number or a CEL expression of a sheet.
type formula struct {
	text    string // as written
	unit    string // of the result
	place   place  // of its first character
	oneLine bool   // columns within it can be told
	fixed   *float64
	names   []string // identifiers used, in the order of the alphabet

	source  string // as given to CEL
	offsets []int  // offsets[i] is where the byte i of source stands in text
	env     *formulaEnv
	once    sync.Once
	program cel.Program
	err     error
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
	x.source, x.offsets = normalise(x.text)
	return x
}

// where gives the place of the byte i of the source.
func (x *formula) where(i int) place {
	if !x.oneLine || len(x.offsets) == 0 {
		return x.place
	}
	i = min(max(i, 0), len(x.offsets)-1)
	return place{x.place.line, x.place.column + x.offsets[i]}
}

// normalise writes every number as CEL writes a double: .0015 as 0.0015, 2 as 2.0. It gives for each byte of the
// result where it came from.
func normalise(text string) (string, []int) {
	var out strings.Builder
	var offsets []int
	put := func(s string, from int) {
		for range len(s) {
			offsets = append(offsets, from)
		}
		out.WriteString(s)
	}
	for i := 0; i < len(text); {
		c := text[i]
		if isNameByte(c) && !isDigit(c) {
			j := i
			for j < len(text) && isNameByte(text[j]) {
				put(text[j:j+1], j)
				j++
			}
			i = j
			continue
		}
		if !isDigit(c) && !(c == '.' && i+1 < len(text) && isDigit(text[i+1])) {
			put(text[i:i+1], i)
			i++
			continue
		}
		j := numberEnd(text, i)
		num := text[i:j]
		if num[0] == '.' {
			put("0", i)
		}
		for k := range len(num) {
			put(num[k:k+1], i+k)
		}
		switch {
		case num[len(num)-1] == '.':
			put("0", j-1)
		case !strings.ContainsAny(num, ".eE"):
			put(".0", j-1)
		}
		i = j
	}
	offsets = append(offsets, len(text))
	return out.String(), offsets
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

func isNameByte(c byte) bool {
	return isDigit(c) || c == '_' || c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z'
}

// numberEnd finds the end of the number that starts at i.
func numberEnd(s string, i int) int {
	digits := func(j int) int {
		for j < len(s) && isDigit(s[j]) {
			j++
		}
		return j
	}
	j := digits(i)
	if j < len(s) && s[j] == '.' {
		j = digits(j + 1)
	}
	if j < len(s) && (s[j] == 'e' || s[j] == 'E') {
		k := j + 1
		if k < len(s) && (s[k] == '+' || s[k] == '-') {
			k++
		}
		if e := digits(k); e > k {
			j = e
		}
	}
	return j
}

// eval works the formula out. value gives an identifier in the unit the formula expects; ok is false if one of them is
// not known or the result is no finite number.
func (x *formula) eval(value func(name string) (float64, bool)) (result float64, ok bool) {
	if x.fixed != nil {
		return *x.fixed, true
	}
	vars := make(activation, 0, len(x.names))
	for _, name := range x.names {
		v, ok := value(name)
		if !ok {
			return 0, false
		}
		vars = append(vars, variable{name, v})
	}
	return x.run(vars)
}

// run evaluates with the variables given, one for each of names.
func (x *formula) run(vars activation) (float64, bool) {
	x.once.Do(func() { x.program, x.err = x.env.plan(x.source) })
	if x.err != nil {
		return 0, false
	}
	out, _, err := x.program.Eval(vars)
	if err != nil {
		return 0, false
	}
	v, ok := out.Value().(float64)
	return v, ok && !math.IsNaN(v) && !math.IsInf(v, 0)
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
