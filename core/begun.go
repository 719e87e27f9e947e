package core

import (
	"slices"
	"time"
)

// Begun is what has happened already to a line of the agreed order, as far as it shortens what is to come.
type Begun struct {
	Line    string
	Hours   float64    // spent on it
	Ordered bool       // its outwork is out or back, its goods are on order or here
	Due     *time.Time // the latest day promised; nil: all of it is here, or no day was promised
	Waiting bool       // some of it is not here yet
}

// Begun lists the lines that hours were spent on, or that something was sent out or ordered for, in the order in which they were begun.
func (s *Story) Begun() []Begun {
	var out []Begun
	at := func(line string) *Begun {
		i := slices.IndexFunc(out, func(b Begun) bool { return b.Line == line })
		if i < 0 {
			i = len(out)
			out = append(out, Begun{Line: line})
		}
		return &out[i]
	}
	ordered := func(lines []string, waiting bool, due time.Time) {
		for _, l := range lines {
			b := at(l)
			b.Ordered, b.Waiting = true, b.Waiting || waiting
			if waiting && !due.IsZero() && (b.Due == nil || due.After(*b.Due)) {
				b.Due = &due
			}
		}
	}
	for _, o := range s.Outwork {
		if o.State != OutworkRefused {
			ordered(o.Lines, o.State == OutworkOut, o.Due)
		}
	}
	for _, p := range s.Purchases {
		if p.State == PurchaseOrdered || p.State == PurchaseArrived {
			ordered(p.Lines, p.State == PurchaseOrdered, p.Due)
		}
	}
	for _, w := range s.Hours {
		if w.Line != "" {
			at(w.Line).Hours += w.Hours
		}
	}
	return out
}

// HoursLeft are the likely hours of the agreed lines that are not worked yet; 0 before the main agreement, and of a job that is done or
// stopped. What was worked before that agreement was agreed to by itself: it counts against nothing here.
func (s *Story) HoursLeft() float64 {
	a := s.Agreed(GateBudget)
	if a == nil || s.Job.State == StateHandedOver || s.Job.State == StateStopped {
		return 0
	}
	left := s.HoursAgreed()
	for _, w := range s.Hours {
		if !w.At.Before(a.At) {
			left -= w.Hours
		}
	}
	return max(0, left)
}

// begun finds what has happened to a line; nil if nothing has.
func (b *bench) begun(line string) *Begun {
	i := slices.IndexFunc(b.req.Begun, func(x Begun) bool { return x.Line == line })
	if i < 0 {
		return nil
	}
	return &b.req.Begun[i]
}

// left are the hours of a line less those spent on it.
func (b *bench) left(line string, hours Range3) Range3 {
	x := b.begun(line)
	if x == nil {
		return hours
	}
	spent := max(0, x.Hours)
	return Range3{max(0, hours.Low-spent), max(0, hours.Likely-spent), max(0, hours.High-spent)}
}

// promised gives what is still to be waited for of a line that is out or on order; false if it is not. A day promised may slip by as much as
// lies between the likely and the longest wait (common practice, no source).
func (b *bench) promised(line string, usual Range3) (Range3, bool) {
	x := b.begun(line)
	switch {
	case x == nil || !x.Ordered:
		return usual, false
	case !x.Waiting:
		return Range3{}, true
	case x.Due == nil:
		return usual, true
	}
	weeks := weeksUntil(*x.Due, b.req.Pace.From, usual.Likely)
	return Range3{weeks, weeks, weeks + usual.High - usual.Likely}, true
}
