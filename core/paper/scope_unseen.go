package paper

import (
	"fmt"

	"github.com/fettle-tools/fettle/core"
)

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
			u.known = "Not waited for: " + whatever[k]
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

// whatever says what happens to a part that nothing is held for.
var whatever = map[core.RemedyKind]string{core.Rebuild: "rebuilt whatever it shows", core.Replace: "replaced whatever it shows"}

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
