package core

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"
)

// Worked is time spent by one person on one task.
type Worked struct {
	Who       string  `json:"who"`
	Task      string  `json:"task"`           // a line of the order, a step, or words
	Line      string  `json:"line,omitempty"` // the line's id, if it is one
	Subsystem string  `json:"subsystem,omitempty"`
	Hours     float64 `json:"hours"` // below zero takes back what was written too much
	Skill     string  `json:"skill,omitempty"`
	Rate      Money   `json:"rate,omitzero"` // an hour's charge; zero for the owner's own work and volunteers
	Note      string  `json:"note,omitempty"`
	// Since is when the timer was started that these hours end; zero: they were typed.
	Since time.Time `json:"since,omitzero"`
	Stamp
}

// Kind is "hours".
func (w *Worked) Kind() string { return "hours" }

// Check refuses hours of nobody, on nothing, and the end of a timer that does not run.
func (w *Worked) Check(s *Story) error {
	if s.Job.State == StateHandedOver {
		return s.working("hours")
	}
	switch {
	case blank(w.Who):
		return Errorf(Invalid, "name who worked: --who NAME", "the hours are nobody's")
	case blank(w.Task):
		return Errorf(Invalid, "say on what: a step, a part, or words", "the hours were spent on nothing")
	case math.IsNaN(w.Hours) || w.Hours == 0 || w.Hours > 24 || w.Hours < -24:
		return Errorf(Invalid, "write hours like 1.5 or 1:30, a day at a time", "%s hours cannot be written down at once", FormatNumber(w.Hours))
	case Minor(w.Rate) < 0:
		return Errorf(Invalid, "a volunteer's hour is charged at 0", "an hour cannot cost less than nothing")
	case !w.Since.IsZero() && s.timer(w.Who, w.Since) < 0:
		return Errorf(Conflict, "see: fettle hours "+s.Job.Number, "no timer of %s runs since then", w.Who)
	}
	return nil
}

func (w *Worked) fold(s *Story, at Stamp) {
	v := *w
	v.Stamp = at
	s.Hours = append(s.Hours, v)
	if i := s.timer(w.Who, w.Since); i >= 0 {
		s.Timers = slices.Delete(slices.Clone(s.Timers), i, i+1)
	}
}

// charge is what the hours come to, in minor units before tax.
func (w Worked) charge() int64 { return round(float64(Minor(w.Rate)) * w.Hours) }

func (w *Worked) leads(s *Story) string {
	if w.Line == "" {
		return ""
	}
	return s.intoWork()
}

// Timer is the start of one person's work on one task. It runs, over any restart, until hours are written for it or it is dropped.
type Timer struct {
	Who       string `json:"who"`
	Task      string `json:"task"`
	Line      string `json:"line,omitempty"`
	Subsystem string `json:"subsystem,omitempty"`
	Skill     string `json:"skill,omitempty"`
	Rate      Money  `json:"rate,omitzero"`
	Note      string `json:"note,omitempty"`
	Dropped   bool   `json:"dropped,omitempty"` // it was started in error: nothing is written for it
	Stamp            // of its start
}

// Kind is "timer".
func (t *Timer) Kind() string { return "timer" }

// Check refuses a second timer of one person in a job.
func (t *Timer) Check(s *Story) error {
	running := s.Running(t.Who)
	switch {
	case s.Job.State == StateHandedOver:
		return s.working("hours")
	case blank(t.Who):
		return Errorf(Invalid, "name who works: --who NAME", "the timer is nobody's")
	case t.Dropped && running == nil:
		return Errorf(Conflict, "see: fettle hours "+s.Job.Number, "no timer of %s runs", t.Who)
	case t.Dropped:
		return nil
	case blank(t.Task):
		return Errorf(Invalid, "say on what: a step, a part, or words", "the timer is for nothing")
	case running != nil:
		return Errorf(Conflict, fmt.Sprintf("end it first: fettle hours %s --end --who %q", s.Job.Number, t.Who), "a timer of %s runs already, on %s", t.Who, running.Task)
	}
	return nil
}

func (t *Timer) fold(s *Story, at Stamp) {
	if t.Dropped {
		s.Timers = slices.DeleteFunc(slices.Clone(s.Timers), func(u Timer) bool { return strings.EqualFold(u.Who, t.Who) })
		return
	}
	u := *t
	u.Stamp = at
	s.Timers = append(s.Timers, u)
}

// Running gives the timer of a person that runs, or nil.
func (s *Story) Running(who string) *Timer {
	for i := range s.Timers {
		if strings.EqualFold(s.Timers[i].Who, who) {
			return &s.Timers[i]
		}
	}
	return nil
}

func (s *Story) timer(who string, since time.Time) int {
	return slices.IndexFunc(s.Timers, func(t Timer) bool { return strings.EqualFold(t.Who, who) && t.At.Equal(since) })
}

// Ended gives the hours of a timer as they are at a time, to a hundredth. It is Invalid under half a hundredth, and over a day: nobody
// works so long, it was forgotten.
func (t Timer) Ended(now time.Time) (Worked, error) {
	w := Worked{Who: t.Who, Task: t.Task, Line: t.Line, Subsystem: t.Subsystem, Skill: t.Skill, Rate: t.Rate, Note: t.Note, Since: t.At}
	hours := now.Sub(t.At).Hours()
	w.Hours = math.Round(hours*100) / 100
	switch {
	case w.Hours <= 0:
		return w, Errorf(Invalid, "say how long it was, or drop it: --drop", "the timer of %s has run for less than a minute", t.Who)
	case hours > 24:
		return w, Errorf(Invalid, "say how long it was, like 1.5, beside --end", "the timer of %s has run for %s hours: it was forgotten", t.Who, FormatNumber(math.Round(hours)))
	}
	return w, nil
}

// ParseHours reads hours as decimals or as hours and minutes: 1.5, .75, 1:30. Below zero takes back. Errors are of code Invalid.
func ParseHours(text string) (float64, error) {
	s, sign := strings.TrimSpace(text), 1.0
	if rest, ok := strings.CutPrefix(s, "-"); ok {
		s, sign = rest, -1
	}
	if s == "" {
		return 0, Errorf(Invalid, "write them like 1.5 or 1:30", "no hours are written")
	}
	bad := Errorf(Invalid, "write them like 1.5 or 1:30", "%q are no hours", text)
	whole, minutes, clock := strings.Cut(s, ":")
	if strings.ContainsAny(s, "+-eExXpP_") {
		return 0, bad
	}
	h, err := strconv.ParseFloat(whole, 64)
	if err != nil || math.IsInf(h, 0) || math.IsNaN(h) {
		return 0, bad
	}
	if clock {
		m, err := strconv.Atoi(minutes)
		if err != nil || len(minutes) != 2 || m > 59 || h != math.Trunc(h) {
			return 0, bad
		}
		h += float64(m) / 60
	}
	return sign * h, nil
}

// HourRate is what an hour of somebody is charged at: what the shop keeps of that party; else what was agreed for their work on the
// subsystem; else the shop's rate of the skill. Nothing is assumed: without any of them it is Invalid, and asks.
func (s *Story) HourRate(who, subsystem, skill string, rates []Rate) (Money, error) {
	for _, p := range append(slices.Clone(s.Parties), s.Job.Owner) {
		if strings.EqualFold(p.Name, who) && p.HourRate != nil {
			return *p.HourRate, nil
		}
	}
	for _, l := range s.Job.Labour {
		if l.Subsystem == subsystem && strings.EqualFold(l.Who, who) {
			return l.Hour, nil
		}
	}
	for _, r := range rates {
		if r.Skill == skill {
			return r.Hour, nil
		}
	}
	return Money{}, Errorf(Invalid, fmt.Sprintf("say at the shop what an hour of a %s costs (rates in fettle.yaml), or what this one charges: fettle party set %q --hour AMOUNT; or this time alone: --rate 0 for nothing", skill, who),
		"what is an hour of %s charged at? No rate is known", who)
}

// TaskHours are the hours spent on one task, by whom, against what was expected.
type TaskHours struct {
	Task     string        `json:"task"`
	Line     string        `json:"line,omitempty"`
	Hours    float64       `json:"hours"`
	People   []PersonHours `json:"people"` // in the order they began
	Labour   Money         `json:"labour"` // before tax
	Expected *Range3       `json:"expected,omitempty"`
}

// PersonHours are the hours of one person.
type PersonHours struct {
	Who   string  `json:"who"`
	Hours float64 `json:"hours"`
}

// TaskHours sums the hours up by task, in the order the tasks were begun. expected gives what a task was to take, or nil.
func (s *Story) TaskHours(expected func(task, line string) *Range3) []TaskHours {
	var out []TaskHours
	var labour []int64
	for _, w := range s.Hours {
		i := slices.IndexFunc(out, func(t TaskHours) bool { return t.Task == w.Task && t.Line == w.Line })
		if i < 0 {
			i = len(out)
			out, labour = append(out, TaskHours{Task: w.Task, Line: w.Line, Expected: expected(w.Task, w.Line)}), append(labour, 0)
		}
		t := &out[i]
		t.Hours += w.Hours
		labour[i] += w.charge()
		if code := w.Rate.CurrencyCode(); code != "" {
			t.Labour = MinorMoney(labour[i], code)
		}
		k := slices.IndexFunc(t.People, func(p PersonHours) bool { return strings.EqualFold(p.Who, w.Who) })
		if k < 0 {
			k = len(t.People)
			t.People = append(t.People, PersonHours{Who: w.Who})
		}
		t.People[k].Hours += w.Hours
	}
	return out
}
