package core

import (
	"slices"
	"strings"
)

// StepDone is what became of a step of the strip plan.
type StepDone struct {
	Step      string  `json:"step"`
	Unit      string  `json:"unit,omitempty"` // for a bench step of a unit
	Is        string  `json:"is"`             // one of StepWords
	Hours     float64 `json:"hours,omitempty"`
	Who       string  `json:"who,omitempty"`
	People    int     `json:"people,omitempty"`
	Why       string  `json:"why,omitempty"`
	Confirmed string  `json:"confirmed,omitempty"` // what had to be confirmed before it
	// Free says that the step needs no agreement: taking in, and checks before anything is touched.
	Free bool `json:"free,omitempty"`
	Stamp
}

// The words for what became of a step.
const (
	StepIsDone    = "done"
	StepIsUndone  = "undone"
	StepIsSkipped = "skipped"
)

// StepWords are all of them.
var StepWords = []string{StepIsDone, StepIsUndone, StepIsSkipped}

// Kind is "step".
func (d *StepDone) Kind() string { return "step" }

// Check refuses taking apart what nobody has agreed to have taken apart. What must come off before, and how many hands it takes, is the
// strip plan's to say: see NextSteps.
func (d *StepDone) Check(s *Story) error {
	if err := s.working("strip-down"); err != nil {
		return err
	}
	switch {
	case blank(d.Step):
		return Errorf(Invalid, "see: fettle strip "+s.Job.Number, "no step is named")
	case !slices.Contains(StepWords, d.Is):
		return Errorf(Invalid, "use one of: "+strings.Join(StepWords, ", "), "%q is not what becomes of a step", d.Is)
	case d.Is == StepIsSkipped && blank(d.Why):
		return Errorf(Invalid, "say why: --why WORDS", "a step is skipped without a reason")
	case d.Hours < 0:
		return Errorf(Invalid, "write hours like 1.5 or 1:30", "%s hours cannot be spent", FormatNumber(d.Hours))
	case d.Is != StepIsUndone && s.StepIs(d.Step, d.Unit, StepIsDone):
		return Errorf(Conflict, "take it back first: fettle strip "+s.Job.Number+" "+d.Step+" --undo WHY", "%s is done already", d.Step)
	case d.Is == StepIsUndone && !s.StepIs(d.Step, d.Unit, StepIsDone):
		return Errorf(Conflict, "see: fettle strip "+s.Job.Number, "%s was not done", d.Step)
	}
	if d.Free || d.Is != StepIsDone {
		return nil
	}
	if err := s.unaltered("taken apart"); err != nil || s.Agreed(GateBudget) != nil {
		return err
	}
	return s.needs(GateStrip, "taken apart")
}

func (d *StepDone) fold(s *Story, at Stamp) {
	e := *d
	e.Stamp = at
	s.Steps = append(s.Steps, e)
}

func (d *StepDone) leads(s *Story) string {
	if !d.Free && d.Is == StepIsDone && s.Job.State == StateStripAgreed {
		return StateStripping
	}
	return ""
}

// StepIs reports whether the last word on a step is the one asked for.
func (s *Story) StepIs(step, unit, word string) bool {
	for _, d := range slices.Backward(s.Steps) {
		if d.Step == step && d.Unit == unit {
			return d.Is == word
		}
	}
	return false
}

// Key is the step as a plan of several units of a kind knows it.
func (d StepDone) Key() string {
	if d.Unit == "" {
		return d.Step
	}
	return d.Step + "@" + d.Unit
}

// Off lists the steps done, in the order in which they were: what the job's plan may count as apart.
func (s *Story) Off() []string {
	var off []string
	for _, d := range s.Steps {
		if s.StepIs(d.Step, d.Unit, StepIsDone) {
			off = appendNew(off, d.Key())
		}
	}
	return off
}

// StripHours are the hours spent on steps that stand as done.
func (s *Story) StripHours() float64 {
	sum := 0.0
	for _, d := range s.Steps {
		if d.Is == StepIsDone && s.StepIs(d.Step, d.Unit, StepIsDone) {
			sum += d.Hours
		}
	}
	return sum
}
