package core

import (
	"fmt"
	"strings"
)

// Handover ends a job: the vehicle or unit goes back, with what was done, what was not, and its old parts.
type Handover struct {
	Signed       string `json:"signed"`
	OldParts     string `json:"old_parts"` // returned, released in writing, none
	FirstService string `json:"first_service,omitempty"`
	Trailer      bool   `json:"trailer,omitempty"` // it leaves on a trailer
	// Told says, in the owner's words, what was still open and taken so; "" if nothing was.
	Told string `json:"told,omitempty"`
	// Stopped says that it was handed over as it stood, not finished.
	Stopped bool `json:"stopped,omitempty"`
	Stamp
}

// Kind is "handover".
func (h *Handover) Kind() string { return "handover" }

// Check refuses to let go what is not accounted for: see Open.
func (h *Handover) Check(s *Story) error {
	switch {
	case s.Job.State == StateHandedOver:
		return s.working("second handover")
	case blank(h.Signed):
		return Errorf(Invalid, "name who signed for it: --signed NAME", "nobody has signed for it")
	case blank(h.OldParts):
		return Errorf(Invalid, "say what became of them: --old-parts \"returned\"", "nothing is said of the old parts")
	}
	if left := s.Trailer(); len(left) > 0 && !h.Trailer {
		return Errorf(Conflict, "--trailer, and see that it is on one", "a safety matter was left undone, so it leaves on a trailer: %s", strings.Join(left, "; "))
	}
	if open := s.OpenAtHandover(); len(open) > 0 && blank(h.Told) {
		return Errorf(Conflict, "settle it, or record the owner's word on it: --told WORDS", "still open: %s", strings.Join(open, "; "))
	}
	return nil
}

func (h *Handover) fold(s *Story, at Stamp) {
	g := *h
	g.Stamp = at
	g.Stopped = s.Job.State == StateStopped
	s.Handover = &g
}

func (h *Handover) leads(*Story) string { return StateHandedOver }

// OpenAtHandover lists what a handover would leave unaccounted for.
func (s *Story) OpenAtHandover() []string {
	var open []string
	for _, t := range s.Tags {
		if t.lies() && t.State != TagBuilt {
			open = append(open, fmt.Sprintf("%s is %s, %s", t.words(), t.State, t.Lies))
		}
	}
	open = append(open, s.Shortages()...)
	for _, o := range s.Outwork {
		if o.State == OutworkOut {
			open = append(open, o.ID+" is out at "+o.To)
		}
	}
	for _, p := range s.Purchases {
		if p.Exchange != nil && !p.ExchangeBack && p.State != PurchaseReturned {
			open = append(open, fmt.Sprintf("%s: exchange charge %s is not back from %s", p.ID, p.Exchange, p.From))
		}
	}
	for _, n := range s.Notes {
		if n.State == NoteSent {
			open = append(open, n.ID+" is not answered")
		}
	}
	for _, p := range s.Gathering() {
		open = append(open, p.ID+" was never put to the owner")
	}
	for _, u := range s.Unchecked() {
		open = append(open, u+" was not checked by a second person")
	}
	for _, g := range s.OpenSnags() {
		open = append(open, g.ID+" "+g.What)
	}
	if s.Job.Vehicle != nil && len(s.Fits) > 0 && !s.tightenedAgain() {
		open = append(open, "no second torque after running is recorded")
	}
	return open
}

func (s *Story) tightenedAgain() bool {
	for _, t := range s.Tests {
		if len(t.SecondTorque) > 0 {
			return true
		}
	}
	return false
}
