package core

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// Arrival is the taking in: what came, in what state, and who signed for it. What is said later is laid over what was said before.
type Arrival struct {
	Mileage string   `json:"mileage,omitempty"` // as shown, with its unit
	Keys    int      `json:"keys"`
	Boxes   int      `json:"boxes"`           // boxes of parts, counted
	Loose   []string `json:"loose,omitempty"` // what lies loose in it
	Fluids  string   `json:"fluids,omitempty"`
	Runs    string   `json:"runs,omitempty"` // runs, does not run, not tried
	Papers  string   `json:"papers,omitempty"`
	Signed  string   `json:"signed,omitempty"` // who signed for the owner
	Note    string   `json:"note,omitempty"`
	// Counted names what was counted, of keys and boxes: none at all is a count too.
	Counted []string `json:"counted,omitempty"`
	// Answers are to questions of the shop's own.
	Answers []ArrivalAnswer `json:"answers,omitempty"`
	Stamp
}

// ArrivalAnswer is the answer to a question of the shop's own, by its key.
type ArrivalAnswer struct {
	Key   string `json:"key"`
	Words string `json:"words"`
}

// RunsWords are what may be said of a vehicle that came.
var RunsWords = []string{"runs", "does not run", "not tried"}

// Kind is "arrival".
func (a *Arrival) Kind() string { return "arrival" }

// Check refuses what cannot be counted or said.
func (a *Arrival) Check(s *Story) error {
	if err := s.working("arrival"); err != nil {
		return err
	}
	switch {
	case a.Keys < 0 || a.Boxes < 0:
		return Errorf(Invalid, "count them", "there cannot be fewer than none")
	case a.Runs != "" && !slices.Contains(RunsWords, a.Runs):
		return Errorf(Invalid, "say one of: runs, does not run, not tried", "%q says nothing about its running", a.Runs)
	}
	return nil
}

func (a *Arrival) fold(s *Story, at Stamp) {
	b := *a
	b.Stamp = at
	if s.Arrival != nil { // it came when it came, whatever is added later
		b.Stamp = s.Arrival.Stamp
	}
	s.Arrival = &b
}

func (a *Arrival) leads(s *Story) string {
	if s.Job.State == StateEnquiry {
		return StateArrived
	}
	return ""
}

// The keys of what an arrival itself has room for. Any other key is a question of the shop's own.
const (
	AskMileage = "mileage"
	AskKeys    = "keys"
	AskBoxes   = "boxes"
	AskLoose   = "loose"
	AskFluids  = "fluids"
	AskRuns    = "runs"
	AskPapers  = "papers"
	AskSigned  = "signed"
)

// ArrivalKeys are all of them.
var ArrivalKeys = []string{AskMileage, AskKeys, AskBoxes, AskLoose, AskFluids, AskRuns, AskPapers, AskSigned}

// Says gives the answer to a question, in words; "" if there is none yet.
func (a *Arrival) Says(key string) string {
	if a == nil {
		return ""
	}
	count := func(n int) string {
		if n == 0 && !slices.Contains(a.Counted, key) {
			return ""
		}
		return strconv.Itoa(n)
	}
	switch key {
	case AskMileage:
		return a.Mileage
	case AskKeys:
		return count(a.Keys)
	case AskBoxes:
		return count(a.Boxes)
	case AskLoose:
		return strings.Join(a.Loose, "; ")
	case AskFluids:
		return a.Fluids
	case AskRuns:
		return a.Runs
	case AskPapers:
		return a.Papers
	case AskSigned:
		return a.Signed
	}
	for _, x := range a.Answers {
		if x.Key == key {
			return x.Words
		}
	}
	return ""
}

// What a brief may say of how a vehicle or unit has lived; each is a switch of what is likely to be found.
var (
	StoredWords = []string{"dry", "damp", "outdoors", "water"}
	RanWords    = []string{"within 2 years", "longer", "never seen"}
	WorkedWords = []string{"hard", "light"}
)

// CheckHistory refuses words that say nothing of how it has lived; blank is not known.
func (b Brief) CheckHistory() error {
	for _, h := range []struct {
		what, said string
		words      []string
	}{{"it was stored", b.Stored, StoredWords}, {"it last ran", b.Ran, RanWords}, {"it was worked", b.Worked, WorkedWords}} {
		if h.said != "" && !slices.Contains(h.words, h.said) {
			return Errorf(Invalid, "say one of: "+strings.Join(h.words, ", "), "%q does not say how %s", h.said, h.what)
		}
	}
	return nil
}

// HistoryUnknown names the switches of history that are not known.
func (b Brief) HistoryUnknown() []string {
	unknown := []string{}
	for _, h := range []struct {
		said, flag, ask string
		words           []string
	}{{b.Stored, "stored", "how it stood", StoredWords}, {b.Ran, "ran", "when it last ran", RanWords}, {b.Worked, "worked", "how it worked", WorkedWords}} {
		if h.said == "" {
			unknown = append(unknown, fmt.Sprintf("%s: --%s %s", h.ask, h.flag, strings.Join(h.words, "|")))
		}
	}
	return unknown
}
