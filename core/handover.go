package core

import (
	"fmt"
	"slices"
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
	// Taught is what the job has shown for those to come; nil if it was not kept.
	Taught *Taught `json:"taught,omitempty"`
	Stamp
}

// Kind is "handover".
func (h *Handover) Kind() string { return "handover" }

// OldPartsWords are what may have become of the old parts.
var OldPartsWords = []string{"returned", "released in writing", "none"}

// Check refuses to let go what is not accounted for, all of it told at once: see OpenAtHandover. Safety work that no second person has looked
// over does not go by road.
func (h *Handover) Check(s *Story) error {
	if s.Job.State == StateHandedOver {
		return s.working("second handover")
	}
	var lacks, next []string
	if blank(h.Signed) {
		lacks, next = append(lacks, "nobody has signed for it"), append(next, "name who signed for it: --signed NAME")
	}
	if !slices.Contains(OldPartsWords, h.OldParts) {
		lacks, next = append(lacks, "what became of the old parts is not said"), append(next, "say which, "+quoted(OldPartsWords)+": --old-parts WHAT")
	}
	if len(lacks) > 0 {
		return Errorf(Invalid, strings.Join(next, "; "), "%s", strings.Join(lacks, "; "))
	}
	lacks, next = nil, nil
	if left := s.ByTrailer(); len(left) > 0 && !h.Trailer {
		lacks = append(lacks, "it leaves on a trailer: "+strings.Join(left, "; "))
		next = append(next, "--trailer, and see that it is on one")
	}
	if open := s.OpenAtHandover(); len(open) > 0 && blank(h.Told) {
		lacks = append(lacks, "still open: "+strings.Join(open, "; "))
		next = append(next, "settle it, or record the owner's word on all of it: --told WORDS")
	}
	if len(lacks) > 0 {
		return Errorf(Conflict, strings.Join(next, "; "), "%s", strings.Join(lacks, "; "))
	}
	return nil
}

// quoted lists words in quotation marks.
func quoted(words []string) string {
	return `"` + strings.Join(words, `", "`) + `"`
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
		if t.Apart() && t.State != TagBuilt {
			lies := t.State + ", " + t.Lies
			if t.State == TagOut {
				lies = t.Lies
			}
			open = append(open, t.words()+": "+lies)
		}
	}
	open = append(open, s.Shortages()...)
	for _, o := range s.Outwork {
		if o.State == OutworkOut {
			open = append(open, o.ID+" is out at "+o.To)
		}
	}
	for _, p := range s.Purchases {
		if held := p.Outstanding(); held != nil {
			open = append(open, fmt.Sprintf("%s: exchange charge %s is not back from %s", p.ID, held, p.From))
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
		if g.Safety {
			open = append(open, g.unsafe())
			continue
		}
		open = append(open, g.ID+" "+g.What)
	}
	if s.Job.Vehicle != nil && len(s.Fits) > 0 && !s.tightenedAgain() {
		open = append(open, "no second torque after running is recorded")
	}
	return open
}

// tightenedAgain reports that something was tightened a second time, after running.
func (s *Story) tightenedAgain() bool {
	for _, t := range s.Tests {
		if len(t.SecondTorque) > 0 {
			return true
		}
	}
	for _, f := range s.Fits {
		if slices.ContainsFunc(f.Torques, func(t Torque) bool { return t.Again }) {
			return true
		}
	}
	return false
}
