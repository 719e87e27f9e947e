package core

import (
	"slices"
	"strings"
)

// Note is a change note: the surprises of a day or a gate, put to the owner at once. Once sent it is as sent; only its answer is added.
type Note struct {
	ID        string           `json:"number"` // N-001
	Surprises []string         `json:"surprises"`
	Paper     string           `json:"paper,omitempty"` // the issued paper
	State     string           `json:"state"`           // one of NoteStates
	Answered  []NoteAnswer     `json:"answered,omitempty"`
	Who       string           `json:"who,omitempty"`
	How       string           `json:"how,omitempty"`
	Why       string           `json:"why,omitempty"`   // withdrawn, expired
	Taken     []SurpriseOption `json:"taken,omitempty"` // the options chosen, as they stood
	Sent      Stamp            `json:"sent"`
	Closed    Stamp            `json:"closed,omitzero"`
	under     int              // how many agreements there were when it was answered
}

// NoteAnswer is the option chosen for one surprise: 1 is the first, 0 none, declined.
type NoteAnswer struct {
	Surprise string `json:"surprise"`
	Option   int    `json:"option"`
}

// The states of a change note. Gathering surprises are its draft.
const (
	NoteSent      = "sent"
	NoteApproved  = "approved"
	NoteDeclined  = "declined"
	NoteWithdrawn = "withdrawn"
	NoteExpired   = "expired"
)

// NoteStates are all of them.
var NoteStates = []string{NoteSent, NoteApproved, NoteDeclined, NoteWithdrawn, NoteExpired}

// Kind is "change note".
func (n *Note) Kind() string { return "change note" }

// Number is the note's.
func (n *Note) Number() string { return n.ID }

// Prefix is "N-".
func (n *Note) Prefix() string { return "N-" }

// SetNumber gives it a number.
func (n *Note) SetNumber(id string) { n.ID = id }

// Check refuses a note about nothing, or about what another note has taken up.
func (n *Note) Check(s *Story) error {
	if err := s.working("change note"); err != nil {
		return err
	}
	if s.Note(n.ID) != nil {
		return Errorf(Conflict, "write another", "the note %s is as sent", n.ID)
	}
	if len(n.Surprises) == 0 {
		return Errorf(Conflict, "write one down: fettle change "+s.Job.Number+" PART --found WORDS", "no surprise is waiting for a note")
	}
	for _, id := range n.Surprises {
		p := s.Surprise(id)
		if p == nil || p.Note != "" || p.Withdrawn != "" {
			return Errorf(Conflict, "see: fettle change "+s.Job.Number, "%s is not waiting for a note", id)
		}
	}
	return nil
}

func (n *Note) fold(s *Story, at Stamp) {
	m := *n
	m.Sent, m.State = at, NoteSent
	s.Notes = standing(s.Notes, m, func(n Note) string { return n.ID })
	for _, id := range n.Surprises {
		if p := s.Surprise(id); p != nil {
			p.Note = n.ID
		}
	}
}

// Answer closes a change note.
type Answer struct {
	Note    string       `json:"note"`
	State   string       `json:"state"` // approved, declined, withdrawn, expired
	Options []NoteAnswer `json:"options,omitempty"`
	Who     string       `json:"who,omitempty"`
	How     string       `json:"how,omitempty"`
	Why     string       `json:"why,omitempty"`
}

// Kind is "answer".
func (a *Answer) Kind() string { return "answer" }

// Check refuses a second answer, one by nobody who may, and one that leaves a surprise open.
func (a *Answer) Check(s *Story) error {
	n := s.Note(a.Note)
	switch {
	case n == nil:
		return Errorf(NotFound, "see: fettle change "+s.Job.Number, "%s has no change note %s", s.Job.Number, a.Note)
	case n.State != NoteSent:
		return Errorf(Conflict, "write another note", "%s is %s already", n.ID, n.State)
	case !slices.Contains(NoteStates[1:], a.State):
		return Errorf(Invalid, "use one of: "+strings.Join(NoteStates[1:], ", "), "%q is no answer", a.State)
	case a.State == NoteWithdrawn || a.State == NoteExpired:
		if blank(a.Why) {
			return Errorf(Invalid, "say why: --why WORDS", "no reason is given")
		}
		return nil
	case blank(a.How):
		return Errorf(Invalid, "say one: "+strings.Join(Ways, ", "), "how was it answered? It is not said")
	case !slices.Contains(Ways, a.How):
		return Errorf(Invalid, "use one of: "+strings.Join(Ways, ", "), "how was it answered? %q is no way", a.How)
	}
	for i, o := range a.Options {
		if !slices.Contains(n.Surprises, o.Surprise) || slices.ContainsFunc(a.Options[:i], func(q NoteAnswer) bool { return q.Surprise == o.Surprise }) {
			return Errorf(Invalid, n.ID+" asks about: "+strings.Join(n.Surprises, ", "), "%s is answered twice, or not asked about", o.Surprise)
		}
	}
	sum := int64(0)
	code := s.currency()
	for _, id := range n.Surprises {
		i := slices.IndexFunc(a.Options, func(o NoteAnswer) bool { return o.Surprise == id })
		p := s.Surprise(id)
		switch {
		case i < 0:
			return Errorf(Invalid, "answer every one, and where none is taken say so: --answer "+id+"=0", "%s is not answered", id)
		case p == nil || a.Options[i].Option < 0 || a.Options[i].Option > len(p.Options):
			return Errorf(Invalid, "see: fettle change "+s.Job.Number, "%s has no option %d", id, a.Options[i].Option)
		case a.Options[i].Option > 0:
			sum += Minor(p.Options[a.Options[i].Option-1].Sum)
		}
	}
	return s.mayAuthorise(a.Who, MinorMoney(max(sum, 0), code))
}

func (a *Answer) fold(s *Story, at Stamp) {
	n := s.Note(a.Note)
	if n == nil {
		return
	}
	n.State, n.Answered, n.Who, n.How, n.Why, n.Closed = a.State, a.Options, a.Who, a.How, a.Why, at
	n.under = len(s.Agreements)
	if a.State == NoteWithdrawn { // what it was about gathers again, for another note
		for _, id := range n.Surprises {
			if p := s.Surprise(id); p != nil {
				p.Note = ""
			}
		}
	}
	if a.State != NoteApproved {
		return
	}
	for _, o := range a.Options {
		if p := s.Surprise(o.Surprise); p != nil && o.Option > 0 && o.Option <= len(p.Options) {
			n.Taken = append(n.Taken, p.Options[o.Option-1])
		}
	}
}

// Note finds a change note by its number, or nil.
func (s *Story) Note(number string) *Note {
	if number == "" {
		return nil
	}
	return named(s.Notes, number, func(n Note) string { return n.ID })
}

// covers reports whether the note was approved with an option that adds the line.
func (n *Note) covers(line string) bool {
	return n.State == NoteApproved && slices.ContainsFunc(n.Taken, func(o SurpriseOption) bool { return slices.Contains(o.Lines, line) })
}

// Taken gives the option that was approved for a surprise. It is a Conflict while none is.
func (s *Story) Taken(number string) (SurpriseOption, error) {
	p := s.Surprise(number)
	if p == nil {
		return SurpriseOption{}, Errorf(NotFound, "see: fettle change "+s.Job.Number, "%s has no change %s", s.Job.Number, number)
	}
	n := s.Note(p.Note)
	switch {
	case n == nil:
		return SurpriseOption{}, Errorf(Conflict, "put it to the owner: fettle change "+s.Job.Number+" --note", "%s is on no change note yet", number)
	case n.State == NoteSent:
		return SurpriseOption{}, Errorf(Conflict, "write the answer down: fettle change "+s.Job.Number+" "+n.ID+" --answer ...", "%s is not answered yet", n.ID)
	}
	i := slices.IndexFunc(n.Answered, func(o NoteAnswer) bool { return o.Surprise == number })
	if n.State != NoteApproved || i < 0 || n.Answered[i].Option == 0 || p.Options[n.Answered[i].Option-1].Leaves {
		return SurpriseOption{}, Errorf(Conflict, "it needs a new change note", "%s was not approved (%s)", number, n.ID)
	}
	return p.Options[n.Answered[i].Option-1], nil
}
