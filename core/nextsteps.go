package core

import (
	"fmt"
	"slices"
	"strings"
)

// StripStep is a step of a job's strip-down as it stands.
type StripStep struct {
	PlannedStep
	Key     string   `json:"key"`                     // as the job's plan and papers name it
	Is      string   `json:"is,omitempty"`            // done, skipped, or StepCameApart; "" not yet
	Planned bool     `json:"planned"`                 // the job's plan opens it
	Waits   []string `json:"waits,omitempty"`         // what must come first: a step's key, or "a or b"
	Spent   float64  `json:"spent,omitempty"`         // hours written down for it
	Unread  []Unread `json:"unread,omitempty"`        // readings that it destroys and that nobody has taken
	Weight  string   `json:"weight_source,omitempty"` // of a load: where its weight is from, or WeightUnknown
	Free    bool     `json:"free,omitempty"`          // needs nobody's yes
}

// StepCameApart is what a step is that was done before the job came.
const StepCameApart = "came apart"

// WeightUnknown stands in the place of every figure for slings, stands and castors where a load has no weight.
const WeightUnknown = "weight unknown: weigh it"

// StripSteps gives every step that exists in a job, each after what it needs, as its story has left it. The request's job is as its story
// laid it (see Underway), its findings are live; sheets are those whose bench steps and readings are to be known.
func StripSteps(req PlanRequest, sheets []UnitSheet, story Story) []StripStep {
	b := &bench{req: req, sheets: sheets, access: newAccess(req, sheets)}
	settled := make([]string, len(b.access.steps))
	for n, s := range b.access.steps {
		switch {
		case s.absent, story.StepIs(s.step.ID, s.unit, StepIsDone):
			settled[n] = StepIsDone
		case story.StepIs(s.step.ID, s.unit, StepIsSkipped):
			settled[n] = StepIsSkipped
		case s.apart:
			settled[n] = StepCameApart
		}
	}
	var out []StripStep
	for _, n := range b.inOrder() {
		s := b.access.steps[n]
		if s.absent {
			continue
		}
		t := StripStep{PlannedStep: PlannedStep{Step: s.step, Unit: s.unit, Done: s.apart}, Key: s.key, Is: settled[n], Waits: b.waits(s, settled), Free: slices.Contains(req.Strip.BeforeAgreement, s.key)}
		if t.Is == "" {
			t.Unread = aboutToBeLost(s.step, s.unit, sheets, req.Findings)
			t.Lost = ReadingNames(t.Unread)
		}
		if s.step.Load != "" {
			t.Weight = WeightUnknown
			if t.Lift = b.lift(s.step.Load); t.Lift != nil {
				t.Weight = t.Lift.Source
			}
		}
		for _, d := range story.Steps {
			if d.Step == s.step.ID && d.Unit == s.unit {
				t.Spent += d.Hours
			}
		}
		out = append(out, t)
	}
	return out
}

// waits names what must be done or skipped before a step: each of all-of, and one of each any-of. What a skipped step waited for still comes first.
func (b *bench) waits(s accessStep, settled []string) []string {
	var waits []string
	for _, m := range s.allOf {
		switch settled[m] {
		case "":
			waits = appendNew(waits, b.access.steps[m].key)
		case StepIsSkipped:
			for _, w := range b.waits(b.access.steps[m], settled) {
				waits = appendNew(waits, w)
			}
		}
	}
	for _, clause := range s.anyOf {
		var open []string
		for _, m := range clause {
			open = append(open, b.access.steps[m].key)
		}
		if !slices.ContainsFunc(clause, func(m int) bool { return settled[m] != "" }) {
			waits = appendNew(waits, strings.Join(open, " or "))
		}
	}
	return waits
}

// MarkPlanned notes which steps the job's plan opens, and how many parts need each.
func MarkPlanned(steps []StripStep, planned []PlannedStep) {
	for i := range steps {
		t := &steps[i]
		for _, p := range planned {
			if p.ID == t.ID && p.Unit == t.Unit {
				t.Planned, t.ServedBy = true, p.ServedBy
			}
		}
	}
}

// NextSteps gives those of the planned steps that nothing has to come before any more.
func NextSteps(steps []StripStep) []StripStep {
	var next []StripStep
	for _, t := range steps {
		if t.Planned && t.Is == "" && len(t.Waits) == 0 {
			next = append(next, t)
		}
	}
	return next
}

// Stripdown is how far a job's strip-down is by its plan.
type Stripdown struct {
	People  int         // hands present; 0: not said
	Next    []StripStep // nothing has to come before them any more
	Hands   []StripStep // likewise, but they need more hands than are present
	Waiting []StripStep // of the plan's, something has to come before
	Settled []StripStep // done, skipped, or came apart
	Sum     StripSum
	Needs   string // before anything comes off
}

// StripdownOf sorts the steps of a job, marked with what its plan opens.
func StripdownOf(steps []StripStep, people int, needs string) Stripdown {
	d := Stripdown{People: people, Sum: SumSteps(steps), Needs: needs}
	for _, t := range steps {
		switch {
		case t.Is == StepIsDone || t.Is == StepIsSkipped || t.Is != "" && t.Planned:
			d.Settled = append(d.Settled, t)
		case t.Planned && len(t.Waits) > 0:
			d.Waiting = append(d.Waiting, t)
		}
	}
	for _, t := range NextSteps(steps) {
		if people > 0 && t.People > people {
			d.Hands = append(d.Hands, t)
		} else {
			d.Next = append(d.Next, t)
		}
	}
	return d
}

// StillDone names the steps that stand as done though something that comes before them is not.
func StillDone(steps []StripStep) []string {
	var still []string
	for _, t := range steps {
		if t.Is == StepIsDone && len(t.Waits) > 0 {
			still = append(still, t.Key)
		}
	}
	return still
}

// FindStep finds a step by its key, by its id for the first unit that has it, with its unit after an @, or by its name.
func FindStep(steps []StripStep, word string) (*StripStep, error) {
	var keys []string
	for i := range steps {
		t := &steps[i]
		if strings.EqualFold(t.Key, word) || strings.EqualFold(t.ID+"@"+t.Unit, word) || strings.EqualFold(t.Name, word) {
			return t, nil
		}
		keys = append(keys, t.Key)
	}
	for i := range steps { // hub-off without its wheel
		if id, position, ok := strings.Cut(steps[i].ID, "/"); ok && strings.EqualFold(id, word) {
			return nil, Errorf(Invalid, "say where, like "+id+"/"+position, "which %s?", id)
		}
	}
	next := "see what can be done next: fettle strip JOB"
	if near := Nearest(word, keys); near != "" {
		next = fmt.Sprintf("did you mean %q?", near)
	}
	return nil, Errorf(NotFound, next, "the strip plan of this job has no step %q", word)
}

// Doing is what is said when a step is done.
type Doing struct {
	People    int  // hands; 0: not said
	Confirmed bool // what had to be made sure of was
	Lost      bool // readings that are not taken may be lost
}

// Faults says all that keeps a step from being done: what must come first, hands, support not confirmed, readings not taken. Support comes
// before the last fastener, and as-found readings before the spanner (common practice, no source). Errors are of code Conflict.
func (t StripStep) Faults(job string, d Doing) []error {
	var faults []error
	add := func(next, format string, args ...any) {
		faults = append(faults, Errorf(Conflict, next, format, args...))
	}
	switch t.Is {
	case StepIsDone:
		add("take it back with: fettle strip "+job+" "+t.Key+" --undo WHY", "%s is done already", t.Key)
		return faults
	case StepCameApart:
		add("see: fettle job show "+job, "%s was done before the job came", t.Key)
		return faults
	}
	for _, w := range t.Waits {
		first, _, _ := strings.Cut(w, " or ")
		add("do it, or skip it with a reason: fettle strip "+job+" "+first+" --skip WHY", "%s comes after %s", t.Key, w)
	}
	if d.People > 0 && t.People > d.People {
		add(fmt.Sprintf("say that they are there: --people %d", t.People), "%s takes %d people, and there are %d", t.Key, t.People, d.People)
	}
	if t.ConfirmHelp != "" && !d.Confirmed {
		add("look, then say so: --confirm", "%s: not confirmed yet: %s", t.Key, t.ConfirmHelp)
	}
	if len(t.Unread) > 0 && !d.Lost {
		add("take them first: fettle record "+job+" ..., or write them off as lost: --lost", "%s destroys readings that nobody has taken: %s", t.Key, strings.Join(t.Lost, "; "))
	}
	return faults
}

// StripSum is how far a strip-down is, over the steps of the plan.
type StripSum struct {
	Done       int     `json:"done"` // skipped ones and those that came apart are counted apart
	Skipped    int     `json:"skipped"`
	CameApart  int     `json:"came_apart"`
	All        int     `json:"all"`
	Spent      float64 `json:"spent"`       // hours, on steps done
	LikelyDone float64 `json:"likely_done"` // the likely hours of the same steps
	LikelyLeft float64 `json:"likely_left"` // of those to come
}

// SumSteps sums the planned steps up, and those done beside the plan.
func SumSteps(steps []StripStep) StripSum {
	var sum StripSum
	for _, t := range steps {
		if !t.Planned && t.Is != StepIsDone {
			continue
		}
		sum.All++
		switch t.Is {
		case StepIsDone:
			sum.Done++
			sum.Spent += t.Spent
			sum.LikelyDone += t.StripHours.Likely
		case StepIsSkipped:
			sum.Skipped++
		case StepCameApart:
			sum.CameApart++
		default:
			sum.LikelyLeft += t.StripHours.Likely
		}
	}
	return sum
}
