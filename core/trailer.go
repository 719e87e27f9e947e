package core

import (
	"fmt"
	"slices"
)

// Trailer names the safety matters left undone: refused on the scope and on no note since, put to the owner and declined or not answered in time,
// left by the owner's word, snags taken as they are. With any of them the vehicle leaves on a trailer.
func (s *Story) Trailer() []string {
	left := s.refusedSafety()
	var put []*Surprise
	for i := range s.Surprises {
		p := &s.Surprises[i]
		if n := s.Note(p.Note); !p.Safety || n == nil || n.State == NoteSent || s.undertaken(p) {
			continue
		}
		// Put anew, the later one speaks for the matter: done, or left in its own words.
		if !slices.ContainsFunc(s.Surprises[i+1:], func(q Surprise) bool { return s.again(&q, p) && (s.undertaken(&q) || q.Safety && s.answered(&q)) }) {
			left, put = append(left, p.Found), append(put, p)
		}
	}
	for _, l := range s.Job.Left {
		if l.Safety && !slices.ContainsFunc(put, func(p *Surprise) bool { return p.of(l.Place) }) {
			left = append(left, fmt.Sprintf("%s, left by %s: %s", l.Place.Words(), l.By, l.Reason))
		}
	}
	for _, g := range s.Snags {
		if g.Safety && g.Cleared == "" && g.Owner != "" {
			left = append(left, fmt.Sprintf("%s %s, left on the word of %s", g.ID, g.What, g.Owner))
		}
	}
	return left
}

// refusedSafety names the lines of the agreed scope that serve a safety-critical part and were refused, and on no note since. One that was only
// held in reserve counts too: nobody looks at what nobody pays for, and what is not seen is never a pass; until it is fitted, or something is
// undertaken on it.
func (s *Story) refusedSafety() []string {
	var left []string
	a := s.Agreed(GateBudget)
	if a == nil {
		return nil
	}
	p := s.Issued(a.Paper, a.Revision)
	if p == nil {
		return nil
	}
	for _, l := range p.Lines {
		switch {
		case !l.Safety || !slices.ContainsFunc(a.Refused, l.Concerns) || s.noted(l.ID):
		case l.Kind == LineWork:
			left = append(left, fmt.Sprintf("%s, refused by %s on %s revision %d", l.Name, a.Who, a.Paper, a.Revision))
		case l.Kind == LineReserve && l.Subsystem != "" && !s.noted(string(LineWork)+":"+l.key()) && !s.handled(l.Places):
			left = append(left, fmt.Sprintf("%s, not seen and its reserve refused by %s on %s revision %d", l.Bare(), a.Who, a.Paper, a.Revision))
		}
	}
	return left
}

// handled reports whether each of some places was fitted, or a change approved that undertakes something on it.
func (s *Story) handled(places []Place) bool {
	for _, q := range places {
		fitted := slices.ContainsFunc(s.Fits, func(f Fit) bool { return (Place{f.Subsystem, f.Unit, f.Target}) == q })
		if !fitted && !slices.ContainsFunc(s.Surprises, func(p Surprise) bool { return p.of(q) && s.undertaken(&p) }) {
			return false
		}
	}
	return len(places) > 0
}

// answered reports that a surprise is on a note that was closed and not taken back.
func (s *Story) answered(p *Surprise) bool {
	n := s.Note(p.Note)
	return n != nil && n.State != NoteSent
}

// undertaken reports that a note was approved with something to be done about a surprise.
func (s *Story) undertaken(p *Surprise) bool {
	_, err := s.Taken(p.ID)
	return err == nil
}

// ByTrailer says why a vehicle leaves on a trailer as it stands: a safety matter left undone or not settled, a snag of
// safety that is not put right, or work that no second person has looked over.
func (s *Story) ByTrailer() []string {
	var why []string
	for _, left := range s.Trailer() {
		why = append(why, "a safety matter was left undone: "+left)
	}
	for _, g := range s.unsafe() {
		why = append(why, g.unsafe())
	}
	for _, p := range s.Unsettled() {
		why = append(why, "a safety matter is not settled, "+p.ID+": "+p.Found)
	}
	if s.Job.Vehicle != nil {
		for _, u := range s.Unchecked() {
			why = append(why, u+" was not checked by a second person")
		}
	}
	return why
}
