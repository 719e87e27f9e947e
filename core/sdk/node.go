package sdk

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"go.yaml.in/yaml/v3"
)

// place is where something stands in a sheet, counted from 1.
type place struct{ line, column int }

func at(n *yaml.Node) place {
	if n == nil {
		return place{1, 1}
	}
	return place{n.Line, n.Column}
}

// word is a text with its place.
type word struct {
	text string
	place
}

// plain gives the texts alone.
func plain(ws []word) []string {
	var ss []string
	for _, w := range ws {
		ss = append(ss, w.text)
	}
	return ss
}

// isID reports letters, digits and, but for the first, _ . and -.
func isID(s string) bool {
	for i := range len(s) {
		if !isNameByte(s[i]) && s[i] != '.' && s[i] != '-' || i == 0 && (s[i] == '_' || s[i] == '.' || s[i] == '-') {
			return false
		}
	}
	return s != ""
}

// isName reports what a formula may name: letters, digits and _, no digit first.
func isName(s string) bool {
	for i := range len(s) {
		if !isNameByte(s[i]) {
			return false
		}
	}
	return s != "" && !isDigit(s[0])
}

// text reads a scalar as text; numbers are text too, so that a position may be 1.
func (f *faults) text(n *yaml.Node) word {
	if n == nil {
		return word{}
	}
	w := word{strings.TrimSpace(n.Value), at(n)}
	switch {
	case n.Kind != yaml.ScalarNode || n.Tag == "!!bool":
		f.add(at(n), "write a text; put quotes around braces, colons, yes and no", "a text is wanted here, not %s", kindOf(n))
		return word{place: at(n)}
	case n.Tag == "!!null" || w.text == "":
		f.add(at(n), "write the text, or take the key out", "this is blank")
		return word{place: at(n)}
	}
	return w
}

// id reads a name without spaces.
func (f *faults) id(n *yaml.Node) word {
	w := f.text(n)
	if w.text != "" && !isID(w.text) {
		f.add(w.place, "use letters, digits, dashes", "%q is no id", w.text)
	}
	return w
}

// oneOf reads one of a few words.
func (f *faults) oneOf(n *yaml.Node, what string, allowed ...string) word {
	w := f.text(n)
	if w.text != "" && !slices.Contains(allowed, w.text) {
		f.add(w.place, "write one of: "+strings.Join(allowed, ", "), "%q is no %s", w.text, what)
	}
	return w
}

// yes reads true or false.
func (f *faults) yes(n *yaml.Node) bool {
	if n == nil {
		return false
	}
	if n.Kind != yaml.ScalarNode || n.Tag != "!!bool" {
		f.add(at(n), "write true or false", "true or false is wanted here, not %s", kindOf(n))
		return false
	}
	return n.Value == "true" || n.Value == "True" || n.Value == "TRUE"
}

// number reads a finite number in [low, high].
func (f *faults) number(n *yaml.Node, low, high float64) float64 {
	if n == nil {
		return 0
	}
	v, err := strconv.ParseFloat(n.Value, 64)
	if n.Kind != yaml.ScalarNode || err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
		f.add(at(n), "write a number", "a number is wanted here, not %s", kindOf(n))
		return 0
	}
	if v < low || v > high {
		f.add(at(n), "write a number from "+trimFloat(low)+" to "+trimFloat(high), "%s is outside what can be meant here", n.Value)
		return low
	}
	return v
}

// whole reads a whole number in [low, high].
func (f *faults) whole(n *yaml.Node, low, high int) int {
	v := f.number(n, float64(low), float64(high))
	if v != math.Trunc(v) {
		f.add(at(n), "write a whole number", "%s is no whole number", n.Value)
	}
	return int(v)
}

// entries gives the entries of a list.
func (f *faults) entries(n *yaml.Node) []*yaml.Node {
	if n == nil {
		return nil
	}
	if n.Kind != yaml.SequenceNode {
		f.add(at(n), "write a list: [a, b]", "a list is wanted here, not %s", kindOf(n))
		return nil
	}
	return n.Content
}

// texts reads a list of texts, none of them twice.
func (f *faults) texts(n *yaml.Node) []word {
	var ws []word
	for _, e := range f.entries(n) {
		w := f.text(e)
		if w.text == "" {
			continue
		}
		if slices.ContainsFunc(ws, func(o word) bool { return o.text == w.text }) {
			f.add(w.place, "take one out", "%q stands here twice", w.text)
			continue
		}
		ws = append(ws, w)
	}
	return ws
}

// three reads [low, likely, high], rising, none negative, as numbers and as written.
func (f *faults) three(n *yaml.Node) (v [3]float64, as [3]string) {
	if n == nil {
		return v, as
	}
	es := f.entries(n)
	if len(es) != 3 {
		if n.Kind == yaml.SequenceNode {
			f.add(at(n), "write [low, likely, high]", "three numbers are wanted here, not %d", len(es))
		}
		return v, as
	}
	for i, e := range es {
		v[i], as[i] = f.number(e, 0, 1e9), trimFloat(0)
		if e.Kind == yaml.ScalarNode {
			as[i] = strings.TrimPrefix(e.Value, "+")
			if strings.HasPrefix(as[i], ".") {
				as[i] = "0" + as[i]
			}
		}
	}
	if v[0] > v[1] || v[1] > v[2] {
		f.add(at(n), "write [low, likely, high], rising", "low, likely and high do not rise")
	}
	return v, as
}

func trimFloat(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }

// kindOf names what stands where something else was wanted.
func kindOf(n *yaml.Node) string {
	switch n.Kind {
	case yaml.SequenceNode:
		return "a list"
	case yaml.MappingNode:
		return "a set of keys"
	case yaml.AliasNode:
		return "an alias (*" + n.Value + "): sheets have none"
	}
	if n.Tag == "!!null" {
		return "a blank"
	}
	return strconv.Quote(n.Value)
}
