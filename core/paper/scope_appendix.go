package paper

import (
	"fmt"

	"github.com/fettle-tools/fettle/core"
)

// appendix holds the numbers: each part's condition with its gauge, and the figures of the budget.
func (in Input) appendix(as []area) []Block {
	bs := []Block{Heading{1, "Appendix: readings and limits"},
		Paragraph{Small: true, Text: "Each bar runs from new, at its left end, to the wear limit; past the limit it is hatched. The tick is the reading, " +
			"the whisker how far the instrument may be out. An empty outline was not seen. A limit whose source is common practice is a rule of thumb."}}
	for _, a := range as {
		if len(a.Conditions) == 0 {
			continue
		}
		bs = append(bs, Heading{2, a.Title}, Gauges{gaugeRows(a)})
	}
	return append(bs, in.figures()...)
}

func gaugeRows(a area) []GaugeRow {
	var rows []GaugeRow
	for _, c := range a.Conditions {
		r := GaugeRow{Part: capital(c.PartName) + position(c.Position), Gauge: c.Gauge, Grade: capital(found(c)), Unseen: c.Grade == core.NotSeen || c.ReadingsTaken == 0 && c.Gauge == nil && c.ReadingsNeeded > 0}
		if c.Gauge != nil {
			r.Check, r.Note = c.Gauge.Name, c.Gauge.Source
		} else {
			r.Check = checkName(a, c)
			if len(c.Reasons) > 0 {
				r.Note = sourced(c.Reasons[0])
			}
		}
		rows = append(rows, r)
	}
	return rows
}

// checkName is the governing check in words; its id where the plan has no other.
func checkName(a area, c core.UnitCondition) string {
	if c.Grade == core.NotSeen && len(c.ChecksNotRead) > 0 {
		return and(spaced(c.ChecksNotRead))
	}
	return and(spaced(unique([]string{c.GoverningCheck})))
}

// figures are the budget's own numbers, unrounded, for whoever wants to check.
func (in Input) figures() []Block {
	b := in.Plan.Budget
	t := Table{Columns: []Column{{Head: "Figure, before tax", Share: 5}, {Head: "Amount", Right: true}, {Head: "Standard error", Right: true}}}
	row := func(name string, m core.Money, i int) {
		c := []Cell{{Text: name}, {Text: amount(m)}}
		if i >= 0 && i < len(b.StandardErrors) {
			c = append(c, Cell{Text: amount(b.StandardErrors[i])})
		}
		t.Rows = append(t.Rows, Row{Cells: c})
	}
	row("P10: nine in ten cost more", b.P10, 0)
	row("P50: as many over as under", b.P50, 1)
	row("P80: four in five cost no more", b.P80, 2)
	row("P90: nine in ten cost no more", b.P90, 3)
	row("Expected: the sum of the lines", b.Expected, -1)
	row("Contingency: P80 less expected", b.Contingency, -1)
	row("Sum of the likelies: named, never used as the price", b.SumOfLikelies, -1)
	row("P80 over the sum of the likelies", b.OverLikelies, -1)
	row("Mean of the trials", b.Mean, -1)
	row("Standard deviation of the trials", b.SD, -1)
	return []Block{Heading{2, "The budget's figures"}, t,
		Paragraph{Small: true, Text: fmt.Sprintf("%d trials, seed %d: the same plan gives the same figures. Failures to come are costed one by one, which errs on the high side.", b.Trials, b.Seed)}}
}
