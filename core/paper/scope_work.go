package paper

import (
	"fmt"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// work is one table a subsystem: what was found and what will be done with every part.
func (in Input) work(as []area) []Block {
	bs := []Block{Heading{1, "What was found and what will be done"}}
	for _, a := range as {
		bs = append(bs, Heading{2, a.Title})
		if a.Failed {
			bs = append(bs, Notice{"Not assessed", problemsOf(in.Plan, a)})
			continue
		}
		if len(a.Groups) == 0 {
			bs = append(bs, Paragraph{Text: "Nothing of it was recorded."})
			continue
		}
		t := Table{Columns: []Column{{Head: "Part", Share: 3.2}, {Head: "What was found", Share: 3.6}, {Head: "So", Share: 1.5}, {Head: "What will be done", Share: 4.4}}}
		var renewed []string
		for _, g := range a.Groups {
			if g.renewed() {
				renewed = append(renewed, g.Name())
				continue
			}
			t.Rows = append(t.Rows, Row{Cells: []Cell{{Text: g.Name()}, {Text: g.Found(), Note: remark(g)}, {Lead: fate(g.Kind())}, done(g)}})
		}
		bs = append(bs, t)
		if len(renewed) > 0 {
			bs = append(bs, Paragraph{Small: true, Text: "Used once, and always replaced by new: " + sentence(strings.Join(renewed, "; "))})
		}
	}
	return bs
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

// fate is what becomes of a part, as printed.
func fate(k core.RemedyKind) string {
	if w, ok := kindWords[k]; ok {
		return w
	}
	return capital(string(k))
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

// remark is the reason in words where a grade alone does not say it.
func remark(g group) string {
	var out []string
	for _, c := range g.Conditions {
		plain := c.Grade == core.Failed || c.Grade == core.Missing || c.Gauge == nil && c.Grade == core.PastLimit
		if !plain || len(c.Reasons) == 0 {
			continue
		}
		text := plainReason(c.Reasons[0], c.Grade)
		if c.Position != "" && len(g.Conditions) > 1 {
			text = c.Position + ": " + text
		}
		out = append(out, sentence(text))
	}
	return joinSentences(unique(out))
}

// plainReason is a reason without its source and without its grade, which stand elsewhere.
func plainReason(r core.Reason, g core.Grade) string {
	text, _, _ := strings.Cut(r.Text, "; such a part")
	if r.Source != "" {
		text = strings.Replace(text, " ("+r.Source+")", "", 1)
	}
	return strings.TrimSuffix(text, ": "+g.String())
}

// done says what becomes of a group of parts.
func done(g group) Cell {
	c := g.Choices[0]
	cell := Cell{Text: c.Name}
	var notes []string
	switch c.Kind {
	case core.Undecided:
		cell.Text = "Settled when it is seen; money is held for it."
		if len(g.Conditions) > 0 && g.Conditions[0].Grade != core.NotSeen && g.Conditions[0].Grade != core.MeasureAgain {
			cell.Text = "Settled when what it goes with is seen; money is held for it."
		}
		notes = append(notes, outlook(g)...)
	case core.LeftAsIs:
		cell.Text = "Nothing is done to it."
	}
	for i, cond := range g.Conditions {
		if unseen(cond) {
			notes = append(notes, "Safety: not used again unseen.")
			break
		}
		if _, closed := noChoice(cond, g.Choices[min(i, len(g.Choices)-1)]); closed {
			notes = append(notes, "Safety: no choice.")
			break
		}
	}
	if c.Pinned != nil {
		notes = append(notes, fmt.Sprintf("Fixed by %s: %s", c.Pinned.By, sentence(c.Pinned.Reason)))
	}
	cell.Note = joinSentences(notes)
	return cell
}

// outlook are the ways that an undecided part may go, as its reasons say them after those of its condition.
func outlook(g group) []string {
	var texts []string
	at := map[string][]string{}
	for i, c := range g.Choices {
		known := 0
		if i < len(g.Conditions) {
			known = len(g.Conditions[i].Reasons)
		}
		var ways []string
		for _, r := range c.Reasons[min(known, len(c.Reasons)):] {
			ways = append(ways, r.Text)
		}
		if w := strings.Join(ways, "; "); w != "" {
			if at[w] == nil {
				texts = append(texts, w)
			}
			at[w] = append(at[w], c.Position)
		}
	}
	for i, w := range texts {
		if len(texts) > 1 {
			w = positions(at[w]) + ": " + w
		}
		texts[i] = sentence(w)
	}
	return texts
}

func joinSentences(ss []string) string {
	out := ""
	for _, s := range ss {
		if out != "" {
			out += " "
		}
		out += s
	}
	return out
}

// notDone lists what is left or declined, each with a line for initials.
func (in Input) notDone() []Block {
	var items []string
	trailer := false
	for _, c := range in.Plan.Choices {
		if c.Kind != core.LeftAsIs {
			continue
		}
		s := named(partName(c), c.Position) + ": left as it is, not done"
		for _, l := range in.Plan.Job.Left {
			if l.Place == c.Place {
				s += fmt.Sprintf(" (%s: %s)", l.By, l.Reason)
			}
		}
		items = append(items, sentence(s))
		trailer = trailer || byPlace(in.Plan.Conditions)[c.Place].SafetyCritical
	}
	for _, d := range in.Declined {
		items = append(items, sentence("Declined: "+d.Text))
		trailer = trailer || d.Safety
	}
	bs := []Block{Heading{1, "What will not be done"}}
	if len(items) == 0 {
		return append(bs, Paragraph{Text: "Nothing within this job is left or declined. " + in.extent()})
	}
	bs = append(bs, Paragraph{Text: "Each line needs the signer's initials."}, Initials{items})
	if trailer {
		bs = append(bs, Notice{"On a trailer only", []string{"A safety item is left or declined. The vehicle leaves on a trailer and is not released to the road."}})
	}
	return bs
}
