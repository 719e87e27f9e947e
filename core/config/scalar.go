package config

import (
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"go.yaml.in/yaml/v3"

	"github.com/fettle-tools/fettle/core"
)

// text is a word or a sentence with its place. Numbers are texts too, so that a position may be 1.
type text struct {
	mark
	s string
}

func (t *text) scan(d *document, n *yaml.Node) {
	t.mark = markOf(n)
	if n.Kind != yaml.ScalarNode || n.Tag == "!!bool" || blankNode(n) {
		d.add(t.mark, "write a text; put quotes round braces, colons, yes and no", "a text is wanted here, not %s", kindOf(n))
		return
	}
	t.s = strings.TrimSpace(n.Value)
}

// or gives the text, or another if there is none.
func (t text) or(other string) string {
	if t.s == "" {
		return other
	}
	return t.s
}

// idPattern is what an id may look like.
var idPattern = regexp.MustCompile(`^[A-Za-z0-9][A-Za-z0-9_.-]*$`)

// id reads a text as an id.
func (d *document) id(t text) string {
	if t.s != "" && !idPattern.MatchString(t.s) {
		d.add(t.mark, "use letters, digits and dashes", "%q is no id", t.s)
	}
	return t.s
}

// oneOf checks a text that may be one of a few words; blank is let pass.
func (d *document) oneOf(t text, what string, words ...string) string {
	if t.s != "" && !slices.Contains(words, t.s) {
		d.add(t.mark, "write one of: "+strings.Join(words, ", "), "%q is no %s", t.s, what)
	}
	return t.s
}

// number is a finite number with its place and as written.
type number struct {
	mark
	v   float64
	raw string
	set bool
}

func (x *number) scan(d *document, n *yaml.Node) {
	x.mark = markOf(n)
	v, err := strconv.ParseFloat(n.Value, 64)
	if n.Kind != yaml.ScalarNode || n.Tag == "!!str" || err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
		d.add(x.mark, "write a number", "a number is wanted here, not %s", kindOf(n))
		return
	}
	x.v, x.set, x.raw = v, true, plainNumber(n.Value)
}

// plainNumber gives a YAML number as decimal text: a leading point gets its nought, a plus goes.
func plainNumber(s string) string {
	s = strings.TrimPrefix(s, "+")
	if strings.HasPrefix(s, ".") {
		s = "0" + s
	}
	return s
}

// within checks the number's range and gives it.
func (d *document) within(x number, low, high float64) float64 {
	if x.set && (x.v < low || x.v > high) {
		d.add(x.mark, "write a number from "+core.FormatNumber(low)+" to "+core.FormatNumber(high), "%s is outside what can be meant here", x.raw)
	}
	return x.v
}

// whole checks that the number is whole and in its range.
func (d *document) whole(x number, low, high int) int {
	if v := d.within(x, float64(low), float64(high)); v != math.Trunc(v) {
		d.add(x.mark, "write a whole number", "%s is no whole number", x.raw)
	}
	if x.v < float64(low) || x.v > float64(high) {
		return low
	}
	return int(x.v)
}

// pointer gives the number, or nil if there is none.
func (x number) pointer() *float64 {
	if !x.set {
		return nil
	}
	v := x.v
	return &v
}

// yes is true or false.
type yes bool

func (y *yes) scan(d *document, n *yaml.Node) {
	if n.Kind != yaml.ScalarNode || n.Tag != "!!bool" {
		d.add(markOf(n), "write true or false", "true or false is wanted here, not %s", kindOf(n))
		return
	}
	*y = yes(strings.EqualFold(n.Value, "true"))
}

// three is [low, likely, high], rising, none negative.
type three struct {
	mark
	v   core.Range3
	raw [3]string
	set bool
}

func (t *three) scan(d *document, n *yaml.Node) {
	t.mark = markOf(n)
	if n.Kind != yaml.SequenceNode || len(n.Content) != 3 {
		d.add(t.mark, "write [low, likely, high]", "three numbers are wanted here")
		return
	}
	var v [3]float64
	before := len(d.faults)
	for i, e := range n.Content {
		var x number
		x.scan(d, e)
		v[i], t.raw[i] = d.within(x, 0, 1e9), x.raw
	}
	if len(d.faults) > before {
		return
	}
	if v[0] > v[1] || v[1] > v[2] {
		d.add(t.mark, "write [low, likely, high], rising", "low, likely and high do not rise")
		return
	}
	t.v, t.set = core.Range3{Low: v[0], Likely: v[1], High: v[2]}, true
}

// money gives the three as amounts in a currency; empty if they were not written.
func (t three) money(currency string) core.Money3 {
	if !t.set {
		return core.Money3{}
	}
	return core.Money3{Low: t.raw[0], Likely: t.raw[1], High: t.raw[2], Currency: currency}
}

// span is [low, high], either of which may be null.
type span struct{ low, high number }

func (s *span) scan(d *document, n *yaml.Node) {
	if n.Kind != yaml.SequenceNode || len(n.Content) != 2 {
		d.add(markOf(n), "write [low, high]; null for an end that is open", "two numbers are wanted here")
		return
	}
	for i, x := range []*number{&s.low, &s.high} {
		if e := n.Content[i]; !blankNode(e) {
			x.scan(d, e)
		}
	}
	if s.low.set && s.high.set && s.low.v > s.high.v {
		d.add(markOf(n), "write the smaller number first", "low is above high")
	}
}

// pair is a key that the writer chooses, with its text.
type pair struct{ key, value text }

// pairs is a mapping whose keys the writer chooses, in their order.
type pairs []pair

func (p *pairs) scan(d *document, n *yaml.Node) {
	if n.Kind != yaml.MappingNode {
		d.add(markOf(n), "write its keys, each with a colon", "keys are wanted here, not %s", kindOf(n))
		return
	}
	for i := 0; i+1 < len(n.Content); i += 2 {
		var x pair
		x.key.scan(d, n.Content[i])
		if blankNode(n.Content[i+1]) {
			d.add(markOf(n.Content[i]), "write it, or take the key out", "%s is blank", x.key.s)
			continue
		}
		x.value.scan(d, n.Content[i+1])
		if slices.ContainsFunc(*p, func(o pair) bool { return o.key.s == x.key.s }) {
			d.add(x.key.mark, "keep one of them", "%s stands here twice", x.key.s)
			continue
		}
		*p = append(*p, x)
	}
}

// raw keeps a node as it is.
type raw struct{ n *yaml.Node }

func (r *raw) scan(_ *document, n *yaml.Node) { r.n = n }
