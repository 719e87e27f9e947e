package paper

import (
	"fmt"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// work is the work by subsystem: a line for each piece of it, with what it is for and why, hours and money.
func (in Input) work(as []area) []Block {
	bs := []Block{Heading{1, "What will be done, and why"},
		Paragraph{Text: "Amounts are expected amounts before tax, hours expected man-hours. A range is what the line may come to, rounded to 5. " +
			"A line is charged by the time used, goods and outwork as paid, unless it says fixed. The readings behind it stand in the appendix."}}
	for _, a := range as {
		bs = append(bs, Heading{2, a.Title})
		switch {
		case a.Failed:
			bs = append(bs, Notice{"Not assessed", problemsOf(in.Plan, a)})
		case len(a.Groups) == 0 && len(a.Lines) == 0:
			bs = append(bs, Paragraph{Text: "Nothing of it was recorded."})
		default:
			bs = append(bs, in.workOf(a)...)
		}
	}
	if ls := in.otherLines(core.LineWork); len(ls) > 0 {
		bs = append(bs, Heading{2, "Other work"}, in.workTable(area{Title: "Other work"}, bundles(ls)))
	}
	return bs
}

func (in Input) workOf(a area) []Block {
	var bs []Block
	if work := bundles(a.lines(core.LineWork)); len(work) > 0 {
		bs = append(bs, in.workTable(a, work))
	}
	for _, s := range []struct{ lead, text string }{
		{"Comes with the work above", in.comesWith(a)}, {"Always renewed, used once", namesOf(a.of(in.renewedWithout(a)))},
		{"Found fit, cleaned and used again", counted(a.of(isFit))}, {"Used again though near its limit or not seen", in.withReasons(a.of(isNear))},
		{"Fixed, with its reason", pinned(a)},
	} {
		if s.text != "" {
			bs = append(bs, Paragraph{Small: true, Text: s.lead + ": " + sentence(s.text)})
		}
	}
	return bs
}

func (in Input) workTable(a area, work []bundle) Table {
	t := Table{Compact: true, Columns: []Column{{Head: "What, and why", Share: 1}, {Head: "Hours", Right: true}, {Head: "Range", Right: true}, {Head: "Expected", Right: true}}}
	for _, b := range work {
		t.Rows = append(t.Rows, Row{Cells: []Cell{{Text: b.Title()}, {Text: hours(b.Hours)}, {Text: b.Reach()}, {Text: amount(b.Amount)}}, Notes: unique([]string{in.reasons(a, b.Places())})})
	}
	t.Rows = append(t.Rows, Row{Sum: true, Cells: []Cell{{Text: a.Title}, {}, {}, {Text: amount(amounts(in.code(), work))}}})
	return t
}

// reasons says for the parts that a piece of work serves what becomes of them and how they were found.
func (in Input) reasons(a area, places []core.Place) string {
	gs := a.at(places)
	var out []string
	for _, k := range []struct {
		kind core.RemedyKind
		word string
	}{{core.Replace, "New"}, {core.Rebuild, "Rebuilt"}, {core.Reuse, "Used again"}, {core.LeftAsIs, "Left"}} {
		var of, once []group
		for _, g := range gs {
			switch {
			case g.Kind() != k.kind:
			case g.renewed():
				once = append(once, g)
			default:
				of = append(of, g)
			}
		}
		if len(of) > 0 {
			out = append(out, k.word+": "+sentence(lower(in.withReasons(of))))
		}
		if len(once) > 0 {
			out = append(out, "Always renewed: "+sentence(lower(namesOf(once))))
		}
	}
	return strings.Join(out, " ")
}

// withReasons lists parts, each with how it was found in brackets; neighbours that were found alike share theirs.
func (in Input) withReasons(gs []group) string {
	var out []string
	for i := 0; i < len(gs); {
		why := in.findings(gs[i])
		names := []string{gs[i].Spoken()}
		j := i + 1
		for ; j < len(gs) && in.findings(gs[j]) == why; j++ {
			names = append(names, lower(gs[j].Spoken()))
		}
		i = j
		s := strings.Join(names, "; ")
		if n := len(names); n > 1 {
			s = strings.Join(names[:n-1], "; ") + " and " + names[n-1]
		}
		if why != "" {
			s += " (" + why + ")"
		}
		if len(out) > 0 {
			s = lower(s)
		}
		out = append(out, s)
	}
	return strings.Join(out, "; ")
}

// comesWith are the parts renewed or rebuilt that have no line of their own: another line does it.
func (in Input) comesWith(a area) string {
	served := a.served()
	var out []string
	for _, k := range []struct {
		kind core.RemedyKind
		word string
	}{{core.Replace, "new"}, {core.Rebuild, "rebuilt"}} {
		gs := a.of(func(c core.UnitCondition, ch core.Choice) bool {
			return ch.Kind == k.kind && !served[ch.Place] && !isRenewed(c, ch)
		})
		if len(gs) > 0 {
			out = append(out, k.word+": "+lower(in.withReasons(gs)))
		}
	}
	return strings.Join(out, "; ")
}

// served are the parts that a line of work names.
func (a area) served() map[core.Place]bool {
	served := map[core.Place]bool{}
	for _, l := range a.lines(core.LineWork) {
		for _, p := range l.Places {
			served[p] = true
		}
	}
	return served
}

// renewedWithout asks for parts that are used once and that no line of work names.
func (in Input) renewedWithout(a area) func(core.UnitCondition, core.Choice) bool {
	served := a.served()
	return func(c core.UnitCondition, ch core.Choice) bool { return isRenewed(c, ch) && !served[ch.Place] }
}

// namesOf lists parts.
func namesOf(gs []group) string {
	var names []string
	for i, g := range gs {
		n := g.Spoken()
		if i > 0 {
			n = lower(n)
		}
		names = append(names, n)
	}
	return strings.Join(names, "; ")
}

// counted lists parts by name alone after their number, each position counted by itself.
func counted(gs []group) string {
	all, of := 0, map[string]int{}
	var names []string
	for _, g := range gs {
		if of[g.PartName] == 0 {
			names = append(names, g.PartName)
		}
		of[g.PartName] += len(g.Choices)
		all += len(g.Choices)
	}
	if all == 0 {
		return ""
	}
	for i, n := range names {
		names[i] = lower(n)
		if k := of[n]; k > 1 {
			names[i] = fmt.Sprintf("%s (%d)", plural(lower(n)), k)
		}
	}
	return fmt.Sprintf("%d; %s", all, strings.Join(names, ", "))
}

// pinned are the remedies that somebody fixed, with the reason.
func pinned(a area) string {
	var out []string
	for _, g := range a.Groups {
		if c := g.Choices[0]; c.Pinned != nil {
			out = append(out, fmt.Sprintf("%s, fixed by %s: %s", g.Spoken(), c.Pinned.By, strings.TrimSuffix(c.Pinned.Reason, ".")))
		}
	}
	return strings.Join(out, "; ")
}

// renewed says that nothing of the group was judged: its parts are used once and new ones are fitted.
func (g group) renewed() bool {
	for _, c := range g.Conditions {
		if c.Grade != core.GradeNone {
			return false
		}
	}
	return len(g.Conditions) > 0 && g.Kind() == core.Replace && g.Choices[0].Pinned == nil
}

func isRenewed(c core.UnitCondition, ch core.Choice) bool {
	return c.Grade == core.GradeNone && ch.Kind == core.Replace && ch.Pinned == nil && c.Part != ""
}

// isFit: nothing to show but that the part may be used again, and it is.
func isFit(c core.UnitCondition, ch core.Choice) bool {
	return ch.Kind == core.Reuse && c.Grade <= core.WornFit
}

// isNear: used again, and not far from its limit or not seen whole.
func isNear(c core.UnitCondition, ch core.Choice) bool {
	return ch.Kind == core.Reuse && c.Grade > core.WornFit
}

// fate is what becomes of a part, as printed.
func fate(k core.RemedyKind) string {
	if w, ok := kindWords[k]; ok {
		return w
	}
	return core.Capital(string(k))
}

// problemsOf lists what stood in the way of assessing a subsystem.
func problemsOf(p core.Plan, a area) []string {
	var out []string
	for _, pr := range p.Problems {
		if pr.Subsystem == a.Subsystem && (pr.Unit == a.Unit || pr.Unit == "") && pr.Severity == core.SeverityError {
			out = append(out, sentence(pr.Summary))
		}
	}
	if len(out) == 0 {
		out = []string{"No assessment could be made of it; its readings are kept."}
	}
	return append(unique(out), "No price below covers it.")
}

// plainReason is a reason without its source and without its grade, which stand elsewhere.
func plainReason(r core.Reason, g core.Grade) string {
	text, _, _ := strings.Cut(r.Text, "; such a part")
	if r.Source != "" {
		text = strings.Replace(text, " ("+r.Source+")", "", 1)
	}
	return strings.TrimSuffix(text, ": "+g.String())
}
