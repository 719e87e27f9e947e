package paper

import (
	"fmt"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// NotAuthorised is printed wherever an order could be placed from, until a recorded agreement covers the lines.
const NotAuthorised = "NOT AUTHORISED"

// WorkOrder is what the shop works from: what is not known first, then the steps, the work, the goods, the sums and why.
func WorkOrder(in Input) Document {
	d := in.document("Work order")
	in.Authorised = in.Authorised && !in.altered()
	if !in.Authorised {
		d.Mark = NotAuthorised
	}
	as := areas(in.Plan)
	d.Blocks = append(d.Blocks, in.letterhead(d.Title))
	for _, section := range [][]Block{
		in.unknown(as), in.authority(), in.steps(), in.operations(as), in.buying(), in.outwork(), in.reserves(),
		in.finalCheck(), in.orderSums(), in.why(as), in.cautions(), in.shopSign(),
	} {
		d.Blocks = append(d.Blocks, section...)
	}
	return d
}

// unknown stands at the top: what was not seen, what was not assessed, and what is wrong with the data.
func (in Input) unknown(as []area) []Block {
	bs := []Block{Heading{1, "Not seen and not assessed"},
		Paragraph{Small: true, Text: "All amounts on this paper are in " + in.code() + ", expected amounts before tax unless it is said otherwise."}}
	var failed []string
	for _, a := range as {
		if a.Failed {
			failed = append(failed, a.Title+" is not assessed. "+strings.Join(problemsOf(in.Plan, a), " "))
		}
	}
	if len(failed) > 0 {
		bs = append(bs, Notice{"Not assessed", failed})
	}
	if len(in.Plan.NotSeen) == 0 {
		bs = append(bs, Paragraph{Text: "Every part that a reading was needed for has been seen."})
	} else {
		t := Table{Columns: []Column{{Head: "Part", Share: 4}, {Head: "Read", Right: true}, {Head: "Still to read", Share: 5}, {Head: "Held", Right: true}}}
		last := ""
		for _, u := range in.unseenRows() {
			if u.title != last {
				t.Rows, last = append(t.Rows, Row{Group: true, Cells: []Cell{{Text: u.title}}}), u.title
			}
			t.Rows = append(t.Rows, Row{Cells: []Cell{{Text: u.members.Name()}, {Text: u.readings}, {Text: u.missing}, {Text: amount(u.held)}}})
		}
		bs = append(bs, t)
	}
	if ps := problems(in.Plan, as); len(ps) > 0 {
		bs = append(bs, Heading{2, "To be put right"}, List{ps})
	}
	return bs
}

// checkNames are the checks still to be read, in the sheet's words.
func (in Input) checkNames(n core.NotSeenItem) string {
	return capital(strings.Join(unique(in.checkWords(n.Place, n.Checks)), ", "))
}

// checkWords turns ids of checks into the sheet's words; what is words already stays.
func (in Input) checkWords(p core.Place, ids []string) []string {
	var names []string
	for _, id := range ids {
		name := id
		if !strings.Contains(id, " ") {
			name = strings.ReplaceAll(id, "-", " ")
		}
		for _, s := range in.Plan.Sheets {
			if s.Subsystem != p.Subsystem || s.Unit != p.Unit {
				continue
			}
			if c := s.Sheet.Check(p.Part, id); c != nil {
				name = c.Name
			}
		}
		names = append(names, name)
	}
	return names
}

// problems in the data, the gravest first, each once with the parts it is about and what to do. Those of a subsystem
// that is not assessed are told there.
func problems(p core.Plan, as []area) []string {
	var order []core.Problem
	parts := map[[2]string][]string{}
	for _, sev := range []core.Severity{core.SeverityError, core.SeverityWarning} {
		for _, pr := range p.Problems {
			if pr.Severity != sev || failedArea(as, pr) {
				continue
			}
			k := [2]string{pr.Summary, pr.Next}
			if _, told := parts[k]; !told {
				order, parts[k] = append(order, pr), nil
			}
			if pr.Target.Part != "" {
				parts[k] = append(parts[k], strings.ReplaceAll(pr.Target.Part, "-", " ")+position(pr.Target.Position))
			}
		}
	}
	var out []string
	for _, pr := range order {
		s := ""
		if at := unique(parts[[2]string{pr.Summary, pr.Next}]); len(at) > 6 {
			s = capital(strings.Join(at[:6], ", ")) + fmt.Sprintf(" and %d more: ", len(at)-6)
		} else if len(at) > 0 {
			s = capital(and(at)) + ": "
		}
		s = sentence(s + pr.Summary)
		if pr.Next != "" {
			s += " Next: " + sentence(pr.Next)
		}
		out = append(out, s)
	}
	return out
}

// failedArea says that a problem belongs to a subsystem that is not assessed.
func failedArea(as []area, p core.Problem) bool {
	for _, a := range as {
		if a.Failed && a.Subsystem == p.Subsystem && (a.Unit == p.Unit || p.Unit == "") {
			return true
		}
	}
	return false
}

// authority says whether anything may be ordered or sent.
func (in Input) authority() []Block {
	if in.Authorised {
		return []Block{Notice{"Authorised", []string{"A recorded agreement covers these lines. Anything beyond them needs a change note first."}}}
	}
	if in.altered() {
		return []Block{Notice{NotAuthorised, []string{"A mark looks altered. Nothing is ordered, sent out or started until the owner has been told in writing and the mark is cleared."}}}
	}
	return []Block{Notice{NotAuthorised, []string{"No recorded agreement covers these lines yet. Nothing is ordered, sent out or started beyond what the owner has agreed to."}}}
}

// operations is the work by subsystem: hours, amounts, goods and outwork.
func (in Input) operations(as []area) []Block {
	bs := []Block{Heading{1, "Work"}}
	for _, a := range as {
		t := operationTable()
		for _, l := range a.Lines {
			if l.Kind == core.LineWork {
				t.Rows = append(t.Rows, in.operationRow(l))
			}
		}
		if len(t.Rows) > 0 {
			bs = append(bs, Heading{2, a.Title}, in.fates(a), t)
		}
	}
	other := operationTable()
	for _, l := range in.otherLines() {
		if l.Kind == core.LineWork {
			other.Rows = append(other.Rows, in.operationRow(l))
		}
	}
	if len(other.Rows) > 0 {
		bs = append(bs, Heading{2, "Other work"}, other)
	}
	if len(bs) == 1 {
		bs = append(bs, Paragraph{Text: "No work is planned."})
	}
	return bs
}

func operationTable() Table {
	return Table{Columns: []Column{{Share: .45}, {Head: "Operation", Share: 6}, {Head: "Skill", Share: 2}, {Head: "Hours", Right: true}, {Head: "Range, h", Right: true}, {Head: "Expected", Right: true}}}
}

// fates is one line a kind: which parts are reused, rebuilt, replaced, left, undecided.
func (in Input) fates(a area) Facts {
	var facts []Fact
	for _, k := range []core.RemedyKind{core.Reuse, core.Rebuild, core.Replace, core.LeftAsIs, core.Undecided} {
		var names []string
		for _, g := range a.Groups {
			if g.Kind() == k {
				names = append(names, g.Name())
			}
		}
		if len(names) > 0 {
			facts = append(facts, Fact{fate(k), strings.Join(names, "; ")})
		}
	}
	return Facts{facts}
}

func (in Input) operationRow(l core.Line) Row {
	r := Row{Cells: []Cell{{Box: true}, {Text: capital(l.Name)}, {Text: l.Skill}, {Text: hours(l.Hours)}, {Text: hourRange(l.Hours)}, {Text: amount(l.Amount)}}}
	if places := placesOf(in.Plan, l); places != "" {
		r.Cells[1].Note = "For: " + places
	}
	if l.People > 1 {
		r.Notes = append(r.Notes, number(float64(l.People), 0)+" people needed.")
	}
	if l.Shared > 1 {
		r.Notes = append(r.Notes, fmt.Sprintf("Done once for %d parts.", l.Shared))
	}
	for _, it := range l.Items {
		r.Notes = append(r.Notes, "Item: "+itemText(it))
	}
	lead := weeks(l.LeadWeeks)
	switch {
	case l.Outwork != "" && lead != "":
		r.Notes = append(r.Notes, "Outwork: "+l.Outwork+", "+lead+in.unauthorised())
	case l.Outwork != "":
		r.Notes = append(r.Notes, "Outwork: "+l.Outwork+in.unauthorised())
	case lead != "":
		r.Notes = append(r.Notes, "Wait: "+lead)
	}
	for _, c := range l.Cautions {
		r.Notes = append(r.Notes, "Caution: "+sentence(c.Text))
	}
	return r
}

func (in Input) unauthorised() string {
	if in.Authorised {
		return ""
	}
	return "; " + NotAuthorised
}

func hourRange(r core.Range3) string {
	if r == (core.Range3{}) {
		return ""
	}
	if r.Low == r.High {
		return number(r.Low, 1)
	}
	return number(r.Low, 1) + "–" + number(r.High, 1)
}

// placesOf names the parts that a line serves, runs of positions together.
func placesOf(p core.Plan, l core.Line) string {
	conditions := byPlace(p.Conditions)
	var gs []group
	for _, pl := range l.Places {
		name := strings.ReplaceAll(pl.Part, "-", " ")
		if c, ok := conditions[pl]; ok && c.PartName != "" {
			name = c.PartName
		}
		c := core.Choice{Place: pl, PartName: name}
		if n := len(gs); n > 0 && gs[n-1].Part == pl.Part {
			gs[n-1].Choices = append(gs[n-1].Choices, c)
			continue
		}
		gs = append(gs, group{Part: pl.Part, PartName: name, Choices: []core.Choice{c}})
	}
	var names []string
	for _, g := range gs {
		names = append(names, lower(g.Name()))
	}
	return strings.Join(names, ", ")
}

// itemText is an item with its count, kind, supplier and what is to be known of its price.
func itemText(it core.OrderItem) string {
	s := number(it.Count, 2) + " × " + it.Name
	if it.Kind != "" {
		s += ", " + it.Kind
	}
	if it.Supplier != "" {
		s += ", " + it.Supplier
	}
	if e := amount(it.Each); e != "" {
		s += ", " + e + " each"
	}
	if it.Typical {
		s += " (typical, not asked)"
	}
	if it.Old {
		s += fmt.Sprintf(" (price over %d days old)", core.PriceOldDays)
	}
	if it.OneUse {
		s += ", used once"
	}
	return s
}
