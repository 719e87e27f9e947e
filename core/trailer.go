package core

import (
	"fmt"
	"slices"
)

// Trailer names the safety matters left undone: refused on the scope and on no note since, put to the owner and declined or not answered in time,
// left by the owner's word, snags taken as they are. With any of them the vehicle leaves on a trailer.
func (s *Story) Trailer() []string {
	var left []string
	if a := s.Agreed(GateBudget); a != nil {
		if p := s.Issued(a.Paper, a.Revision); p != nil {
			for _, l := range p.Lines {
				if l.Safety && l.Kind == LineWork && slices.ContainsFunc(a.Refused, l.Concerns) && !s.noted(l.ID) {
					left = append(left, fmt.Sprintf("%s, refused by %s on %s revision %d", l.Name, a.Who, a.Paper, a.Revision))
				}
			}
		}
	}
	var put []*Surprise
	for i := range s.Surprises {
		p := &s.Surprises[i]
		if n := s.Note(p.Note); !p.Safety || n == nil || n.State == NoteSent || s.undertaken(p) {
			continue
		}
		if !slices.ContainsFunc(s.Surprises[i+1:], func(q Surprise) bool { return q.again(p) && s.undertaken(&q) }) {
			left, put = append(left, p.Found), append(put, p)
		}
	}
	for _, l := range s.Job.Left {
		if l.Safety && !slices.ContainsFunc(put, func(p *Surprise) bool { return p.of(l.Place) }) {
			left = append(left, fmt.Sprintf("%s, left by %s: %s", l.Place, l.By, l.Reason))
		}
	}
	for _, g := range s.Snags {
		if g.Safety && g.Cleared == "" && g.Owner != "" {
			left = append(left, fmt.Sprintf("%s %s, left on the word of %s", g.ID, g.What, g.Owner))
		}
	}
	return left
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
