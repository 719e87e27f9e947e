package core

import (
	"fmt"
	"slices"
	"strings"
	"time"
)

// Shift is what a plan does to what was agreed, as far as some parts ask for it.
type Shift struct {
	Sum   Money    // more than agreed, tax included; below zero: less
	Tax   Money    // of Sum
	Lines []string // ids of the lines of the plan's order that no agreement covers yet
	Weeks float64  // more until the finish
}

// Shift compares a plan's order with the scope agreed to, as far as it is there for some places. Without is the plan in which they are left as
// they are: what falls due only because of them counts too. What an approved change note added since is agreed. The finish is later where what
// is added takes longer than the longest wait there is. It is a Conflict where nothing is agreed that it could be compared with.
func (s *Story) Shift(now, without Plan, places []Place, at time.Time) (Shift, error) {
	a := s.Agreed(GateBudget)
	if a == nil {
		return Shift{}, s.needs(GateBudget, "a change to it")
	}
	keys := map[string]bool{} // looked up only
	for _, l := range now.WorkOrder.Lines {
		if l.serves(places) || !without.WorkOrder.has(l.ID) {
			keys[l.key()] = true
		}
	}
	for _, l := range s.scopeLines() {
		if l.serves(places) {
			keys[l.key()] = true
		}
	}
	sum, tax, wait, replaced := int64(0), int64(0), 0.0, false
	var lines []string
	for _, l := range now.WorkOrder.Lines {
		switch {
		case !keys[l.key()]:
			continue
		case s.noted(l.ID):
			replaced = replaced || l.serves(places)
			delete(keys, l.key()) // its money was agreed to with the note
			continue
		}
		sum, tax = sum+l.gross(), tax+Minor(l.Tax)
		if l.Kind != LineReserve && s.Covered(l.ID) != nil {
			lines, wait = append(lines, l.ID), max(wait, l.LeadWeeks.Likely)
		}
	}
	for _, l := range s.scopeLines() {
		if !keys[l.key()] || replaced && !now.WorkOrder.has(l.ID) || s.past(l) || slices.ContainsFunc(a.Refused, l.Concerns) {
			continue
		}
		sum, tax = sum-l.gross(), tax-Minor(l.Tax)
	}
	return Shift{Sum: MinorMoney(sum, s.currency()), Tax: MinorMoney(tax, s.currency()), Lines: lines, Weeks: max(0, wait-s.LongestWait(at))}, nil
}

// key is what a line has in common with what was held in reserve for it: its id without the kind.
func (l Line) key() string {
	_, key, _ := strings.Cut(l.ID, ":")
	return key
}

// noted reports whether a change note that was approved since the main agreement added a line.
func (s *Story) noted(line string) bool {
	return slices.ContainsFunc(s.notesSince(GateBudget), func(n Note) bool { return n.covers(line) })
}

// past reports whether a line was there to open a step that is open by now: it is spent, not saved.
func (s *Story) past(l Line) bool {
	opens := l.Kind == LineStrip || l.Kind == LineReserve && l.Subsystem == ""
	return opens && slices.Contains(s.Off(), l.key())
}

// LongestWait is how many weeks the longest wait takes from a time on, among the lines of the agreed scope: what is out or ordered until the day
// promised, what is neither for as long as it usually takes.
func (s *Story) LongestWait(at time.Time) float64 {
	longest := 0.0
	for _, l := range s.scopeLines() {
		if l.Kind != LineReserve {
			longest = max(longest, s.wait(l, at))
		}
	}
	return longest
}

func (s *Story) wait(l Line, at time.Time) float64 {
	if o := s.AtWork(l.ID); o != nil {
		if o.State == OutworkAccepted {
			return 0
		}
		return weeksUntil(o.Due, at, l.LeadWeeks.Likely)
	}
	if l.Outwork != "" {
		return l.LeadWeeks.Likely
	}
	wait, ordered := 0.0, false
	for _, b := range s.Purchases {
		if slices.Contains(b.Lines, l.ID) && (b.State == PurchaseOrdered || b.State == PurchaseArrived) {
			ordered = true
			if b.State == PurchaseOrdered {
				wait = max(wait, weeksUntil(b.Due, at, l.LeadWeeks.Likely))
			}
		}
	}
	if !ordered {
		return l.LeadWeeks.Likely
	}
	return wait
}

func weeksUntil(due, at time.Time, usual float64) float64 {
	if due.IsZero() {
		return usual
	}
	return max(0, due.Sub(at).Hours()/(7*24))
}

// gross is a line's amount with its tax, in minor units.
func (l Line) gross() int64 { return Minor(l.Amount) + Minor(l.Tax) }

// has reports whether the order has a line.
func (o WorkOrder) has(id string) bool {
	return slices.ContainsFunc(o.Lines, func(l Line) bool { return l.ID == id })
}

// WhyNotBefore says from the book why something found on some places was not agreed to with the scope: it was refused or not seen then, or was
// read later. "" if the book does not say.
func (s *Story) WhyNotBefore(places []Place, behind []Finding) string {
	a := s.Agreed(GateBudget)
	if a == nil {
		return ""
	}
	for _, l := range s.scopeLines() {
		if l.serves(places) && slices.ContainsFunc(a.Refused, l.Concerns) {
			return fmt.Sprintf("%s refused it on %s revision %d", a.Who, a.Paper, a.Revision)
		}
		if l.Kind == LineReserve && l.serves(places) {
			return fmt.Sprintf("it was not settled when %s revision %d was agreed to: only a reserve was held for it", a.Paper, a.Revision)
		}
	}
	var last time.Time
	for _, f := range behind {
		if f.At.After(last) {
			last = f.At
		}
	}
	if !last.After(a.At) {
		return ""
	}
	return fmt.Sprintf("it was read on %s, after %s revision %d was agreed to", last.Format("2 January 2006"), a.Paper, a.Revision)
}

// Effect is what choices on change notes do to a job's money and its finish.
type Effect struct {
	Sum         Money   `json:"sum"`              // more than agreed, tax included
	Authorised  Money   `json:"authorised"`       // tax included
	Contingency Money   `json:"contingency_left"` // before tax
	Weeks       float64 `json:"weeks"`            // more until the finish: waits run side by side, so the longest counts
}

// Would gives what it does to choose options, one for each of some surprises; 0 is none.
func (s *Story) Would(chosen []NoteAnswer) Effect {
	sum, net := int64(0), int64(0)
	var e Effect
	for _, c := range chosen {
		p := s.Surprise(c.Surprise)
		if p == nil || c.Option < 1 || c.Option > len(p.Options) {
			continue
		}
		o := p.Options[c.Option-1]
		sum, net = sum+Minor(o.Sum), net+o.net()
		e.Weeks = max(e.Weeks, o.Weeks)
	}
	whole, left := s.Contingency()
	code := s.currency()
	e.Sum, e.Authorised = MinorMoney(sum, code), MinorMoney(Minor(s.Authorised())+sum, code)
	e.Contingency = MinorMoney(min(max(Minor(left)-net, 0), Minor(whole)), code)
	return e
}
