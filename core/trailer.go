package core

import (
	"fmt"
	"slices"
)

// Trailer names the safety matters left undone: refused on the scope and on no note since, left by the owner's word, put to the owner and declined or never answered.
// With any of them the vehicle leaves on a trailer.
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
	for _, l := range s.Job.Left {
		if l.Safety {
			left = append(left, fmt.Sprintf("%s, left by %s: %s", l.Place, l.By, l.Reason))
		}
	}
	for _, n := range s.Notes {
		if n.State == NoteSent || n.State == NoteWithdrawn {
			continue
		}
		for _, id := range n.Surprises {
			p := s.Surprise(id)
			if p == nil || !p.Safety {
				continue
			}
			i := slices.IndexFunc(n.Answered, func(o NoteAnswer) bool { return o.Surprise == id })
			if n.State != NoteApproved || i < 0 || n.Answered[i].Option == 0 || p.Options[n.Answered[i].Option-1].Leaves {
				left = append(left, p.Found)
			}
		}
	}
	return left
}

// ByTrailer says why a vehicle leaves on a trailer: a safety matter left undone, or that no second person has looked over.
func (s *Story) ByTrailer() []string {
	var why []string
	for _, left := range s.Trailer() {
		why = append(why, "a safety matter was left undone: "+left)
	}
	if s.Job.Vehicle != nil {
		for _, u := range s.Unchecked() {
			why = append(why, u+" was not checked by a second person")
		}
	}
	return why
}
