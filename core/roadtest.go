package core

import (
	"slices"
	"strings"
)

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
	if unsafe := s.unsafe(); len(unsafe) > 0 && r.Distance != "" {
		return Errorf(Conflict, "put it right first: fettle road-test "+s.Job.Number+" --clear "+unsafe[0].ID+" HOW", "%s", unsafe[0].unsafe())
	}
	if open := s.Unsettled(); len(open) > 0 && r.Distance != "" {
		return Errorf(Conflict, "settle it first: fettle change "+s.Job.Number, "a safety matter is not settled, %s: %s", open[0].ID, open[0].Found)
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
	Safety  bool   `json:"safety,omitempty"`  // lives hang on it: until it is put right the vehicle moves on a trailer only
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

// Check refuses a snag that says nothing, what was never on the list, and leaving one as it is on the word of somebody who may not give it.
func (g *Snag) Check(s *Story) error {
	if err := s.working("snag"); err != nil {
		return err
	}
	was := s.Snag(g.ID)
	settles := g.Cleared != "" || g.Owner != ""
	switch {
	case blank(g.What):
		return Errorf(Invalid, "say what is wrong", "the snag says nothing")
	case g.Cleared != "" && g.Owner != "":
		return Errorf(Invalid, "--clear it, or --leave it", "a snag that is put right is not left as it is")
	case settles && g.ID != "" && was == nil:
		return Errorf(NotFound, "see: fettle road-test "+s.Job.Number, "%s has no snag %s", s.Job.Number, g.ID)
	case was != nil && was.Safety && !g.Safety:
		return Errorf(Conflict, "put it right: --clear "+g.ID+" HOW", "%s was said to be one that lives hang on", g.ID)
	case was != nil && was.Cleared != "":
		return Errorf(Conflict, "write a new one down, if it came back: --snag WORDS", "%s was put right already: %s", g.ID, was.Cleared)
	case g.Owner != "":
		return s.mayAuthorise(g.Owner, MinorMoney(0, s.currency()))
	}
	return nil
}

// Snag finds a snag by its number, or nil.
func (s *Story) Snag(number string) *Snag {
	if number == "" {
		return nil
	}
	return named(s.Snags, number, func(g Snag) string { return g.ID })
}

func (g *Snag) fold(s *Story, at Stamp) {
	h := *g
	h.Stamp = at
	s.Snags = standing(s.Snags, h, func(g Snag) string { return g.ID })
}

// Is says how a snag stands.
func (g Snag) Is() string {
	switch {
	case g.Cleared != "":
		return "put right: " + g.Cleared
	case g.Owner != "":
		return "left on the word of " + g.Owner
	}
	return "OPEN"
}

// unsafe says of a snag of safety that it is not put right.
func (g Snag) unsafe() string { return "unsafe as it stands, " + g.ID + ": " + g.What }

// unsafe are the snags on which lives hang, neither put right nor taken as they are.
func (s *Story) unsafe() []Snag {
	return slices.DeleteFunc(s.OpenSnags(), func(g Snag) bool { return !g.Safety })
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

// ReadRun reads what was seen on a run, the number and its unit last: "oil pressure hot 45 psi". Words without a number are kept as words.
// It is Invalid where nothing stands before the number, or the number has no unit.
func ReadRun(text string) (RunReading, error) {
	what, q, err := lastQuantity(text)
	if err != nil {
		return RunReading{}, err
	}
	return RunReading{What: what, Value: q, As: strings.TrimSpace(text)}, nil
}

// lastQuantity parts "main cap 60 lbf ft" into what is read and the quantity; a text that ends with no quantity has a zero one.
func lastQuantity(text string) (string, Quantity, error) {
	words := strings.Fields(text)
	if len(words) == 0 {
		return "", Quantity{}, Errorf(Invalid, `write it like "oil pressure hot 45 psi"`, "nothing is written")
	}
	bare := false
	for i := range words {
		if !startsNumeric().MatchString(words[i]) {
			continue
		}
		r, err := ParseReading(strings.Join(words[i:], " "))
		switch {
		case err != nil:
			continue
		case i == 0:
			return "", Quantity{}, Errorf(Invalid, `say what it is of: "oil pressure hot 45 psi"`, "%q: of what?", text)
		case r.Unit == "" && i == len(words)-1:
			bare = true
		case r.Unit != "":
			return strings.Join(words[:i], " "), Quantity{Value: r.Value, Unit: r.Unit}, nil
		}
	}
	if bare && slices.IndexFunc(words, startsNumeric().MatchString) == len(words)-1 {
		return "", Quantity{}, Errorf(Invalid, `write the unit behind it: "oil pressure hot 45 psi"`, "%q: %s of what?", text, words[len(words)-1])
	}
	return strings.Join(words, " "), Quantity{}, nil
}

// ReadTorque reads what a fastener was tightened to: "main cap 60 lbf ft". Errors are of code Invalid.
func ReadTorque(text string) (Torque, error) {
	what, q, err := lastQuantity(text)
	if err != nil {
		return Torque{}, err
	}
	if _, err := Convert(1, q.Unit, "N m"); q.Unit == "" || err != nil {
		return Torque{}, Errorf(Invalid, `write it like "main cap 60 lbf ft"`, "%q is no torque", text)
	}
	if q.Value <= 0 {
		return Torque{}, Errorf(Invalid, "write what the wrench was set to", "%q tightens nothing", text)
	}
	return Torque{Fastener: what, Value: q}, nil
}
