package core

import (
	"encoding/json"
	"maps"
	"slices"
	"sync"
	"time"
)

// Story is a job with all that happened to it beside its findings, as it stands: folded from the acts in the book, in order of
// arrival. Lists keep that order. Folding never fails and never drops anything; what may not happen is refused before it is written.
type Story struct {
	Job        Job         `json:"job"`
	Moves      []Moved     `json:"moves"` // every state it was in, after the one it was opened in
	Arrival    *Arrival    `json:"arrival"`
	Agreements []Agreement `json:"agreements"`
	Tags       []Tag       `json:"tags"` // each as it stands
	Steps      []StepDone  `json:"steps"`
	Hours      []Worked    `json:"hours"`
	Timers     []Timer     `json:"timers"`    // those that run
	Outwork    []Outwork   `json:"outwork"`   // each as it stands
	Purchases  []Purchase  `json:"purchases"` // each as it stands
	Surprises  []Surprise  `json:"surprises"` // each as it stands
	Notes      []Note      `json:"notes"`     // change notes, each as it stands
	Fits       []Fit       `json:"fits"`
	Tests      []RoadTest  `json:"tests"`
	Snags      []Snag      `json:"snags"` // each as it stands
	Handover   *Handover   `json:"handover"`
	Reckoning  *Reckoning  `json:"reckoning,omitempty"` // of its hours, at the handover
	Payments   []Payment   `json:"payments"`

	// Papers are the job's issued papers with the lines they priced; the book's to give.
	Papers []Issued `json:"papers"`
	// Parties are those the shop knows; the book's to give.
	Parties []Party `json:"-"`
}

// Stamp is who did an act, and when (UTC).
type Stamp struct {
	By string    `json:"by"`
	At time.Time `json:"at"`
}

// Act is one thing done to a job, as the book keeps it: an entry of its kind, with the act as its body. Acts are pointers.
type Act interface {
	// Kind is the word the entry is kept under.
	Kind() string
	// Check refuses, as Invalid, what is not complete, and as Conflict what may not happen to the job as it stands. It never changes
	// the story and knows no time of its own, so that what was once accepted in an order is accepted again in that order.
	Check(s *Story) error
	// fold lays the act over the story.
	fold(s *Story, at Stamp)
}

// leading is an Act that may take the job to another state; "" leaves it where it is.
type leading interface{ leads(s *Story) string }

// Numbering is an Act that has a number unique in the shop, like T-014. The book gives the next one where it is blank. An act on what has its
// number already does not claim it.
type Numbering interface {
	Number() string
	// Prefix of the numbers the book gives: "T-" for T-001.
	Prefix() string
	SetNumber(string)
}

// acts makes an empty act of each kind. The kinds are those of the book: never rename one.
var acts = sync.OnceValue(func() map[string]func() Act {
	return map[string]func() Act{
		"move": func() Act { return &Move{} }, "arrival": func() Act { return &Arrival{} }, "agreement": func() Act { return &Agreement{} },
		"tag": func() Act { return &Tag{} }, "step": func() Act { return &StepDone{} }, "hours": func() Act { return &Worked{} }, "timer": func() Act { return &Timer{} },
		"outwork": func() Act { return &Outwork{} }, "received": func() Act { return &Received{} }, "purchase": func() Act { return &Purchase{} },
		"delivery": func() Act { return &Delivery{} }, "surprise": func() Act { return &Surprise{} }, "change note": func() Act { return &Note{} },
		"answer": func() Act { return &Answer{} }, "fit": func() Act { return &Fit{} }, "road test": func() Act { return &RoadTest{} },
		"snag": func() Act { return &Snag{} }, "handover": func() Act { return &Handover{} }, "payment": func() Act { return &Payment{} },
		"reckoning": func() Act { return &Reckoning{} },
	}
})

// IsAct reports whether entries of a kind are acts.
func IsAct(kind string) bool { return acts()[kind] != nil }

// ActKinds lists the kinds of act, sorted.
func ActKinds() []string { return slices.Sorted(maps.Keys(acts())) }

// DecodeAct reads an act from the body of its entry.
func DecodeAct(kind string, body []byte) (Act, error) {
	empty := acts()[kind]
	if empty == nil {
		return nil, Errorf(Newer, "use the newer program", "the book has an entry of a kind that is not known here: %q", kind)
	}
	a := empty()
	return a, json.Unmarshal(body, a)
}

// Fold lays an act over the story without checking it.
func (s *Story) Fold(a Act, at Stamp) { a.fold(s, at) }

// Do checks an act and lays it over the story. It gives the move that follows from it, laid over already, or nil.
func (s *Story) Do(a Act, at Stamp) (*Move, error) {
	if err := a.Check(s); err != nil {
		return nil, err
	}
	to := ""
	if l, ok := a.(leading); ok {
		to = l.leads(s)
	}
	a.fold(s, at)
	if to == "" || to == s.Job.State {
		return nil, nil
	}
	m := &Move{To: to, Why: a.Kind()}
	if err := m.Check(s); err != nil {
		return nil, err
	}
	m.fold(s, at)
	return m, nil
}

// standing puts v in the place of the one with its number, or last.
func standing[T any](list []T, v T, number func(T) string) []T {
	if i := slices.IndexFunc(list, func(x T) bool { return number(x) == number(v) }); i >= 0 {
		list[i] = v
		return list
	}
	return append(list, v)
}

// named finds an element by its number, or nil.
func named[T any](list []T, want string, number func(T) string) *T {
	for i := range list {
		if number(list[i]) == want {
			return &list[i]
		}
	}
	return nil
}
