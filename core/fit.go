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
	New     bool     `json:"new"`            // within the limits of new, or none are known
	Past    string   `json:"past,omitempty"` // the limit that it is past: worn out, or failed; "" for none
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

// Check refuses building before it is agreed, a size that is not new without a reason, and one's own second check (of safety work a second
// person looks over what the first did: common practice, no source).
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
	var off, past []string
	for _, r := range f.Readings {
		says := strings.TrimSpace(r.Check+" "+r.Station) + " " + r.As
		if r.Past != "" && f.Safety {
			past = append(past, says+", "+r.Past)
		}
		if !r.New {
			if new := r.Range(); new != "" {
				says += ", new is " + new
			}
			off = append(off, says)
		}
	}
	if len(past) > 0 {
		return Errorf(Conflict, "fit another, or one that was put right; no word makes it do", "lives hang on %s, and it is past its limit: %s", f.Words(), strings.Join(past, "; "))
	}
	if len(off) > 0 && blank(f.Why) {
		return Errorf(Conflict, "put it right, or say why it will do: --why WORDS", "not within the limits of new: %s", strings.Join(off, "; "))
	}
	if by := s.fitter(f); !blank(f.Second) && strings.EqualFold(f.Second, by) {
		return Errorf(Conflict, "let somebody else look it over: --second NAME", "%s fitted %s, and cannot be the second person too", by, f.Words())
	}
	return nil
}

// looksOver reports that it only says who looked over what was fitted before.
func (f *Fit) looksOver() bool {
	return !blank(f.Second) && len(f.Readings)+len(f.Torques)+len(f.Shims)+len(f.OneUse) == 0
}

// fitter is who fitted what a fit is about: whoever did so last, where it only looks that over.
func (s *Story) fitter(f *Fit) string {
	if f.looksOver() {
		for _, g := range slices.Backward(s.Fits) {
			if g.Words() == f.Words() && !g.looksOver() {
				return g.By
			}
		}
	}
	return f.By
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

// Unchecked names what a second person must still check: safety work that nobody, or only the one who did it, has looked over since it was
// last fitted.
func (s *Story) Unchecked() []string {
	type last struct {
		by   string
		done bool
	}
	of := map[string]last{}
	var order []string
	for _, f := range s.Fits {
		w := f.Words()
		l, known := of[w]
		if !f.looksOver() || !known {
			l = last{by: f.By}
		}
		if !blank(f.Second) && !strings.EqualFold(f.Second, l.by) {
			l.done = true
		}
		if of[w] = l; f.Safety {
			order = appendNew(order, w)
		}
	}
	return slices.DeleteFunc(order, func(w string) bool { return of[w].done })
}

// SafetyWork reports whether a second person must check what is fitted: a part that the sheet calls safety-critical; and of what no sheet
// names, all that stops, steers or carries.
func SafetyWork(subsystem string, p *Part) bool {
	if p == nil {
		return slices.Contains(secondPersonSubsystems, subsystem)
	}
	return p.SafetyCritical
}

// Address is how what is fitted is named again: the place, or the tag.
func (f *Fit) Address() string {
	if f.Subsystem == "" && f.Tag != "" {
		return f.Tag
	}
	return f.Words()
}

// Words name what is fitted: the place, or the tag with its words.
func (f *Fit) Words() string {
	if f.Subsystem != "" {
		return Place{Subsystem: f.Subsystem, Unit: f.Unit, Target: f.Target}.String()
	}
	return strings.TrimSpace(f.Tag + " " + f.What)
}
