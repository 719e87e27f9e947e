package sdk

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"cel.dev/cel-go/common/ast"
	"cel.dev/cel-go/common/types"

	"github.com/fettle-tools/fettle/core"
)

// scope tells the unit of each identifier that a formula may name.
type scope map[string]string

func (s scope) names() []string {
	var ns []string
	for n := range s {
		ns = append(ns, n)
	}
	slices.Sort(ns)
	return ns
}

// checkFormula tells every fault of one formula: what CEL cannot read, names unknown here, units that do not fit.
func (f *faults) checkFormula(x *formula, s scope) {
	if x == nil || x.fixed != nil {
		return
	}
	parsed, iss := x.env.env.Parse(x.source)
	if iss.Err() != nil {
		for _, e := range iss.Errors() {
			f.add(x.where(e.Location.Column()), formulaAdvice, "the formula %q cannot be read: %s", x.text, celWords(e.Message))
		}
		return
	}
	w := walker{f: f, x: x, scope: s, info: parsed.NativeRep().SourceInfo()}
	before := len(f.list)
	got := w.walk(parsed.NativeRep().Expr())
	slices.Sort(x.names)
	x.names = slices.Compact(x.names)
	if len(f.list) > before {
		return
	}
	checked, iss := x.env.env.Check(parsed)
	if iss.Err() != nil {
		for _, e := range iss.Errors() {
			f.add(x.where(e.Location.Column()), formulaAdvice, "the formula %q does not work out: %s", x.text, celWords(e.Message))
		}
		return
	}
	if checked.OutputType() != types.DoubleType {
		f.add(x.place, formulaAdvice, "the formula %q gives no number", x.text)
		return
	}
	w.result(got)
}

const formulaAdvice = "write a sum of numbers and identifiers, such as D - .0015 or max(abs(FV - FH), abs(RV - RH))"

// celWords takes the noise out of CEL's messages.
func celWords(s string) string {
	s, _, _ = strings.Cut(s, "\n")
	s = strings.TrimPrefix(s, "Syntax error: ")
	s = strings.ReplaceAll(s, " (in container '')", "")
	return s
}

// walker follows a parsed formula, its names and its units.
type walker struct {
	f     *faults
	x     *formula
	scope scope
	info  *ast.SourceInfo
	units []string // "D (in)", as met
}

func (w *walker) fault(e ast.Expr, next, format string, args ...any) {
	column := int(w.info.GetStartLocation(e.ID()).Column())
	if e.Kind() == ast.CallKind { // a call is placed at its bracket: its name is wanted
		if name := e.AsCall().FunctionName(); strings.HasSuffix(w.x.source[:min(column, len(w.x.source))], name) {
			column -= len(name)
		}
	}
	w.f.add(w.x.where(column), next, format, args...)
}

// walk gives the measure of an expression; for comparisons, that of a plain number.
func (w *walker) walk(e ast.Expr) measure {
	switch e.Kind() {
	case ast.LiteralKind:
		if t := e.AsLiteral().Type(); t != types.DoubleType && t != types.BoolType {
			w.fault(e, formulaAdvice, "%v has no place in a formula", e.AsLiteral().Value())
		}
		return plainNumber
	case ast.IdentKind:
		return w.ident(e)
	case ast.ListKind:
		return w.alike(e, "listed together", e.AsList().Elements())
	case ast.CallKind:
		return w.call(e)
	}
	w.fault(e, formulaAdvice, "this has no place in a formula")
	return plainNumber
}

func (w *walker) ident(e ast.Expr) measure {
	name := e.AsIdent()
	if name == "pi" {
		return measure{factor: 1}
	}
	unit, ok := w.scope[name]
	if !ok {
		w.fault(e, didYouMean(name, w.scope.names()), "the formula names %s, which is no station, check or fact here", name)
		return plainNumber
	}
	switch unit {
	case atStations:
		w.fault(e, "name one of its stations", "%s is read at several stations", name)
		return plainNumber
	case severalOf:
		w.fault(e, "give the stations of one of them other names", "%s is a station of several checks of this part", name)
		return plainNumber
	case "":
		return plainNumber // its unit is at fault already
	}
	w.x.names = append(w.x.names, name)
	m, _ := measureOf(unit)
	if r, ok := measureOf(w.x.unit); ok && m.dims == r.dims {
		m, unit = r, w.x.unit // such a value is given in the result's unit
	}
	if said := fmt.Sprintf("%s (%s)", name, unit); !slices.Contains(w.units, said) {
		w.units = append(w.units, said)
	}
	return m
}

// call knows the operators and functions; CEL's own check sees to their number and types.
func (w *walker) call(e ast.Expr) measure {
	c := e.AsCall()
	args := c.Args()
	if c.IsMemberFunction() || !w.x.env.env.HasFunction(c.FunctionName()) {
		w.fault(e, didYouMean(c.FunctionName(), functionNames), "there is no function %s", strings.Trim(c.FunctionName(), "_"))
		return plainNumber
	}
	switch c.FunctionName() {
	case "_*_", "_/_":
		if len(args) != 2 {
			return plainNumber
		}
		a, b := w.walk(args[0]), w.walk(args[1])
		if c.FunctionName() == "_/_" {
			return a.product(b, -1)
		}
		return a.product(b, +1)
	case "sqrt":
		return w.root(e, args)
	case "_?_:_":
		if len(args) != 3 {
			return plainNumber
		}
		w.walk(args[0])
		return w.alike(e, "alternatives", args[1:])
	case "_<_", "_<=_", "_>_", "_>=_":
		w.alike(e, "compared", args)
		return plainNumber
	case "_+_", "_-_":
		return w.alike(e, "added or taken from each other", args)
	}
	return w.alike(e, "put together", args)
}

func (w *walker) root(e ast.Expr, args []ast.Expr) measure {
	if len(args) != 1 {
		return plainNumber
	}
	m := w.walk(args[0])
	for i, p := range m.dims {
		if p%2 != 0 {
			w.fault(e, "take the root of a square", "sqrt is taken of %s", m.words())
			return plainNumber
		}
		m.dims[i] = p / 2
	}
	m.factor = math.Sqrt(m.factor)
	return m
}

// alike wants all of one measure; plain numbers fit any.
func (w *walker) alike(e ast.Expr, how string, args []ast.Expr) measure {
	got := plainNumber
	for _, a := range args {
		m := w.walk(a)
		switch {
		case m.any:
		case got.any:
			got = m
		case got.dims != m.dims:
			w.fault(a, "only like can be "+how, "%s and %s cannot be %s", got.words(), m.words(), how)
			return plainNumber
		case !got.sameFactor(m):
			w.fault(a, mixtureAdvice, "units are mixed: %s", strings.Join(w.units, ", "))
			return plainNumber
		}
	}
	return got
}

const mixtureAdvice = "give them one unit: state the fact or the check in the same unit as the others"

// result compares what the formula gives with what the check is measured in.
func (w *walker) result(got measure) {
	want, ok := measureOf(w.x.unit)
	switch {
	case !ok || got.any:
	case got.dims != want.dims:
		u, _ := core.FindUnit(w.x.unit)
		w.f.add(w.x.place, "look at the units: "+strings.Join(w.units, ", "), "the formula %q gives %s; a figure in %s (%s) is wanted", w.x.text, got.words(), w.x.unit, u.Dimension)
	case !got.sameFactor(want):
		w.f.add(w.x.place, mixtureAdvice, "units are mixed: %s do not give %s", strings.Join(w.units, ", "), w.x.unit)
	}
}

// functionNames are those a sheet may call.
var functionNames = []string{"abs", "max", "mean", "min", "out_of_round", "spread", "sqrt", "taper"}
