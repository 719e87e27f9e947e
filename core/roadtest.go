package core

import "strings"

// RoadTest is one run, or the first start: what was read, how far, and whether fasteners were tightened again after it.
type RoadTest struct {
	What         string       `json:"what"` // first start, 20 miles ...
	Distance     string       `json:"distance,omitempty"`
	Readings     []RunReading `json:"readings,omitempty"`
	SecondTorque []string     `json:"second_torque,omitempty"` // what was tightened again
	Stamp
}

// RunReading is something read that no sheet asks for.
type RunReading struct {
	What  string   `json:"what"`
	Value Quantity `json:"value,omitzero"`
	As    string   `json:"as_typed"`
}

// Kind is "road test".
func (r *RoadTest) Kind() string { return "road test" }

// Check refuses a run before what keeps it on the road was checked by a second person, or with a safety matter left undone.
func (r *RoadTest) Check(s *Story) error {
	if err := s.working("road test"); err != nil {
		return err
	}
	if err := s.needs(GateBudget, "run"); err != nil {
		return err
	}
	if blank(r.What) {
		return Errorf(Invalid, "say what was done: first start, 20 miles", "what was tested?")
	}
	if open := s.Unchecked(); len(open) > 0 && r.Distance != "" {
		return Errorf(Conflict, "let a second person check it: fettle build "+s.Job.Number+" PART --second NAME", "not checked by a second person: %s", strings.Join(open, ", "))
	}
	if left := s.Trailer(); len(left) > 0 && r.Distance != "" {
		return Errorf(Conflict, "it moves on a trailer only", "left undone: %s", strings.Join(left, "; "))
	}
	return nil
}

func (r *RoadTest) fold(s *Story, at Stamp) {
	t := *r
	t.Stamp = at
	s.Tests = append(s.Tests, t)
}

func (r *RoadTest) leads(s *Story) string {
	switch s.Job.State {
	case StateInWork, StateWaiting, StateBuilding:
		return StateRoadTest
	}
	return ""
}

// Snag is one thing on the list after a run, until it is put right or the owner takes it as it is.
type Snag struct {
	ID      string `json:"number"` // G-001
	What    string `json:"what"`
	Cleared string `json:"cleared,omitempty"` // how
	Owner   string `json:"owner,omitempty"`   // whose word it is that it may stay
	Stamp
}

// Kind is "snag".
func (g *Snag) Kind() string { return "snag" }

// Number is the snag's.
func (g *Snag) Number() string { return g.ID }

// Prefix is "G-".
func (g *Snag) Prefix() string { return "G-" }

// SetNumber gives it a number.
func (g *Snag) SetNumber(n string) { g.ID = n }

// Check refuses a snag that says nothing.
func (g *Snag) Check(s *Story) error {
	if err := s.working("snag"); err != nil {
		return err
	}
	if blank(g.What) {
		return Errorf(Invalid, "say what is wrong", "the snag says nothing")
	}
	return nil
}

func (g *Snag) fold(s *Story, at Stamp) {
	h := *g
	h.Stamp = at
	s.Snags = standing(s.Snags, h, func(g Snag) string { return g.ID })
}

// OpenSnags are those neither put right nor taken as they are.
func (s *Story) OpenSnags() []Snag {
	var open []Snag
	for _, g := range s.Snags {
		if g.Cleared == "" && g.Owner == "" {
			open = append(open, g)
		}
	}
	return open
}
