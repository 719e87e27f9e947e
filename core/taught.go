package core

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
)

// Taught is what a job has shown of hours, hidden damage and money when it was handed over. It is kept with the handover, so that it stays as
// it is when a sheet, a strip plan or a price changes later. Every plan of another job reads it: what only a report needs is in the Reckoning.
type Taught struct {
	Hours    float64      `json:"hours"`              // written down on what can be compared
	Expected float64      `json:"expected"`           // hours, of the same work
	NoHours  string       `json:"no_hours,omitempty"` // why the hours teach no labour ratio
	Rows     []RowsTaught `json:"rows,omitempty"`     // the rows of the registers that were settled
	Silent   []string     `json:"silent,omitempty"`   // subsystems that could not be asked, so that their rows teach nothing
	First    *ScopeHeld   `json:"first,omitempty"`    // the first scope issued, and what the job came to
	Last     *ScopeHeld   `json:"last,omitempty"`     // the last
	NoMoney  string       `json:"no_money,omitempty"` // why the money teaches nothing
}

// Reckoning is what each piece of work of a job took against what was expected of it, as it was when the job was handed over. It is taken back with
// the handover.
type Reckoning struct {
	Work []WorkTaught `json:"work"`
	Stamp
}

// Kind is "reckoning".
func (r *Reckoning) Kind() string { return "reckoning" }

// Check refuses to reckon up a job that is not handed over.
func (r *Reckoning) Check(s *Story) error {
	if s.Job.State != StateHandedOver || s.Handover == nil {
		return Errorf(Conflict, "hand it over: fettle close "+s.Job.Number+" --signed NAME --old-parts returned", "%s is %s: its work is not reckoned up yet", s.Job.Number, s.Job.State)
	}
	return nil
}

func (r *Reckoning) fold(s *Story, at Stamp) {
	q := *r
	q.Stamp = at
	s.Reckoning = &q
}

// WorkTaught is one piece of work: an operation of a subsystem, or a step, whatever unit and position it was done on.
type WorkTaught struct {
	Work      string   `json:"work"` // gearbox:overhaul, strip:engine-out, refit:engine-out
	Name      string   `json:"name"`
	Subsystem string   `json:"subsystem,omitempty"` // "": coming apart and going together
	Skill     string   `json:"skill,omitempty"`
	Remedies  []string `json:"remedies,omitempty"` // those that called for it
	Lines     int      `json:"lines"`
	Likely    float64  `json:"likely"`   // hours
	Expected  float64  `json:"expected"` // hours, the three-point mean
	Hours     float64  `json:"hours"`    // as written down
}

// RowsTaught are the rows of the register that one unit settled, by their ids.
type RowsTaught struct {
	Subsystem string   `json:"subsystem"`
	Unit      string   `json:"unit"`
	Seen      []string `json:"seen"`
	Happened  []string `json:"happened,omitempty"` // of those seen
}

// ScopeHeld is a scope as issued and what the job came to of what it priced, before tax. What was spent on steps that were done before is left
// out, as it is in no sum of the scope; what the owner refused of it counts at its expected amount.
type ScopeHeld struct {
	Paper    string `json:"paper"`
	Revision int    `json:"revision"`
	Expected Money  `json:"expected"`
	P50      Money  `json:"p50"`
	P80      Money  `json:"p80"`
	P90      Money  `json:"p90"`
	Came     Money  `json:"came"`
}

// ScopeBudget is an issued scope with its budget, as the book keeps it.
type ScopeBudget struct {
	Number   string
	Revision int
	Budget   Budget
}

// What hours and money must come to before they teach anything (common practice, no source): half of what was sure to be needed, or they are not
// all written down; and hours no more than four times as many or as few as expected, or they are written down wrong.
const (
	taughtShare  = .5
	taughtFactor = 4.0
)

// Teach gives what a job has shown as it stands, for its handover. The request is as for its plan; scopes are those issued, oldest first. It
// never fails: what cannot be told says why.
func (p *Planner) Teach(ctx context.Context, req PlanRequest, s Story, scopes []ScopeBudget) (Taught, Reckoning) {
	sheets, problems := p.assess(ctx, req)
	var t Taught
	for _, us := range sheets {
		seen, happened := settledRows(us)
		if len(seen) > 0 {
			t.Rows = append(t.Rows, RowsTaught{us.Subsystem, us.Unit, seen, happened})
		}
		if us.Failed {
			t.Silent = appendNew(t.Silent, us.Subsystem)
		}
	}
	for _, x := range problems { // one that could not even describe itself has no sheet
		if x.Severity == SeverityError && strings.HasPrefix(x.Summary, "not assessed: ") {
			t.Silent = appendNew(t.Silent, x.Subsystem)
		}
	}
	steps := StripSteps(req, sheets, s)
	work, why := s.workTaught(steps)
	t.NoHours = why
	for _, w := range work {
		t.Hours, t.Expected = t.Hours+w.Hours, t.Expected+w.Expected
	}
	t.First, t.Last, t.NoMoney = s.moneyTaught(steps, scopes)
	return t, Reckoning{Work: work}
}

// settledRows names the rows of a unit's register that its parts have settled, and those that had happened: a part that the row speaks of was
// seen past its limit; or all of them were seen, and none is. Parts that are missing say nothing.
func settledRows(s UnitSheet) (seen, happened []string) {
	o := outlook{rows: s.Sheet.Hidden}
	past, read, open := make([]bool, len(o.rows)), make([]bool, len(o.rows)), make([]bool, len(o.rows))
	for _, c := range s.Assessment.Conditions {
		part := s.Sheet.Part(c.Target.Part)
		if part == nil || part.OneUse || c.Grade == Missing {
			continue
		}
		for _, st := range part.Outlook {
			i := o.rowOf(st, c.Target)
			switch {
			case i < 0 || !st.Grade.ClosesReuse(false):
			case len(c.States) != 1 || c.ReadingsTaken == 0:
				open[i] = true
			default:
				read[i] = true
				past[i] = past[i] || c.Grade == PastLimit || c.Grade == Failed
			}
		}
	}
	for i, h := range o.rows {
		if past[i] {
			happened = append(happened, h.ID)
		}
		if past[i] || read[i] && !open[i] {
			seen = append(seen, h.ID)
		}
	}
	return seen, happened
}

// expectation is a line or a step that hours can be held against.
type expectation struct {
	line   string
	work   WorkTaught
	agreed bool // it was to be done, whatever was found
	free   bool // somebody worked on it for nothing, where others are charged for
}

// workTaught holds the hours written down against what was expected of the same lines and steps, in the order of the agreed lines. Hours on
// nothing that was expected are left out. The second answer says why they teach no labour ratio, or is "".
func (s *Story) workTaught(steps []StripStep) ([]WorkTaught, string) {
	all := s.expectations(steps)
	charged := slices.ContainsFunc(s.Hours, func(w Worked) bool { return Minor(w.Rate) > 0 })
	for _, w := range s.Hours {
		line := expectedLine(w, steps)
		i := slices.IndexFunc(all, func(e expectation) bool { return e.line == line })
		if i < 0 {
			continue
		}
		all[i].work.Hours += w.Hours
		all[i].free = all[i].free || charged && Minor(w.Rate) == 0
	}
	var work []WorkTaught
	expected, compared, hours := 0.0, 0.0, 0.0
	for _, e := range all {
		if e.free {
			continue
		}
		if e.agreed {
			expected += e.work.Expected
		}
		if e.work.Hours > 0 {
			compared, hours = compared+e.work.Expected, hours+e.work.Hours
			work = addWork(work, e.work)
		}
	}
	h := func(v float64) string { return FormatNumber(math.Round(v*10) / 10) }
	switch {
	case s.Job.State == StateStopped:
		return work, "the job was stopped: what of its work was finished is not known"
	case len(all) == 0:
		return work, "nothing was agreed to that hours could be held against"
	case compared == 0:
		return work, "no hours are written on what was agreed to"
	case compared < taughtShare*expected:
		return work, fmt.Sprintf("hours are written on %s of the %s h that were expected: too little to go by", h(compared), h(expected))
	case hours > taughtFactor*compared || compared > taughtFactor*hours:
		return work, fmt.Sprintf("%s h where %s were expected: more than %s times apart, so something is written down wrong", h(hours), h(compared), FormatNumber(taughtFactor))
	}
	return work, ""
}

// expectations are the agreed lines that take hours, then steps done that are on none of them, then what was only held in reserve and what other
// scopes priced: the hours on those are compared where there are some, and missed where there are none.
func (s *Story) expectations(steps []StripStep) []expectation {
	var all []expectation
	add := func(line string, w WorkTaught, agreed bool) {
		if w.Expected > 0 && !slices.ContainsFunc(all, func(e expectation) bool { return e.line == line }) {
			w.Lines = 1
			all = append(all, expectation{line: line, work: w, agreed: agreed})
		}
	}
	for _, l := range s.AgreedOrder().Lines {
		if l.Kind != LineReserve {
			add(l.ID, l.taught(), true)
		}
	}
	for _, st := range steps {
		if st.Is == StepIsDone && s.StepIs(st.ID, st.Unit, StepIsDone) {
			add(string(LineStrip)+":"+st.Key, WorkTaught{Work: string(LineStrip) + ":" + withoutPlace(st.Key), Name: nameWithoutPlace("Strip: "+st.Name, st.Key), Skill: st.Skill,
				Likely: st.StripHours.Likely, Expected: st.StripHours.Mean()}, true)
		}
	}
	for _, p := range slices.Backward(s.Papers) {
		for _, l := range p.Lines {
			if l.Kind == LineReserve && l.Subsystem != "" {
				l.ID = string(LineWork) + ":" + l.key()
				l.Name = l.Bare()
			}
			if l.Kind != LineReserve || l.Subsystem != "" {
				add(l.ID, l.taught(), false)
			}
		}
	}
	return all
}

// taught is a line as a piece of work that no hours are written on yet.
func (l Line) taught() WorkTaught {
	w := WorkTaught{Name: nameWithoutPlace(l.Name, l.key()), Subsystem: l.Subsystem, Skill: l.Skill, Remedies: slices.Clone(l.Remedies), Likely: l.Hours.Likely, Expected: l.Hours.Mean()}
	switch l.Kind {
	case LineStrip, LineRefit:
		w.Work = string(l.Kind) + ":" + withoutPlace(l.key())
	default:
		_, operation, _ := strings.Cut(strings.TrimPrefix(l.key(), l.Subsystem), ":")
		w.Work = l.Subsystem + ":" + withoutPlace(operation)
	}
	return w
}

// withoutPlace takes the unit and the position off a key.
func withoutPlace(key string) string {
	key, _, _ = strings.Cut(key, "@")
	key, _, _ = strings.Cut(key, "/")
	return key
}

// nameWithoutPlace takes off a name the position that its key ends with: "Hub and drum off, LF", "Replace one selector fork (reverse)".
func nameWithoutPlace(name, key string) string {
	_, place, _ := strings.Cut(key, "/")
	if place, _, _ = strings.Cut(place, "@"); place == "" {
		return name
	}
	for _, form := range []string{", " + place, " (" + place + ")"} {
		if short, ok := strings.CutSuffix(name, form); ok {
			return short
		}
	}
	return name
}

// expectedLine is the line that hours belong to: their own, or that of the step they are called by; "" for neither.
func expectedLine(w Worked, steps []StripStep) string {
	if w.Line != "" {
		return w.Line
	}
	if st := stepWorked(w, steps); st != nil {
		return string(LineStrip) + ":" + st.Key
	}
	return ""
}

// stepWorked finds the step that hours are called by, or nil.
func stepWorked(w Worked, steps []StripStep) *StripStep {
	i := slices.IndexFunc(steps, func(st StripStep) bool {
		return w.Line == "" && (w.Task == st.Key || w.Task == st.Name+" ("+st.Unit+")" || w.Task == st.Name && st.Key == st.ID)
	})
	if i < 0 {
		return nil
	}
	return &steps[i]
}

// addWork adds a line to the piece of work that it is of.
func addWork(work []WorkTaught, w WorkTaught) []WorkTaught {
	i := slices.IndexFunc(work, func(x WorkTaught) bool { return x.Work == w.Work })
	if i < 0 {
		return append(work, w)
	}
	x := &work[i]
	x.Lines, x.Likely, x.Expected, x.Hours = x.Lines+w.Lines, x.Likely+w.Likely, x.Expected+w.Expected, x.Hours+w.Hours
	for _, r := range w.Remedies {
		x.Remedies = appendNew(x.Remedies, r)
	}
	return work
}

// Ratio is the job's labour ratio, actual over expected hours; false if its hours teach none.
func (t Taught) Ratio() (float64, bool) {
	if t.NoHours != "" || t.Hours <= 0 || t.Expected <= 0 {
		return 0, false
	}
	return t.Hours / t.Expected, true
}

// moneyTaught holds what the job came to against its first and its last scope; or says why it cannot.
func (s *Story) moneyTaught(steps []StripStep, scopes []ScopeBudget) (first, last *ScopeHeld, why string) {
	switch {
	case s.Job.State == StateStopped:
		return nil, nil, "the job was stopped: it was not finished"
	case s.Agreed(GateBudget) == nil || len(scopes) == 0:
		return nil, nil, "no scope was agreed to"
	}
	a, z := s.held(steps, scopes[0]), s.held(steps, scopes[len(scopes)-1])
	if sure := s.sure(scopes[len(scopes)-1]); Minor(z.Came) <= 0 || float64(Minor(z.Came)) < taughtShare*float64(sure) {
		return nil, nil, fmt.Sprintf("the book shows %s spent where %s were sure to be: too little to be all of it", z.Came, MinorMoney(sure, z.Came.CurrencyCode()))
	}
	return &a, &z, ""
}

// sure is what the lines of a scope come to that were to be done whatever is found, before tax.
func (s *Story) sure(b ScopeBudget) int64 {
	sum := int64(0)
	if p := s.Issued(b.Number, b.Revision); p != nil {
		for _, l := range p.Lines {
			if l.Kind != LineReserve {
				sum += Minor(l.Amount)
			}
		}
	}
	return sum
}

// held holds what the job came to against one of its scopes.
func (s *Story) held(steps []StripStep, b ScopeBudget) ScopeHeld {
	h := ScopeHeld{Paper: b.Number, Revision: b.Revision, Expected: b.Budget.Expected, P50: b.Budget.P50, P80: b.Budget.P80, P90: b.Budget.P90}
	came := Minor(s.Account().Done)
	p := s.Issued(b.Number, b.Revision)
	if p == nil {
		p = &Issued{}
	}
	priced := func(key string) bool {
		return slices.ContainsFunc(p.Lines, func(l Line) bool { return l.Subsystem == "" && l.key() == key && l.Kind != LineRefit })
	}
	for _, w := range s.Hours {
		if st := stepWorked(w, steps); st != nil && !priced(st.Key) {
			came -= w.charge()
		}
	}
	if a := s.Agreed(GateBudget); a != nil {
		for _, l := range p.Lines {
			if slices.ContainsFunc(a.Refused, l.Concerns) && !s.noted(l.ID) && !s.noted(string(LineWork)+":"+l.key()) {
				came += Minor(l.Amount)
			}
		}
	}
	h.Came = MinorMoney(came, b.Budget.Expected.CurrencyCode())
	return h
}
