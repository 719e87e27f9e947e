package core

import (
	"fmt"
	"slices"
	"strings"
)

// Surprise is one thing found that the agreed scope did not price. Surprises gather until a change note takes them up.
type Surprise struct {
	ID        string           `json:"number"` // C-001
	Subsystem string           `json:"subsystem,omitempty"`
	Unit      string           `json:"unit,omitempty"`
	Target    Target           `json:"target,omitzero"`
	Tag       string           `json:"tag,omitempty"`
	Found     string           `json:"found"`      // what, against which limit and source
	NotBefore string           `json:"not_before"` // why it was not seen before
	Findings  []string         `json:"findings,omitempty"`
	Photos    []string         `json:"photos,omitempty"`
	Safety    bool             `json:"safety"`
	Options   []SurpriseOption `json:"options"`
	Again     string           `json:"again,omitempty"`     // number of the one that it puts to the owner anew
	Note      string           `json:"note,omitempty"`      // number of the note that took it up
	Withdrawn string           `json:"withdrawn,omitempty"` // why it is none after all
	Stamp
}

// SurpriseOption is one thing that can be done about a surprise.
type SurpriseOption struct {
	Do    string  `json:"do"`             // in words: do it, the alternative, leave it
	Sum   Money   `json:"sum,omitzero"`   // more than agreed, tax included; may be below zero
	Tax   Money   `json:"tax,omitzero"`   // of Sum
	Weeks float64 `json:"weeks"`          // more until the finish
	Risk  string  `json:"risk,omitempty"` // of leaving it, or of the alternative
	// Lines are the ids of lines of the order that it adds. What no plan priced becomes a line of its own, change:C-001/1.
	Lines   []string `json:"lines,omitempty"`
	Remedy  string   `json:"remedy,omitempty"`  // the remedy it is, where the plan chooses another: pinned once it is taken
	Leaves  bool     `json:"leaves,omitempty"`  // nothing is done
	DrawsOn Money    `json:"draws_on,omitzero"` // before tax, what comes out of the contingency
}

// net is an option's sum before tax, in minor units.
func (o SurpriseOption) net() int64 { return Minor(o.Sum) - Minor(o.Tax) }

// Kind is "surprise".
func (p *Surprise) Kind() string { return "surprise" }

// Number is the surprise's.
func (p *Surprise) Number() string { return p.ID }

// Prefix is "C-".
func (p *Surprise) Prefix() string { return "C-" }

// SetNumber gives it a number.
func (p *Surprise) SetNumber(n string) { p.ID = n }

// Check refuses a surprise that the owner could not decide on.
func (p *Surprise) Check(s *Story) error {
	if err := s.working("change"); err != nil {
		return err
	}
	switch {
	case blank(p.Found):
		return Errorf(Invalid, "say what was found: --found WORDS", "the surprise says nothing")
	case len(p.Options) == 0 && p.Withdrawn == "":
		return Errorf(Invalid, "say what can be done: --option \"do it: 420, 1 week\"", "there is nothing to choose from")
	}
	for _, o := range p.Options {
		if i := slices.IndexFunc(o.Lines, func(id string) bool { return strings.HasPrefix(id, string(LineReserve)+":") }); i >= 0 {
			return Errorf(Invalid, "name the work that it has come to", "%s is only held in reserve: it is no work that could be approved", o.Lines[i])
		}
	}
	if p.Again != "" {
		o := s.Surprise(p.Again)
		if o == nil || p.Again == p.ID {
			return Errorf(NotFound, "see: fettle change "+s.Job.Number, "%s has no change %s", s.Job.Number, p.Again)
		}
		if n := s.Note(o.Note); p.Withdrawn == "" && (n == nil || n.State == NoteSent) {
			return Errorf(Conflict, "see: fettle change "+s.Job.Number, "%s is not answered yet: it need not be put anew", p.Again)
		}
	}
	if was := s.Surprise(p.ID); was != nil && was.Note != "" {
		return Errorf(Conflict, "write down a new one", "%s is on the note %s, which is as sent", p.ID, was.Note)
	}
	return nil
}

func (p *Surprise) fold(s *Story, at Stamp) {
	q := *p
	q.Stamp = at
	q.Options = slices.Clone(p.Options)
	for i, o := range q.Options {
		if len(o.Lines) == 0 && !o.Leaves {
			q.Options[i].Lines = []string{fmt.Sprintf("change:%s/%d", q.ID, i+1)}
		}
	}
	s.Surprises = standing(s.Surprises, q, func(p Surprise) string { return p.ID })
}

// Surprise finds one by its number, or nil.
func (s *Story) Surprise(number string) *Surprise {
	if number == "" {
		return nil
	}
	return named(s.Surprises, number, func(p Surprise) string { return p.ID })
}

// Unsettled lists the safety matters that wait for a note or for its answer.
func (s *Story) Unsettled() []Surprise {
	var open []Surprise
	for _, p := range s.Surprises {
		n := s.Note(p.Note)
		if p.Safety && p.Withdrawn == "" && (n == nil || n.State == NoteSent) {
			open = append(open, p)
		}
	}
	return open
}

// of reports whether the surprise is about a place.
func (p *Surprise) of(q Place) bool {
	return p.Subsystem == q.Subsystem && p.Unit == q.Unit && p.Target.Part == q.Part && (p.Target.Position == "" || p.Target.Position == q.Position)
}

// again reports whether a surprise is about what an earlier one was about: it puts it anew, or it is of the same part, else of the same tag, else
// in the same words.
func (s *Story) again(p, o *Surprise) bool {
	if p.Again != "" {
		if q := s.Surprise(p.Again); q != nil && (q.ID == o.ID || s.again(q, o)) {
			return true
		}
	}
	switch {
	case o.Target.Part != "":
		return p.of(Place{Subsystem: o.Subsystem, Unit: o.Unit, Target: o.Target})
	case o.Tag != "":
		return p.Tag == o.Tag
	}
	return p.Target.Part == "" && p.Tag == "" && plainWords(p.Found) == plainWords(o.Found)
}

// Gathering lists the surprises that no note has taken up yet.
func (s *Story) Gathering() []Surprise {
	var open []Surprise
	for _, p := range s.Surprises {
		if p.Note == "" && p.Withdrawn == "" {
			open = append(open, p)
		}
	}
	return open
}
