package paper

import (
	"fmt"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// cards are the job cards: for each subsystem its work, what may fall due, and why.
func (in Input) cards(as []area) []Block {
	bs := []Block{Heading{1, "Job cards"}, Paragraph{Small: true, Text: practiceMeans}}
	for _, a := range as {
		card := in.card(a)
		if len(card) == 0 {
			continue
		}
		bs = append(append(bs, Heading{2, a.Title}), card...)
	}
	var other []Block
	if ls := in.otherLines(core.LineWork); len(ls) > 0 {
		other = append(other, in.operations(area{Title: "Other work"}, ls))
	}
	if held := bundles(in.otherLines(core.LineReserve)); len(held) > 0 {
		other = append(other, in.mayFallDue(area{}, held))
	}
	if len(other) > 0 {
		bs = append(append(bs, Heading{2, "Other work"}), other...)
	}
	if len(bs) == 2 {
		bs = append(bs, Paragraph{Text: "No work is planned."})
	}
	return bs
}

func (in Input) card(a area) []Block {
	var bs []Block
	if fates := in.fates(a); fates != "" {
		bs = append(bs, Paragraph{Small: true, Text: fates})
	}
	if ls := a.lines(core.LineWork); len(ls) > 0 {
		bs = append(bs, in.operations(a, ls))
	}
	if held := bundles(a.lines(core.LineReserve)); len(held) > 0 {
		bs = append(bs, in.mayFallDue(a, held))
	}
	if rows := in.because(a); len(rows) > 0 {
		bs = append(bs, Table{Compact: true, Columns: []Column{{Head: "Why", Share: 3}, {Head: "Finding, limit, source", Share: 7.6}, {Head: "So", Share: 1.3}}, Rows: rows})
	}
	if fit := counted(a.of(isFit)); fit != "" {
		bs = append(bs, Paragraph{Small: true, Text: "Found fit, cleaned and used again: " + sentence(fit)})
	}
	return bs
}

// fates counts what becomes of the parts.
func (in Input) fates(a area) string {
	n := map[core.RemedyKind]int{}
	total := 0
	for _, g := range a.Groups {
		n[g.Kind()] += len(g.Choices)
		total += len(g.Choices)
	}
	if total == 0 {
		return ""
	}
	var out []string
	for _, k := range []core.RemedyKind{core.Replace, core.Rebuild, core.Reuse, core.LeftAsIs, core.Undecided} {
		if n[k] > 0 {
			out = append(out, fmt.Sprintf("%s %d", lower(fate(k)), n[k]))
		}
	}
	return count(total, "part") + ", each position by itself: " + strings.Join(out, ", ") + "."
}

// operations is the work, a line to tick each, with what it takes. One piece of work at several positions is one line.
func (in Input) operations(a area, ls []core.Line) Table {
	t := Table{Compact: true, Columns: []Column{{Share: .045}, {Head: "Operation", Share: 1}, {Head: "Skill", Share: .12}, {Head: "Hours", Right: true}, {Head: "Range", Right: true}, {Head: "Expected", Right: true}}}
	work := bundles(ls)
	for _, b := range work {
		t.Rows = append(t.Rows, Row{Cells: []Cell{{Box: true}, {Text: b.Title()}, {Text: b.Lines[0].Skill}, {Text: hours(b.Hours)}, {Text: hourRange(b.Hours)}, {Text: amount(b.Amount)}}, Notes: unique([]string{in.takes(b)})})
	}
	t.Rows = append(t.Rows, Row{Sum: true, Cells: []Cell{{Text: a.Title}, {}, {}, {}, {}, {Text: amount(amounts(in.code(), work))}}})
	return t
}

// takes says what a piece of work is for, and the people, goods, outwork and cautions that it takes. What goods cost stands in the
// list of what to buy.
func (in Input) takes(b bundle) string {
	var notes []string
	l := b.Lines[0]
	l.Places = b.Places()
	add := func(format string, args ...any) { notes = append(notes, sentence(fmt.Sprintf(format, args...))) }
	if in.Authorised && !in.covered(b.Lines...) || l.Outwork != "" && !in.Authorised {
		notes = append(notes, NotAuthorised+".")
	}
	if each := b.Each(); each != "" {
		add("Each: %s", each)
	}
	if places := placesOf(in.Plan, l); places != "" {
		add("For: %s", places)
	}
	if l.People > 1 {
		add("%d people needed", l.People)
	}
	if items := b.Items(); items != "" {
		add("Items: %s", items)
	}
	lead := weeks(l.LeadWeeks)
	switch {
	case l.Outwork != "":
		add("Outwork: %s", strings.Join(unique([]string{l.Outwork, lead}), ", "))
	case l.LeadWeeks.Likely > 0:
		add("Wait: %s", lead)
	}
	return joinSentences(append(notes, b.Cautions()...))
}

func joinSentences(ss []string) string { return strings.Join(ss, " ") }

// mayFallDue are the reserves of a subsystem, those of one piece of work together.
func (in Input) mayFallDue(a area, held []bundle) Table {
	t := Table{Compact: true, Columns: []Column{{Head: "What may fall due", Share: 1}, {Head: "Chance", Right: true}, {Head: "At most", Right: true}, {Head: "Held", Right: true}}}
	for _, b := range held {
		var names []string
		for _, g := range a.at(b.Places()) {
			names = append(names, lower(g.Name()))
		}
		note := ""
		if len(names) > 0 {
			note = "For: " + strings.Join(names, ", ") + "."
		}
		note = joinSentences(unique(append([]string{note}, b.Cautions()...)))
		t.Rows = append(t.Rows, Row{Cells: []Cell{{Text: b.Title()}, {Text: b.Chances()}, {Text: b.Reach()}, {Text: amount(b.Amount)}}, Notes: unique([]string{note})})
	}
	t.Rows = append(t.Rows, Row{Sum: true, Cells: []Cell{{Text: "Held in reserve"}, {}, {}, {Text: amount(amounts(in.code(), held))}}})
	return t
}

// because gives each part that is not simply fit one line: the finding, the limit it is held against, where that comes from and
// what follows. Those not seen stand at the top of the paper.
func (in Input) because(a area) []Row {
	kinds := map[core.Place]core.RemedyKind{}
	for _, g := range a.Groups {
		for _, c := range g.Choices {
			kinds[c.Place] = c.Kind
		}
	}
	shown := func(c core.UnitCondition) bool {
		return c.Grade != core.GradeNone && c.Grade != core.NotSeen && (c.Grade > core.WornFit || kinds[c.Place] != core.Reuse)
	}
	return spots(a.Conditions, in.links(a.Conditions, shown), func(c core.UnitCondition) string { return fate(kinds[c.Place]) })
}

// links says of a condition its finding, its limit and the limit's source, with the rule that fired. Members of a part that were
// read by the same check share one text, with the least and the greatest of their readings.
func (in Input) links(cs []core.UnitCondition, shown func(core.UnitCondition) bool) func(core.UnitCondition) string {
	ranges := rangesOf(cs, shown)
	return func(c core.UnitCondition) string {
		if !shown(c) {
			return ""
		}
		links := []string{found(c)}
		switch {
		case c.Gauge != nil:
			links = []string{c.Gauge.Name + " " + ranges.of(c), limit(*c.Gauge), sourceWords(c.Gauge.Source)}
		case len(c.Reasons) > 0:
			r := c.Reasons[0]
			links = []string{bareReason(r, c.Grade), sourceWords(r.Source)}
			if r.Rule != "" {
				links = append(links, "rule "+r.Rule)
			}
		}
		return core.Capital(strings.Join(unique(links), " → "))
	}
}
