package core

import (
	"slices"
	"strings"
)

// The states of a job, in the words printed.
const (
	StateEnquiry     = "enquiry"
	StateArrived     = "arrived"
	StateStripAgreed = "strip agreed"
	StateStripping   = "stripping"
	StateInspected   = "inspected"
	StateScopeOut    = "scope out"
	StateAgreed      = "agreed"
	StateInWork      = "in work"
	StateWaiting     = "waiting"
	StateBuilding    = "building"
	StateRoadTest    = "road test"
	StateHandedOver  = "handed over"
	StateStopped     = "stopped"
)

// States are all of them, in the order of a job.
var States = []string{StateEnquiry, StateArrived, StateStripAgreed, StateStripping, StateInspected, StateScopeOut, StateAgreed, StateInWork, StateWaiting,
	StateBuilding, StateRoadTest, StateHandedOver, StateStopped}

// follows lists what may come after a state, beside stopped (common practice, no source). What is stopped goes back to where it was.
func follows(state string) []string {
	switch state {
	case StateEnquiry:
		return []string{StateArrived, StateScopeOut}
	case StateArrived:
		return []string{StateStripAgreed, StateInspected, StateScopeOut}
	case StateStripAgreed:
		return []string{StateStripping, StateInspected, StateScopeOut}
	case StateStripping:
		return []string{StateInspected, StateScopeOut}
	case StateInspected:
		return []string{StateStripAgreed, StateStripping, StateScopeOut}
	case StateScopeOut:
		return []string{StateStripAgreed, StateStripping, StateInspected, StateAgreed}
	case StateAgreed:
		return []string{StateScopeOut, StateInWork, StateWaiting, StateBuilding}
	case StateInWork:
		return []string{StateWaiting, StateBuilding, StateRoadTest}
	case StateWaiting:
		return []string{StateInWork, StateBuilding, StateRoadTest}
	case StateBuilding:
		return []string{StateInWork, StateWaiting, StateRoadTest}
	case StateRoadTest:
		return []string{StateInWork, StateWaiting, StateBuilding, StateHandedOver}
	case StateStopped:
		return []string{StateHandedOver}
	}
	return nil
}

// Move takes a job to another state.
type Move struct {
	To  string `json:"to"`
	Why string `json:"why"`
}

// Moved is a state as reached.
type Moved struct {
	Move
	From string `json:"from"`
	Stamp
}

// Kind is "move".
func (m *Move) Kind() string { return "move" }

// Check refuses a state that does not follow from the one the job is in, and one whose agreement is not recorded.
func (m *Move) Check(s *Story) error {
	if !slices.Contains(States, m.To) {
		return Errorf(Invalid, "use one of: "+strings.Join(States, ", "), "%q is no state of a job", m.To)
	}
	if m.To == s.Job.State {
		return Errorf(Conflict, "nothing is to be done", "the job is %s already", m.To)
	}
	if (m.To == StateStopped || m.To == StateWaiting) && blank(m.Why) {
		return Errorf(Invalid, "say why, in words that its owner may read", "no reason is given for: %s", m.To)
	}
	next := s.Next()
	if !slices.Contains(next, m.To) {
		return Errorf(Conflict, "from here: "+strings.Join(next, ", "), "a job that is %s cannot become %s", s.Job.State, m.To)
	}
	switch m.To {
	case StateStripAgreed, StateStripping:
		return s.needs(GateStrip, m.To)
	case StateAgreed, StateInWork, StateBuilding, StateRoadTest:
		return s.needs(GateBudget, m.To)
	case StateScopeOut:
		if s.LastScope() == nil {
			return Errorf(Conflict, "issue it: fettle scope "+s.Job.Number+" --issue", "no scope of %s is issued that could be out", s.Job.Number)
		}
	case StateHandedOver:
		if s.Handover == nil {
			return Errorf(Conflict, "hand it over: fettle close "+s.Job.Number+" --signed NAME --old-parts returned", "%s is handed over by closing it: what is open is told then", s.Job.Number)
		}
	}
	return nil
}

func (m *Move) fold(s *Story, at Stamp) {
	s.Moves = append(s.Moves, Moved{Move: *m, From: s.Job.State, Stamp: at})
	s.Job.State = m.To
}

// Next lists the states that may follow the job's own.
func (s *Story) Next() []string {
	next := follows(s.Job.State)
	switch {
	case s.Job.State == StateStopped:
		if was := s.StoppedAt(); was != "" {
			next = append([]string{was}, next...)
		}
	case s.Job.State != StateHandedOver:
		next = append(next, StateStopped)
	}
	if s.Job.Vehicle == nil && (s.Job.State == StateBuilding || s.Job.State == StateInWork) {
		next = append(next, StateHandedOver) // a unit on the bench has no road to be tested on
	}
	return next
}

// StoppedAt is the state in which a stopped job was stopped.
func (s *Story) StoppedAt() string {
	for _, m := range slices.Backward(s.Moves) {
		if m.To == StateStopped {
			return m.From
		}
	}
	return ""
}

// working refuses what may not be done to a job that is stopped or handed over.
func (s *Story) working(what string) error {
	switch s.Job.State {
	case StateStopped:
		return Errorf(Conflict, "take it up again: fettle resume "+s.Job.Number, "%s is stopped: no %s now", s.Job.Number, what)
	case StateHandedOver:
		return Errorf(Conflict, "open a new job for it", "%s is handed over: no %s now", s.Job.Number, what)
	}
	return nil
}

func blank(s string) bool { return strings.TrimSpace(s) == "" }
