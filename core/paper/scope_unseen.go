package paper

import (
	"fmt"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// onTheBench is when a part is known whose last step is done.
const onTheBench = "when the readings are taken on the bench"

// notInspected lists by subsystem what was not seen or is not settled, what each may turn out to need and the money held for it.
func (in Input) notInspected(as []area) []Block {
	bs := []Block{Heading{1, "Not seen, and money held back"}}
	t := Table{Compact: true, Columns: []Column{{Head: "What may be needed, and for what", Share: 1}, {Head: "Chance", Right: true}, {Head: "At most", Right: true}, {Head: "Held back", Right: true}}}
	for _, a := range as {
		t.Rows = append(t.Rows, in.heldFor(a)...)
	}
	if others := bundles(in.otherLines(core.LineReserve)); len(others) > 0 {
		t.Rows = append(t.Rows, Row{Group: true, Cells: []Cell{{Text: "Other"}, {}, {}, {Text: amount(amounts(in.code(), others))}}})
		for _, b := range others {
			t.Rows = append(t.Rows, in.heldRow(area{}, b))
		}
	}
	seen := ""
	if len(in.Plan.NotSeen) == 0 {
		seen = "Every part of this job that a reading was needed for has been seen. "
	}
	if len(t.Rows) == 0 {
		return append(bs, Paragraph{Text: seen + "Nothing is held back."})
	}
	t.Rows = append(t.Rows, Row{Sum: true, Cells: []Cell{{Text: "Held back, all together"}, {}, {}, {Text: amount(in.held())}}})
	return append(bs, Paragraph{Text: seen + "Not inspected is not the same as sound. What is held is the chance times the cost of what each part may turn out to need; it is inside the expected price. " +
		"Unless another moment is named, it will be known " + onTheBench + ", before anything for it is ordered."}, t)
}

// heldFor are the rows of one subsystem.
func (in Input) heldFor(a area) []Row {
	held := bundles(a.lines(core.LineReserve))
	rows := []Row{{Group: true, Cells: []Cell{{Text: a.Title}, {}, {}, {Text: amount(amounts(in.code(), held))}}}}
	served := map[core.Place]bool{}
	for _, b := range held {
		rows = append(rows, in.heldRow(a, b))
		for _, p := range b.Places() {
			served[p] = true
		}
	}
	unseen := in.unseenPlaces()
	for _, s := range []struct {
		text string
		of   func(core.UnitCondition, core.Choice) bool
	}{
		{"Not seen, and renewed or rebuilt whatever they show", func(_ core.UnitCondition, ch core.Choice) bool {
			return unseen[ch.Place] && (ch.Kind == core.Rebuild || ch.Kind == core.Replace)
		}},
		{"Settled when they are seen, with the work above", func(_ core.UnitCondition, ch core.Choice) bool {
			return ch.Kind == core.Undecided && !served[ch.Place]
		}},
		{"Not seen, with nothing held for them", func(_ core.UnitCondition, ch core.Choice) bool {
			return unseen[ch.Place] && !served[ch.Place] && (ch.Kind == core.Reuse || ch.Kind == core.LeftAsIs)
		}},
	} {
		if gs := a.of(s.of); len(gs) > 0 {
			rows = append(rows, Row{Notes: []string{s.text + ": " + sentence(lower(namesOf(gs)))}})
		}
	}
	if len(rows) == 1 {
		return nil
	}
	return rows
}

// heldRow is what may be needed, for which parts, and when that will be known.
func (in Input) heldRow(a area, b bundle) Row {
	places := b.Places()
	unseen := in.unseenPlaces()
	var notes []string
	if gs := a.at(places); len(gs) > 0 && len(b.At) == len(places) && len(gs) == 1 { // the positions stand in the title
		name := core.Capital(gs[0].PartName)
		if len(b.At) > 1 {
			name = plural(name)
		}
		notes = append(notes, sentence(strings.Join(unique([]string{name, in.findings(gs[0])}), ": ")))
	} else if len(gs) > 0 {
		notes = append(notes, sentence(in.withReasons(gs)))
	}
	var when []string
	for _, p := range places {
		if unseen[p] {
			when = append(when, in.known(p))
		}
	}
	if when = unique(when); len(when) > 0 && (len(when) > 1 || when[0] != onTheBench) {
		notes = append(notes, "Known "+and(when)+".")
	}
	return Row{Cells: []Cell{{Text: b.Title()}, {Text: b.Chances()}, {Text: b.Reach()}, {Text: amount(b.Amount)}}, Notes: unique([]string{strings.Join(notes, " ")})}
}

func (in Input) unseenPlaces() map[core.Place]bool {
	out := make(map[core.Place]bool, len(in.Plan.NotSeen))
	for _, n := range in.Plan.NotSeen {
		out[n.Place] = true
	}
	return out
}

// known says when a part that was not seen will be.
func (in Input) known(at core.Place) string {
	for _, s := range in.Plan.Sheets {
		if s.Subsystem != at.Subsystem || s.Unit != at.Unit {
			continue
		}
		p := s.Sheet.Part(at.Part)
		if p == nil {
			continue
		}
		for i := len(p.Reach) - 1; i >= 0; i-- {
			if st, ok := in.step(p.Reach[i]); ok && !st.Done {
				return "after this step: " + lower(st.Name)
			}
		}
	}
	return onTheBench
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

// unseenRow is a part that was not seen, with its positions where the same readings are missing.
type unseenRow struct {
	members  group
	title    string
	readings string
	missing  string // the checks still to be read
	held     core.Money
}

func (in Input) unseenRows() []unseenRow {
	var out []unseenRow
	for _, n := range in.Plan.NotSeen {
		u := unseenRow{title: title(in.Plan, n.Subsystem, n.Unit), readings: fmt.Sprintf("%d of %d", n.Taken, n.Needed), missing: in.checkNames(n), held: n.Reserve}
		k := len(out)
		if k == 0 || out[k-1].title != u.title || out[k-1].members.Part != n.Part || out[k-1].readings != u.readings || out[k-1].missing != u.missing {
			u.members = group{Part: n.Part, PartName: n.PartName}
			u.held = sum(in.code())
			out = append(out, u)
			k++
		}
		out[k-1].members.Choices = append(out[k-1].members.Choices, core.Choice{Place: n.Place})
		out[k-1].held = sum(in.code(), out[k-1].held, n.Reserve)
	}
	return out
}
