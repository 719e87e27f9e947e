package host

import (
	"encoding/json"
	"fmt"
	"sync"

	"github.com/fettle-tools/fettle/core"
)

// index is a sheet arranged for checking answers; it shares nothing that a caller may change.
type index struct {
	sheet    core.Sheet
	problems []core.Problem // what was said when it was described
	name     string
	targets  []core.Target
	parts    map[string]*core.Part
	ops      map[string]bool
	steps    map[string]bool
	hidden   map[string]bool
	rules    []core.NoReuse
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

func (s *sheets) keep(facts []core.Fact, sheet core.Sheet, problems []core.Problem) *index {
	x := newIndex(sheet)
	x.sheet, x.problems = sheet, problems
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
