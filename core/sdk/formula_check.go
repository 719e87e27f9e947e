package sdk

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

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

// checkFormula tells every fault of one formula: what cannot be read, names unknown here, sorts and units that do not fit.
// A formula without faults can be worked out afterwards.
func (f *faults) checkFormula(x *formula, s scope) {
	if x == nil || x.fixed != nil {
		return
	}
	whole, fault := readExpression(x.text)
	if fault != nil {
		f.add(x.where(fault.at), formulaAdvice, "the formula %q cannot be read: %s", x.text, fault.what)
		return
	}
	w := walker{f: f, x: x, scope: s}
	before := len(f.list)
	got := w.walk(whole)
	slices.Sort(x.names)
	x.names = slices.Compact(x.names)
	if len(f.list) > before {
		return
	}
	switch w.settle(whole) {
	case sortNumber:
		w.result(got)
	case sortAlike: // a fault was told
	default:
		f.add(x.place, formulaAdvice, "the formula %q gives no number", x.text)
	}
	whole.settled()
	x.whole = whole
}

const formulaAdvice = "write a sum of numbers and identifiers, such as D - .0015 or max(abs(FV - FH), abs(RV - RH))"

// walker follows a parsed formula, its names and its units.
type walker struct {
	f     *faults
	x     *formula
	scope scope
	units []string // "D (in)", as met
}

func (w *walker) fault(e *expression, next, format string, args ...any) {
	w.f.add(w.x.where(e.at), next, format, args...)
}

// walk gives the measure of an expression; for comparisons, that of a plain number.
func (w *walker) walk(e *expression) measure {
	switch e.kind {
	case aName:
		return w.ident(e)
	case aList:
		return w.alike(e, "listed together", e.args)
	case aCall:
		return w.call(e)
	}
	return plainNumber
}

func (w *walker) ident(e *expression) measure {
	name := e.word
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

// call knows the operators and functions; settle sees to the number and sort of their arguments.
func (w *walker) call(e *expression) measure {
	if _, known := findFormulaWord(e.word); !known {
		w.fault(e, didYouMean(e.word, functionNames), "there is no function %s", e.word)
		return plainNumber
	}
	switch e.word {
	case "*":
		return w.walk(e.args[0]).product(w.walk(e.args[1]), +1)
	case "/":
		return w.walk(e.args[0]).product(w.walk(e.args[1]), -1)
	case "sqrt":
		return w.root(e)
	case ifElse:
		w.walk(e.args[0])
		return w.alike(e, "alternatives", e.args[1:])
	case "<", "<=", ">", ">=":
		w.alike(e, "compared", e.args)
		return plainNumber
	case "+", "-":
		return w.alike(e, "added or taken from each other", e.args)
	}
	return w.alike(e, "put together", e.args)
}

func (w *walker) root(e *expression) measure {
	if len(e.args) != 1 {
		return plainNumber
	}
	m := w.walk(e.args[0])
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

// settle says what an expression gives, finds its names, and tells what does not work out: the wrong number
// of arguments, a comparison where a number is wanted. After a fault it gives sortAlike.
func (w *walker) settle(e *expression) termSort {
	switch e.kind {
	case aNumber:
		return sortNumber
	case aTruth:
		return sortTruth
	case aName:
		e.index = slices.Index(w.x.names, e.word) // -1: pi
		return sortNumber
	case aList:
		return w.agree(e, e.args, sortNumber, sortList)
	}
	word, _ := findFormulaWord(e.word)
	if n := len(e.args); n < word.least || n > word.most {
		wanted := strconv.Itoa(word.least)
		if word.most > word.least {
			wanted += " to " + strconv.Itoa(word.most)
		}
		w.f.add(w.x.where(e.sign), formulaAdvice, "the formula %q does not work out: %s takes %s arguments, not %d", w.x.text, e.word, wanted, n)
		return sortAlike
	}
	if e.word != ifElse {
		return w.agree(e, e.args, word.takes, word.gives)
	}
	if w.agree(e, e.args[:1], sortTruth, sortTruth) == sortAlike {
		return sortAlike
	}
	gives := w.settle(e.args[1])
	if gives == sortList {
		w.f.add(w.x.where(e.args[1].at), formulaAdvice, "the formula %q does not work out: %s is wanted here, not %s", w.x.text, sortNumber, gives)
		return sortAlike
	}
	return w.agree(e, e.args[2:], gives, gives)
}

// agree wants all arguments of one sort.
func (w *walker) agree(e *expression, args []*expression, want, gives termSort) termSort {
	for _, a := range args {
		switch got := w.settle(a); {
		case got == sortAlike || want == sortAlike:
			return sortAlike
		case got != want:
			w.f.add(w.x.where(a.at), formulaAdvice, "the formula %q does not work out: %s is wanted here, not %s", w.x.text, want, got)
			return sortAlike
		}
	}
	return gives
}

// alike wants all of one measure; plain numbers fit any.
func (w *walker) alike(e *expression, how string, args []*expression) measure {
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
