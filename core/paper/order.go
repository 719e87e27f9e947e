package paper

import (
	"fmt"
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// NotAuthorised is printed wherever an order could be placed from, until a recorded agreement covers the lines.
const NotAuthorised = "NOT AUTHORISED"

// WorkOrder is what the shop works from: what is not known first, then the steps in order, a job card a subsystem, the
// goods, the outwork and the sums.
func WorkOrder(in Input) Document {
	d := in.document("Work order")
	in.Authorised = in.Authorised && in.Plan.Job.Altered() == ""
	if !in.Authorised {
		d.Mark = NotAuthorised
	}
	as := areas(in.Plan)
	d.Blocks = append(d.Blocks, in.letterhead(d.Title))
	for _, section := range [][]Block{
		in.unknown(as), in.authority(), in.steps(), in.cards(as), in.buying(), in.outwork(),
		in.finalCheck(), in.orderSums(as), in.otherCautions(), in.shopSign(), in.pictures(),
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
		t := Table{Compact: true, Columns: []Column{{Head: "Part", Share: 4}, {Head: "Read", Right: true}, {Head: "Still to read", Share: 5}, {Head: "Held", Right: true}}}
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
	return core.Capital(strings.Join(unique(in.checkWords(n.Place, n.Checks)), ", "))
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
			s = core.Capital(strings.Join(at[:6], ", ")) + fmt.Sprintf(" and %d more: ", len(at)-6)
		} else if len(at) > 0 {
			s = core.Capital(and(at)) + ": "
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
	if in.Authorised && len(in.NotCovered) > 0 {
		return []Block{Notice{"Authorised, but for " + count(len(in.NotCovered), "line"),
			[]string{"The lines marked " + NotAuthorised + " are not on what was agreed: they need a change note first, and so does anything beyond these lines."}}}
	}
	if in.Authorised {
		return []Block{Notice{"Authorised", []string{"A recorded agreement covers these lines. Anything beyond them needs a change note first."}}}
	}
	if in.Plan.Job.Altered() != "" {
		return []Block{Notice{NotAuthorised, []string{"A mark looks altered. Nothing is ordered, sent out or started until the owner has been told in writing and the mark is cleared."}}}
	}
	return []Block{Notice{NotAuthorised, []string{"No recorded agreement covers these lines yet. Nothing is ordered, sent out or started beyond what the owner has agreed to."}}}
}

// covered says that a recorded agreement covers every one of some lines.
func (in Input) covered(ls ...core.Line) bool {
	return in.Authorised && !slices.ContainsFunc(ls, func(l core.Line) bool { return slices.Contains(in.NotCovered, l.ID) })
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
