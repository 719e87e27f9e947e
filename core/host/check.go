package host

import (
	"encoding/json"
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

// hasNumbers tells what is worth looking into for finite.
func hasNumbers(t reflect.Type) bool {
	switch t.Kind() {
	case reflect.Float64, reflect.Struct:
		return true
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

// index is a sheet arranged for checking answers; it shares nothing that a caller may change.
type index struct {
	name    string
	targets []core.Target
	parts   map[string]*core.Part
	ops     map[string]bool
	steps   map[string]bool
	hidden  map[string]bool
	rules   []core.NoReuse
}

func newIndex(s core.Sheet) *index {
	x := &index{name: s.Subsystem, parts: map[string]*core.Part{}, ops: map[string]bool{}, steps: map[string]bool{}, hidden: map[string]bool{}}
	for _, p := range s.Parts {
		p.Checks = append([]core.Check(nil), p.Checks...)
		p.Positions = append([]string(nil), p.Positions...)
		x.parts[p.ID] = &p
		x.targets = append(x.targets, p.Targets()...)
	}
	for _, o := range s.Operations {
		x.ops[o.ID] = true
	}
	for _, st := range s.Steps {
		x.steps[st.ID] = true
	}
	for _, h := range s.Hidden {
		x.hidden[h.ID] = true
	}
	x.rules = append(x.rules, s.NoReuse...)
	return x
}

// has reports whether the sheet has the part at the position.
func (x *index) has(t core.Target) bool {
	p := x.parts[t.Part]
	if p == nil {
		return false
	}
	for _, own := range p.Targets() {
		if own == t {
			return true
		}
	}
	return false
}

// check gives a check of a part, or nil.
func (x *index) check(part, check string) *core.Check {
	if p := x.parts[part]; p != nil {
		return p.Check(check)
	}
	return nil
}

// sheetsKept is how many sets of facts a run's sheets are kept for: the units of a job, with room.
const sheetsKept = 32

// sheets keeps what a run has described, so that an answer is held against the sheet for the same facts.
type sheets struct {
	mu   sync.Mutex
	kept map[string]*index
}

func (s *sheets) find(facts []core.Fact) *index {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.kept[factsKey(facts)]
}

func (s *sheets) keep(facts []core.Fact, sheet core.Sheet) *index {
	x := newIndex(sheet)
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.kept == nil || len(s.kept) >= sheetsKept {
		s.kept = map[string]*index{}
	}
	s.kept[factsKey(facts)] = x
	return x
}

func factsKey(facts []core.Fact) string {
	b, err := json.Marshal(facts)
	if err != nil {
		return fmt.Sprintf("%#v", facts) // a NaN: no JSON, but still a key
	}
	return string(b)
}
