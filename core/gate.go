package core

import (
	"fmt"
	"strings"
	"time"
)

// Expired reports whether an offer ended before a time.
func (p Issued) Expired(at time.Time) bool { return !p.ValidUntil.IsZero() && at.After(p.ValidUntil) }

// Places gives the places on a paper that a name means: a line's id is itself, a part may be as short as it is clear, like crankpin/P4.
// It is Invalid if nothing is called so, or things of more than one subsystem or unit are.
func (p Issued) Places(name string) ([]string, error) {
	var found, of, all []string
	for _, l := range p.Lines {
		if l.ID == name {
			return []string{name}, nil
		}
		for _, q := range l.Places {
			short := Place{Subsystem: q.Subsystem, Target: q.Target}.String()
			all = appendNew(appendNew(all, short), q.Target.String())
			for _, s := range []string{q.String(), short, q.Target.String(), q.Part, q.Subsystem + "/" + q.Part} {
				if strings.EqualFold(s, name) {
					found, of = appendNew(found, q.String()), appendNew(of, q.Subsystem+"@"+q.Unit)
					break
				}
			}
		}
	}
	switch {
	case len(found) == 0 && Nearest(name, all) != "":
		return nil, Errorf(Invalid, fmt.Sprintf("did you mean %q?", Nearest(name, all)), "nothing on %s revision %d is called %q", p.Number, p.Revision, name)
	case len(found) == 0:
		return nil, Errorf(Invalid, "name a line of the scope, or a part like gearbox/case", "nothing on %s revision %d is called %q", p.Number, p.Revision, name)
	case len(of) > 1:
		return nil, Errorf(Invalid, "say which: "+strings.Join(found, ", "), "%q stands more than once on %s revision %d", name, p.Number, p.Revision)
	}
	return found, nil
}

// Needs says what a gate still needs before it is passed, and how that is written down; "" if nothing. An offer may have ended by now.
func (s *Story) Needs(gate string, now time.Time) string {
	record := func(word string) string {
		return "fettle agree " + s.Job.Number + " " + word + " --who NAME --how signed --sum AMOUNT"
	}
	switch gate {
	case GateStrip:
		if s.Agreed(GateStrip) == nil && s.Agreed(GateBudget) == nil {
			return "the owner's yes before anything is taken apart: " + record("strip")
		}
	case GateBudget:
		return s.budgetNeeds(now, record("budget"))
	case GateChange:
		for _, n := range s.Notes {
			if n.State == NoteSent {
				return "an answer to " + n.ID + ": fettle change " + s.Job.Number + " " + n.ID + " --answer ..."
			}
		}
		if n := len(s.Gathering()); n > 0 {
			return fmt.Sprintf("a change note of what is gathering (%d): fettle change %s --note", n, s.Job.Number)
		}
	case GateFinish:
		if s.Job.Vehicle != nil && s.Agreed(GateFinish) == nil {
			return "the owner's choices of paint and trim, before either is begun: fettle agree " + s.Job.Number + " finish --who NAME --how signed --words WORDS"
		}
	}
	return ""
}

func (s *Story) budgetNeeds(now time.Time, record string) string {
	a, p := s.Agreed(GateBudget), s.LastScope()
	again := "issue it again: fettle scope " + s.Job.Number + " --issue"
	switch {
	case s.Job.Altered() != "":
		return fmt.Sprintf("the owner told in writing of the mark at %s that looks altered: fettle job mark ... --told", s.Job.Altered())
	case p == nil:
		return "an issued scope: fettle scope " + s.Job.Number + " --issue"
	case a != nil && a.Paper == p.Number && a.Revision == p.Revision:
		return ""
	case p.Expired(now):
		return fmt.Sprintf("%s revision %d held until %s: %s", p.Number, p.Revision, p.ValidUntil.Format("2 January 2006"), again)
	}
	return fmt.Sprintf("an answer to %s revision %d: %s", p.Number, p.Revision, record)
}
