package paper

import (
	"fmt"

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
		t := Table{Columns: []Column{{Head: "Part", Share: 3}, {Head: "What was found", Share: 4}, {Head: "What will be done", Share: 5}}}
		for _, g := range a.Groups {
			t.Rows = append(t.Rows, Row{Cells: []Cell{{Text: g.Name()}, {Text: g.Found(), Note: remark(g)}, done(g)}})
		}
		bs = append(bs, t)
	}
	return bs
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
		text := c.Reasons[0].Text
		if c.Position != "" && len(g.Conditions) > 1 {
			text = c.Position + ": " + text
		}
		out = append(out, sentence(text))
	}
	return joinSentences(unique(out))
}

// done says what becomes of a group of parts.
func done(g group) Cell {
	c := g.Choices[0]
	cell := Cell{Lead: kindWords[c.Kind], Text: c.Name}
	if cell.Lead == "" {
		cell.Lead = capital(string(c.Kind))
	}
	var notes []string
	switch c.Kind {
	case core.Undecided:
		cell.Text = "Settled when it is seen; money is held for it below."
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

// closed lists the safety reasons that leave no choice.
func (in Input) closed(as []area) []Block {
	t := Table{Columns: []Column{{Head: "Part", Share: 3}, {Head: "Why it may not go back as it is", Share: 6}, {Head: "So", Share: 3}}}
	for _, a := range as {
		for _, g := range a.Groups {
			for i, c := range g.Conditions {
				ch := g.Choices[min(i, len(g.Choices)-1)]
				why, closed := noChoice(c, ch)
				if !closed {
					continue
				}
				name := capital(c.PartName) + position(c.Position)
				so := kindWords[ch.Kind]
				if unseen(c) && ch.Kind == core.Undecided {
					so = "Seen first, then decided"
				}
				t.Rows = append(t.Rows, Row{Cells: []Cell{{Text: name}, {Text: sentence(why)}, {Text: so}}})
			}
		}
	}
	if len(t.Rows) == 0 {
		return nil
	}
	return []Block{Heading{1, "Where safety leaves no choice"},
		Paragraph{Text: "The shop will not fit these parts again as they are. No price and no wish of the owner or the shop opens them again."}, t}
}

func position(p string) string {
	if p == "" {
		return ""
	}
	return " " + p
}

// notDone lists what is left or declined, each with a line for initials.
func (in Input) notDone() []Block {
	var items []string
	trailer := false
	for _, c := range in.Plan.Choices {
		if c.Kind != core.LeftAsIs {
			continue
		}
		s := capital(partName(c)) + position(c.Position) + ": left as it is, not done"
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

// notInspected lists each part that was not seen, the money held back for it and when it will be known.
func (in Input) notInspected() []Block {
	bs := []Block{Heading{1, "Not inspected"}}
	if len(in.Plan.NotSeen) == 0 {
		return append(bs, Paragraph{Text: "Every part of this job that a reading was needed for has been seen."})
	}
	t := Table{Columns: []Column{{Head: "Part", Share: 4}, {Head: "Readings", Right: true}, {Head: "When it will be known", Share: 5}, {Head: "Held for it", Right: true}}}
	var held []core.Money
	for _, n := range in.Plan.NotSeen {
		t.Rows = append(t.Rows, Row{Cells: []Cell{{Text: capital(n.PartName) + position(n.Position), Note: title(in.Plan, n.Subsystem, n.Unit)},
			{Text: fmt.Sprintf("%d of %d", n.Taken, n.Needed)}, {Text: in.known(n)}, {Text: amount(n.Reserve)}}})
		held = append(held, n.Reserve)
	}
	t.Rows = append(t.Rows, Row{Sum: true, Cells: []Cell{{Text: "Held for what was not inspected"}, {}, {}, {Text: amount(sum(in.code(), held...))}}})
	return append(bs, Paragraph{Text: "Not inspected is not the same as sound. The money held is the chance times the cost of what each may turn out to need; it is inside the expected price."}, t)
}

// known says when a part that was not seen will be.
func (in Input) known(n core.NotSeenItem) string {
	for _, s := range in.Plan.Sheets {
		if s.Subsystem != n.Subsystem || s.Unit != n.Unit {
			continue
		}
		p := s.Sheet.Part(n.Part)
		if p == nil {
			continue
		}
		for i := len(p.Reach) - 1; i >= 0; i-- {
			if st, ok := in.step(p.Reach[i]); ok && !st.Done {
				return "After this step: " + st.Name
			}
		}
	}
	return "When the readings are taken on the bench, before anything for it is ordered"
}

func (in Input) step(id string) (core.PlannedStep, bool) {
	for _, s := range in.Plan.Steps {
		if s.ID == id {
			return s, true
		}
	}
	return core.PlannedStep{}, false
}

// code is the job's currency.
func (in Input) code() string { return in.Plan.WorkOrder.TotalBeforeTax.CurrencyCode() }
