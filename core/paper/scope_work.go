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
	cell := Cell{Lead: kindWords[c.Kind], Text: c.Name}
	if cell.Lead == "" {
		cell.Lead = capital(string(c.Kind))
	}
	var notes []string
	switch c.Kind {
	case core.Undecided:
		cell.Text = "Settled when it is seen; money is held for it below."
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
		so := kindWords[ch.Kind]
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

// named is a part's name with its position: "Crankpin P2", "Gear pair (third)".
func named(name, at string) string { return capital(name) + position(at) }

// position follows a part's name; a position that is a word, not a mark, stands in brackets.
func position(p string) string {
	switch {
	case p == "":
		return ""
	case strings.ContainsAny(p, "0123456789") || len(p) < 4:
		return " " + p
	}
	return " (" + p + ")"
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

// notInspected lists each part that was not seen, the money held back for it and when it will be known.
func (in Input) notInspected() []Block {
	bs := []Block{Heading{1, "Not inspected"}}
	if len(in.Plan.NotSeen) == 0 {
		return append(bs, Paragraph{Text: "Every part of this job that a reading was needed for has been seen."})
	}
	t := Table{Columns: []Column{{Head: "Part", Share: 4}, {Head: "Readings", Right: true}, {Head: "When it will be known", Share: 5}, {Head: "Held for it", Right: true}}}
	var held []core.Money
	last := ""
	for _, u := range in.unseenRows() {
		if u.title != last {
			t.Rows, last = append(t.Rows, Row{Group: true, Cells: []Cell{{Text: u.title}}}), u.title
		}
		t.Rows = append(t.Rows, Row{Cells: []Cell{{Text: u.members.Name()}, {Text: u.readings}, {Text: u.known}, {Text: amount(u.held)}}})
	}
	for _, n := range in.Plan.NotSeen {
		held = append(held, n.Reserve)
	}
	t.Rows = append(t.Rows, Row{Sum: true, Cells: []Cell{{Text: "Held for what was not inspected"}, {}, {}, {Text: amount(sum(in.code(), held...))}}})
	return append(bs, Paragraph{Text: "Not inspected is not the same as sound. The money held is the chance times the cost of what each may turn out to need; it is inside the expected price."}, t)
}

// unseenRow is a part that was not seen, with its positions where nothing differs between them.
type unseenRow struct {
	members  group
	title    string
	readings string
	missing  string // the checks still to be read
	known    string // when it will be known
	held     core.Money
}

func (in Input) unseenRows() []unseenRow {
	var out []unseenRow
	choices := map[core.Place]core.RemedyKind{}
	for _, c := range in.Plan.Choices {
		choices[c.Place] = c.Kind
	}
	for _, n := range in.Plan.NotSeen {
		u := unseenRow{title: title(in.Plan, n.Subsystem, n.Unit), readings: fmt.Sprintf("%d of %d", n.Taken, n.Needed), missing: in.checkNames(n), known: in.known(n), held: n.Reserve}
		if k := choices[n.Place]; core.Minor(n.Reserve) == 0 && (k == core.Rebuild || k == core.Replace) {
			u.known = "Not waited for: " + strings.ToLower(kindWords[k]) + " is chosen whatever it shows"
		}
		k := len(out)
		if k == 0 || !out[k-1].takes(u) || out[k-1].members.Part != n.Part {
			u.members = group{Part: n.Part, PartName: n.PartName}
			out = append(out, u)
			k++
		}
		out[k-1].members.Choices = append(out[k-1].members.Choices, core.Choice{Place: n.Place})
	}
	return out
}

// takes says that another row differs in its position alone, and holds no money that would have to be told apart.
func (u unseenRow) takes(o unseenRow) bool {
	return u.title == o.title && u.readings == o.readings && u.missing == o.missing && u.known == o.known && core.Minor(u.held) == 0 && core.Minor(o.held) == 0
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
