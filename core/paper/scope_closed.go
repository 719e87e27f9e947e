package paper

import "github.com/fettle-tools/fettle/core"

// closed lists the safety reasons that leave no choice.
func (in Input) closed(as []area) []Block {
	t := Table{Columns: []Column{{Head: "Part", Share: 3}, {Head: "Why it may not go back as it is", Share: 6}, {Head: "So", Share: 3}}}
	for _, a := range as {
		for _, g := range a.Groups {
			for _, c := range in.closedIn(g) {
				t.Rows = append(t.Rows, Row{Cells: []Cell{{Text: c.members.Name()}, {Text: sentence(c.why)}, {Text: c.so}}})
			}
		}
	}
	if len(t.Rows) == 0 {
		return nil
	}
	return []Block{Heading{1, "Where safety leaves no choice"},
		Paragraph{Text: "The shop will not fit these parts again as they are. No price and no wish of the owner or the shop opens them again."}, t}
}

// closedRow is one reason and the members of a group that it closes reuse for.
type closedRow struct {
	members group
	why, so string
}

func (in Input) closedIn(g group) []closedRow {
	var out []closedRow
	for i, c := range g.Conditions {
		ch := g.Choices[min(i, len(g.Choices)-1)]
		why, closed := noChoice(c, ch)
		if !closed {
			continue
		}
		so := fate(ch.Kind)
		if unseen(c) {
			if names := and(unique(in.checkWords(c.Place, c.ChecksNotRead))); names != "" {
				why = "not read: " + names
			}
			if ch.Kind == core.Undecided {
				so = "Seen first, then decided"
			}
		}
		n := len(out)
		if n == 0 || out[n-1].why != why || out[n-1].so != so {
			out = append(out, closedRow{members: group{PartName: g.PartName}, why: why, so: so})
			n++
		}
		out[n-1].members.Choices = append(out[n-1].members.Choices, ch)
	}
	return out
}
