package core

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"
)

// Sendable gives the lines of a plan's order that an outworker carries out for some parts. It is a Conflict while every such line is held in
// reserve, or a member of its group is not decided or not read; and NotFound if nothing of the parts goes out.
func (p Plan) Sendable(places []Place) ([]Line, error) {
	return p.orderable(places, "is sent out", func(l Line) bool { return l.Outwork != "" })
}

// Buyable gives the lines of a plan's order that need goods for some parts; it is refused as Sendable is.
func (p Plan) Buyable(places []Place) ([]Line, error) {
	return p.orderable(places, "has to be bought", func(l Line) bool { return len(l.Items) > 0 })
}

func (p Plan) orderable(places []Place, what string, wanted func(Line) bool) (lines []Line, err error) {
	var waits error
	for _, l := range p.WorkOrder.Lines {
		if !wanted(l) || !l.serves(places) {
			continue
		}
		if err := p.waits(l, places); err == nil {
			lines = append(lines, l)
		} else if waits == nil {
			waits = err
		}
	}
	if len(lines) == 0 && waits != nil {
		return nil, waits
	}
	if len(lines) == 0 {
		return nil, Errorf(NotFound, "see: fettle plan "+p.Job.Number, "nothing of the order %s for %s", what, placeNames(places))
	}
	return lines, nil
}

// Waits refuses, as Conflict, a line of the order that must not be ordered yet: it is only held in reserve, or a set that it serves is
// ordered for together and a member of it is not seen.
func (p Plan) Waits(l Line) error { return p.waits(l, l.Places) }

func (p Plan) waits(l Line, places []Place) error {
	look := "look at them first: fettle record " + p.Job.Number + " ..."
	if l.Kind == LineReserve {
		return Errorf(Conflict, look, "%s is only held in reserve: %s", l.Bare(), p.unread(l, places))
	}
	if waits := p.incomplete(l.Places); waits != "" {
		return Errorf(Conflict, look, "%s waits for its group: %s", l.Name, waits)
	}
	return nil
}

// unread says how many parts of a line are read, and which are not: of the sets that the places asked for are in, if one has a part unread.
func (p Plan) unread(l Line, places []Place) string {
	if words := p.incomplete(places); words != "" {
		return words
	}
	if words := p.notRead(l.Places, func(c UnitCondition) bool { return c.Grade != NotSeen && c.ReadingsTaken >= c.ReadingsNeeded }); words != "" {
		return words
	}
	return fmt.Sprintf("whether %s needs it is not decided", placeNames(l.Places))
}

// incomplete says which members are not seen of the sets, with any of the places in them, that are ordered for together or not at all; "" if
// none is.
func (p Plan) incomplete(places []Place) string {
	for _, s := range p.Sheets {
		for _, set := range s.Sheet.Sets {
			if !set.CompleteBeforeOrder {
				continue
			}
			var members []Place
			for _, t := range set.Members {
				members = append(members, Place{s.Subsystem, s.Unit, t})
			}
			if !slices.ContainsFunc(members, func(m Place) bool { return slices.Contains(places, m) }) {
				continue
			}
			if words := p.notRead(members, func(c UnitCondition) bool { return c.Grade != NotSeen }); words != "" {
				return words
			}
		}
	}
	return ""
}

// unreadNamed is how many parts that are not read are named; of a whole unit the rest is a number.
const unreadNamed = 8

// notRead says how many of the places are read, and names the others; "" if all are.
func (p Plan) notRead(places []Place, read func(UnitCondition) bool) string {
	var not []string
	of := 0
	for _, c := range p.Conditions {
		if !slices.Contains(places, c.Place) {
			continue
		}
		of++
		if !read(c) {
			not = append(not, strings.TrimSpace(c.PartName+" "+c.Position))
		}
	}
	if len(not) == 0 {
		return ""
	}
	words := fmt.Sprintf("%d of %d read; not read: %s", of-len(not), of, strings.Join(not[:min(len(not), unreadNamed)], ", "))
	if more := len(not) - unreadNamed; more > 0 {
		words += fmt.Sprintf(" and %d more", more)
	}
	return words
}

// serves reports whether a line is there for one of the places.
func (l Line) serves(places []Place) bool {
	return slices.ContainsFunc(l.Places, func(p Place) bool { return slices.Contains(places, p) })
}

func placeNames(places []Place) string {
	var names []string
	for _, p := range places {
		names = append(names, p.String())
	}
	return strings.Join(names, ", ")
}

// Unsent says which parts of lines do not go with the tags that are sent, with the tag of each that has one: a set goes as a set. A tag of a
// whole unit stands for all of its parts, one of a part without a position for the part at each of its positions.
func (s *Story) Unsent(lines []Line, sent []string) []string {
	var out, none []string
	for _, l := range lines {
		for _, p := range l.Places {
			if slices.ContainsFunc(sent, func(n string) bool { t := s.Tag(n); return t != nil && t.holds(p) }) {
				continue
			}
			if i := slices.IndexFunc(s.Tags, func(t Tag) bool { return t.holds(p) && !t.Gone() }); i >= 0 {
				out = appendNew(out, fmt.Sprintf("%s is %s, %s", p.Target, s.Tags[i].ID, s.Tags[i].State))
			} else {
				none = appendNew(none, p.Target.String())
			}
		}
	}
	if len(none) > 0 {
		out = append(out, "no tag is of "+strings.Join(none, ", "))
	}
	for _, n := range sent {
		t := s.Tag(n)
		if t == nil {
			continue
		}
		for _, m := range t.Mates {
			if other := s.Tag(m); other != nil && !slices.Contains(sent, m) && !other.Gone() {
				out = appendNew(out, fmt.Sprintf("%s was mated with %s", n, other.words()))
			}
		}
	}
	return out
}

// holds reports whether a tag is of a place, or of more than it.
func (t Tag) holds(p Place) bool {
	switch {
	case t.Unit == "" && t.Subsystem == "" && t.Target.Part == "":
		return false // named in words alone
	case t.Unit != "" && t.Unit != p.Unit, t.Subsystem != "" && t.Subsystem != p.Subsystem:
		return false
	}
	return t.Target.Part == "" || t.Target.Part == p.Part && (t.Target.Position == "" || t.Target.Position == p.Position)
}

// AtWork gives the outwork that carries a line out or has done so; nil if none does.
func (s *Story) AtWork(line string) *Outwork {
	for i := range s.Outwork {
		if o := &s.Outwork[i]; o.State != OutworkRefused && slices.Contains(o.Lines, line) {
			return o
		}
	}
	return nil
}

// ToSend lists the lines of the agreed scope, or else of the one issued last, that somebody else carries out and nobody has yet.
func (s *Story) ToSend() []Line {
	var lines []Line
	for _, l := range s.scopeLines() {
		if l.Kind == LineWork && l.Outwork != "" && s.AtWork(l.ID) == nil {
			lines = append(lines, l)
		}
	}
	return lines
}

// scopeLines are the lines of the agreed scope, or else of the one issued last.
func (s *Story) scopeLines() []Line {
	if p := s.priced(); p != nil {
		return p.Lines
	}
	return nil
}

// priced is the agreed scope, or else the one issued last; nil if none is.
func (s *Story) priced() *Issued {
	if a := s.Agreed(GateBudget); a != nil {
		return s.Issued(a.Paper, a.Revision)
	}
	return s.LastScope()
}

// Sends gives the tags of the parts that lines serve, as far as the pieces lie in the shop. A tag of a whole unit is not one of them.
func (s *Story) Sends(lines []Line) []string {
	var tags []string
	for _, t := range s.Tags {
		if t.Target.Part == "" || !t.Apart() || t.State == TagOut {
			continue
		}
		if slices.ContainsFunc(lines, func(l Line) bool { return slices.ContainsFunc(l.Places, t.holds) }) {
			tags = append(tags, t.ID)
		}
	}
	return tags
}

// TagOf gives the number of a tag that is of a place itself, or "".
func (s *Story) TagOf(p Place) string {
	for _, t := range s.Tags {
		if t.Target.Part != "" && t.holds(p) && !t.Gone() {
			return t.ID
		}
	}
	return ""
}

// OutFirst gives the outwork in the order in which it matters: late, out, refused, accepted; what was promised sooner first.
func (s *Story) OutFirst(now time.Time) []Outwork {
	rank := func(o Outwork) int {
		if o.Late(now) {
			return 0
		}
		return 1 + slices.Index([]string{OutworkOut, OutworkRefused, OutworkAccepted}, o.State)
	}
	out := slices.Clone(s.Outwork)
	slices.SortStableFunc(out, func(a, b Outwork) int { return cmp.Or(rank(a)-rank(b), a.Due.Compare(b.Due)) })
	return out
}
