package core

import (
	"slices"
	"strings"
)

// Fit is one thing put together in the rebuild: the sizes as fitted, the torques, what one-use items went in, and by whom.
type Fit struct {
	Subsystem string   `json:"subsystem"`
	Unit      string   `json:"unit,omitempty"`
	Target    Target   `json:"target"`
	Tag       string   `json:"tag,omitempty"`
	What      string   `json:"what,omitempty"`
	Readings  []Fitted `json:"readings,omitempty"`
	Torques   []Torque `json:"torques,omitempty"`
	OneUse    []string `json:"one_use,omitempty"` // new items used, in words or by key
	Shims     []Shim   `json:"shims,omitempty"`   // the pack as fitted
	Second    string   `json:"second,omitempty"`  // the second person who checked it
	Why       string   `json:"why,omitempty"`     // why a reading outside new will do
	Safety    bool     `json:"safety,omitempty"`  // a second person must check it
	Stamp
}

// Fitted is a reading as fitted, against the sheet's limits of new.
type Fitted struct {
	Check   string   `json:"check"`
	Name    string   `json:"name,omitempty"`
	Station string   `json:"station,omitempty"`
	Got     Quantity `json:"got"`
	As      string   `json:"as_typed"`
	Low     *float64 `json:"new_low,omitempty"` // limits of new, in Unit
	High    *float64 `json:"new_high,omitempty"`
	Unit    string   `json:"unit,omitempty"`
	New     bool     `json:"new"` // within the limits of new, or none are known
	Source  string   `json:"source,omitempty"`
}

// Torque is what a fastener was tightened to.
type Torque struct {
	Fastener string   `json:"fastener"`
	Value    Quantity `json:"value"`
	By       string   `json:"by,omitempty"`
	Again    bool     `json:"again,omitempty"` // second torque, after running
}

// Kind is "fit".
func (f *Fit) Kind() string { return "fit" }

// Check refuses building before it is agreed, a size that is not new without a reason, and one's own second check.
func (f *Fit) Check(s *Story) error {
	if err := s.working("building"); err != nil {
		return err
	}
	if err := s.needs(GateBudget, "built"); err != nil {
		return err
	}
	if blank(f.Subsystem) && blank(f.Tag) && blank(f.What) {
		return Errorf(Invalid, "name a part like gearbox/case, or a tag", "what is fitted?")
	}
	if f.Tag != "" {
		t := s.Tag(f.Tag)
		switch {
		case t == nil:
			return Errorf(NotFound, "see: fettle tag "+s.Job.Number, "%s has no tag %s", s.Job.Number, f.Tag)
		case t.State == TagOut || t.Gone():
			return Errorf(Conflict, "receive it first", "%s is %s", t.words(), t.State)
		}
	}
	var off []string
	for _, r := range f.Readings {
		if !r.New {
			off = append(off, strings.TrimSpace(r.Check+" "+r.Station)+" "+r.As)
		}
	}
	if len(off) > 0 && blank(f.Why) {
		return Errorf(Conflict, "put it right, or say why it will do: --why WORDS", "not within the limits of new: %s", strings.Join(off, "; "))
	}
	return nil
}

func (f *Fit) fold(s *Story, at Stamp) {
	g := *f
	g.Stamp = at
	s.Fits = append(s.Fits, g)
	if t := s.Tag(f.Tag); t != nil {
		t.State = TagBuilt
	}
}

func (f *Fit) leads(s *Story) string {
	if slices.Contains([]string{StateAgreed, StateInWork, StateWaiting}, s.Job.State) {
		return StateBuilding
	}
	return ""
}

// Unchecked names what a second person must still check: safety work whose last fit has no second name, or the name of the one who did it.
func (s *Story) Unchecked() []string {
	last := map[string]Fit{}
	var order []string
	for _, f := range s.Fits {
		if f.Safety {
			order = appendNew(order, f.words())
			last[f.words()] = f
		}
	}
	return slices.DeleteFunc(order, func(w string) bool {
		f := last[w]
		return !blank(f.Second) && !strings.EqualFold(f.Second, f.By)
	})
}

func (f *Fit) words() string {
	if f.Subsystem != "" {
		return Place{Subsystem: f.Subsystem, Unit: f.Unit, Target: f.Target}.String()
	}
	return strings.TrimSpace(f.Tag + " " + f.What)
}
