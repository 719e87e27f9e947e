package host

import (
	"fmt"
	"math"
	"reflect"
	"strings"
	"sync"

	"github.com/fettle-tools/fettle/core"
)

// An answer is checked before anybody uses it. What would mislead is refused as a whole, with every fault named;
// what is merely too generous is closed and said so (check_close.go). Nothing is ever opened.

// faultsShown is how many faults of an answer its error names.
const faultsShown = 3

// faults gathers what is wrong with an answer, in the order found.
type faults []string

func (f *faults) add(format string, args ...any) { *f = append(*f, fmt.Sprintf(format, args...)) }

// err gives the faults as one error, nil if there are none. what is "sheet" or "answer".
func (f faults) err(what string) error {
	if len(f) == 0 {
		return nil
	}
	shown := f
	more := ""
	if len(f) > faultsShown {
		shown, more = f[:faultsShown], fmt.Sprintf("; and %d more", len(f)-faultsShown)
	}
	return core.Errorf(core.Invalid, "send this to the plugin's author; until then judge these parts by hand",
		"its %s was refused: %s%s", what, strings.Join(shown, "; "), more)
}

// finite names every number in v that is no number or infinite, by its place.
func (f *faults) finite(place string, v reflect.Value) {
	if allFinite(v) { // nearly always: the places need not be put in words
		return
	}
	switch v.Kind() {
	case reflect.Float64:
		if x := v.Float(); math.IsNaN(x) || math.IsInf(x, 0) {
			f.add("%s is %v", place, x)
		}
	case reflect.Pointer:
		if !v.IsNil() {
			f.finite(place, v.Elem())
		}
	case reflect.Slice:
		for i := range v.Len() {
			f.finite(fmt.Sprintf("%s[%d]", place, i), v.Index(i))
		}
	case reflect.Struct:
		for i := range v.NumField() {
			name, _, _ := strings.Cut(v.Type().Field(i).Tag.Get("json"), ",")
			if hasNumbers(v.Field(i).Type()) {
				f.finite(place+"."+name, v.Field(i))
			}
		}
	}
}

func allFinite(v reflect.Value) bool {
	switch v.Kind() {
	case reflect.Float64:
		x := v.Float()
		return !math.IsNaN(x) && !math.IsInf(x, 0)
	case reflect.Pointer:
		return v.IsNil() || allFinite(v.Elem())
	case reflect.Slice:
		for i := range v.Len() {
			if !allFinite(v.Index(i)) {
				return false
			}
		}
	case reflect.Struct:
		for _, i := range fieldsWithNumbers(v.Type()) {
			if !allFinite(v.Field(i)) {
				return false
			}
		}
	}
	return true
}

// numbered keeps which fields of a struct type are worth looking into.
var numbered sync.Map

func fieldsWithNumbers(t reflect.Type) []int {
	if is, ok := numbered.Load(t); ok {
		return is.([]int)
	}
	var is []int
	for i := range t.NumField() {
		if hasNumbers(t.Field(i).Type) {
			is = append(is, i)
		}
	}
	numbered.Store(t, is)
	return is
}

// hasNumbers tells what is worth looking into for finite.
func hasNumbers(t reflect.Type) bool {
	switch t.Kind() {
	case reflect.Float64:
		return true
	case reflect.Struct:
		return len(fieldsWithNumbers(t)) > 0
	case reflect.Pointer, reflect.Slice:
		return hasNumbers(t.Elem())
	}
	return false
}

// chance wants a number between 0 and 1.
func (f *faults) chance(place string, x float64) {
	if x < 0 || x > 1 {
		f.add("%s is %v, which is no chance", place, x)
	}
}

// sumTolerance is how far the chances of a part's states may be off 1.
const sumTolerance = 1e-6

// states wants chances that sum to 1.
func (f *faults) states(place string, states []core.State) {
	sum := 0.0
	for _, s := range states {
		f.chance(place+": a chance", s.Chance)
		if s.Grade == core.GradeNone {
			f.add("%s: a state has no grade", place)
		}
		sum += s.Chance
	}
	if math.Abs(sum-1) > sumTolerance {
		f.add("%s: the chances sum to %s", place, core.FormatNumber(sum))
	}
}
