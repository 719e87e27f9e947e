package core

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
	Stamp
}

// Kind is "hours".
func (w *Worked) Kind() string { return "hours" }

// Check refuses hours of nobody, on nothing.
func (w *Worked) Check(s *Story) error {
	if s.Job.State == StateHandedOver {
		return s.working("hours")
	}
	switch {
	case blank(w.Who):
		return Errorf(Invalid, "name who worked: --who NAME", "the hours are nobody's")
	case blank(w.Task):
		return Errorf(Invalid, "say on what: a step, a part, or words", "the hours were spent on nothing")
	case w.Hours == 0 || w.Hours > 24 || w.Hours < -24:
		return Errorf(Invalid, "write hours like 1.5 or 1:30, a day at a time", "%s hours cannot be written down at once", FormatNumber(w.Hours))
	case Minor(w.Rate) < 0:
		return Errorf(Invalid, "a volunteer's hour is charged at 0", "an hour cannot cost less than nothing")
	}
	return nil
}

func (w *Worked) fold(s *Story, at Stamp) {
	v := *w
	v.Stamp = at
	s.Hours = append(s.Hours, v)
}

func (w *Worked) leads(s *Story) string {
	if w.Line == "" {
		return ""
	}
	return s.intoWork()
}
