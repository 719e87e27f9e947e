package core

import (
	"fmt"
	"slices"
	"strings"
)

// Outcome is what one subsystem came to against what was agreed, before tax.
type Outcome struct {
	Subsystem   string  `json:"subsystem"` // "": the vehicle itself, coming apart and going together
	AgreedHours float64 `json:"agreed_hours"`
	Hours       float64 `json:"hours"`
	Agreed      Money   `json:"agreed"` // expected, what was held in reserve in it
	Labour      Money   `json:"labour"`
	Outwork     Money   `json:"outwork"`
	Goods       Money   `json:"goods"`
	Spent       Money   `json:"spent"` // the three together
}

// Outcomes sets hours, outwork and goods against the agreed lines, by subsystem in the order of the lines. What serves lines of several
// subsystems counts with the first.
func (s *Story) Outcomes() []Outcome {
	type sums struct{ agreed, labour, outwork, goods int64 }
	out, by := []Outcome{}, []sums{}
	at := func(subsystem string) int {
		i := slices.IndexFunc(out, func(o Outcome) bool { return o.Subsystem == subsystem })
		if i < 0 {
			i = len(out)
			out, by = append(out, Outcome{Subsystem: subsystem}), append(by, sums{})
		}
		return i
	}
	lines := s.AgreedOrder().Lines
	for _, l := range lines {
		i := at(l.Subsystem)
		by[i].agreed += Minor(l.Amount)
		if l.Kind != LineReserve {
			out[i].AgreedHours += l.Hours.Likely
		}
	}
	for _, w := range s.Hours {
		subsystem := w.Subsystem
		if subsystem == "" && w.Line != "" {
			subsystem = subsystemOf(lines, w.Line)
		}
		i := at(subsystem)
		out[i].Hours += w.Hours
		by[i].labour += w.charge()
	}
	for _, o := range s.Outwork {
		if o.State == OutworkAccepted {
			by[at(subsystemOf(lines, o.Lines...))].outwork += Minor(o.charge())
		}
	}
	for _, p := range s.Purchases {
		if p.State == PurchaseArrived {
			by[at(subsystemOf(lines, p.Lines...))].goods += Minor(p.Price)
		}
	}
	code := s.currency()
	for i, b := range by {
		o := &out[i]
		o.Agreed, o.Labour, o.Outwork, o.Goods = MinorMoney(b.agreed, code), MinorMoney(b.labour, code), MinorMoney(b.outwork, code), MinorMoney(b.goods, code)
		o.Spent = MinorMoney(b.labour+b.outwork+b.goods, code)
	}
	return out
}

// subsystemOf is the subsystem of the first of some lines, by the agreed lines, else by their ids: "work:head@engine:reface".
func subsystemOf(lines []Line, ids ...string) string {
	for _, id := range ids {
		if i := slices.IndexFunc(lines, func(l Line) bool { return l.ID == id }); i >= 0 {
			return lines[i].Subsystem
		}
		if _, rest, ok := strings.Cut(id, ":"); ok {
			if subsystem, _, ok := strings.Cut(rest, "@"); ok {
				return subsystem
			}
		}
	}
	return ""
}

// HoursAgreed are the likely hours of the agreed lines, without what was held in reserve; 0 before the main agreement.
func (s *Story) HoursAgreed() float64 {
	sum := 0.0
	for _, l := range s.AgreedOrder().Lines {
		if l.Kind != LineReserve {
			sum += l.Hours.Likely
		}
	}
	return sum
}

// NotDone lists what was not done, and on whose word: refused on the scope, declined or left on a change note, left as it is, left of the snags.
func (s *Story) NotDone() []string {
	not := []string{}
	if a := s.Agreed(GateBudget); a != nil {
		names := map[string]string{}
		if p := s.Issued(a.Paper, a.Revision); p != nil {
			for _, l := range p.Lines {
				names[l.ID] = l.Name
			}
		}
		for _, r := range a.Refused {
			what := r
			if n := names[r]; n != "" {
				what = n
			}
			not = append(not, fmt.Sprintf("%s: refused by %s on the scope", what, a.Who))
		}
	}
	for _, l := range s.Job.Left {
		not = append(not, fmt.Sprintf("%s: left by %s, %s", l.Place.Words(), l.By, l.Reason))
	}
	for _, l := range s.LeftWithin() {
		not = append(not, fmt.Sprintf("%s: left to keep within what may be spent", l))
	}
	for _, n := range s.Notes {
		not = append(not, s.notDoneOf(n)...)
	}
	for _, g := range s.Snags {
		if g.Owner != "" {
			not = append(not, fmt.Sprintf("%s %s: left on the word of %s", g.ID, g.What, g.Owner))
		}
	}
	return not
}

// LeftWithin are the parts that the agreed scope leaves as they are to keep within what may be spent, but for those that the owner's own word
// leaves.
func (s *Story) LeftWithin() []LeftPart {
	a := s.Agreed(GateBudget)
	if a == nil {
		return nil
	}
	p := s.Issued(a.Paper, a.Revision)
	if p == nil {
		return nil
	}
	return slices.DeleteFunc(slices.Clone(p.Left), func(l LeftPart) bool {
		return slices.ContainsFunc(s.Job.Left, func(x Left) bool { return x.Place == l.Place })
	})
}

func (s *Story) notDoneOf(n Note) []string {
	var not []string
	for _, id := range n.Surprises {
		p := s.Surprise(id)
		if p == nil || n.State == NoteSent || n.State == NoteWithdrawn {
			continue
		}
		i := slices.IndexFunc(n.Answered, func(a NoteAnswer) bool { return a.Surprise == id })
		safety := ""
		if p.Safety {
			safety = ": it leaves on a trailer"
		}
		switch {
		case n.State == NoteExpired:
			not = append(not, fmt.Sprintf("%s: not answered in time on %s%s", p.Found, n.ID, safety))
		case n.State == NoteDeclined || i < 0 || n.Answered[i].Option == 0:
			not = append(not, fmt.Sprintf("%s: declined by %s on %s%s", p.Found, n.Who, n.ID, safety))
		case p.Options[n.Answered[i].Option-1].Leaves:
			not = append(not, fmt.Sprintf("%s: left by %s on %s%s", p.Found, n.Who, n.ID, safety))
		}
	}
	return not
}

// SameFrame reports whether two jobs are of one vehicle: a frame stamp of both reads the same, capitals and blanks apart.
func (j Job) SameFrame(o Job) bool {
	stamps := o.frameStamps()
	return slices.ContainsFunc(j.frameStamps(), func(s string) bool { return slices.Contains(stamps, s) })
}

// Before gives the number of the last job of the same vehicle that was handed over before this one was opened; "" if there is none. The jobs are in
// the order they were opened.
func (j Job) Before(jobs []Job) string {
	number := ""
	for _, o := range jobs {
		if o.Number == j.Number {
			break
		}
		if o.State == StateHandedOver && o.SameFrame(j) {
			number = o.Number
		}
	}
	return number
}

// frameStamps are the marks on the frame of a job's vehicle, in capitals without blanks and strokes.
func (j Job) frameStamps() []string {
	var stamps []string
	if j.Vehicle == nil {
		return nil
	}
	for _, m := range j.Vehicle.Marks {
		text := strings.ToUpper(strings.NewReplacer(" ", "", "-", "", "/", "").Replace(m.Text))
		if where := strings.ToLower(m.Where); text != "" && m.Says != MarkNotFound && (strings.Contains(where, "frame") || strings.Contains(where, "chassis")) {
			stamps = append(stamps, text)
		}
	}
	return stamps
}
