package core

import "slices"

// Arrival is the taking in: what came, in what state, and who signed for it.
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
	Stamp
}

// RunsWords are what may be said of a vehicle that came.
var RunsWords = []string{"runs", "does not run", "not tried"}

// Kind is "arrival".
func (a *Arrival) Kind() string { return "arrival" }

// Check refuses a second arrival of one job: what comes back later is another job.
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
	s.Arrival = &b
}

func (a *Arrival) leads(s *Story) string {
	if s.Job.State == StateEnquiry {
		return StateArrived
	}
	return ""
}
