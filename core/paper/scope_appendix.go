package paper

import (
	"fmt"

	"github.com/fettle-tools/fettle/core"
)

// longPaper is the number of parts over which the appendix leaves out what was found fit: it stands in the tables before.
const longPaper = 300

func (in Input) long() bool { return len(in.Plan.Conditions) > longPaper }

// fit reports whether a condition has nothing to show but that the part may be used again.
func fit(c core.UnitCondition) bool { return c.Grade == core.WithinNew || c.Grade == core.WornFit }

// appendix holds the numbers: each part's condition with its gauge, and the figures of the budget.
func (in Input) appendix(as []area) []Block {
	bs := []Block{Heading{1, "Appendix: readings and limits"},
		Paragraph{Small: true, Text: "Each bar runs from new, at its left end, to the wear limit; past the limit it is hatched. The tick is the reading, " +
			"the whisker its uncertainty. An empty outline was not seen. A limit whose source is common practice is a rule of thumb."}}
	if in.long() {
		bs = append(bs, Paragraph{Small: true, Text: "Parts found within new, or worn and fit, are not listed again here: they stand under what was found."})
	}
	for _, a := range as {
		if rows := in.gaugeRows(a); len(rows) > 0 {
			bs = append(bs, Heading{2, a.Title}, Gauges{rows})
		}
	}
	return append(append(bs, in.otherWays(as)...), in.figures()...)
}

// otherWays is every choice in figures: the next best way, and the price at which the choice would turn.
func (in Input) otherWays(as []area) []Block {
	t := Table{Columns: []Column{{Head: "Part", Share: 4}, {Head: "Next best way", Share: 5}, {Head: "Costs more", Right: true}, {Head: "Turns at", Right: true}}}
	for _, a := range as {
		group := Row{Group: true, Cells: []Cell{{Text: a.Title}}}
		for _, g := range a.Groups {
			for _, c := range g.Choices {
				if c.RunnerUp == nil && c.FlipPrice == nil || in.long() && c.Kind == core.Reuse {
					continue
				}
				r := Row{Cells: []Cell{{Text: named(partName(c), c.Position)}, {}, {}, {}}}
				if c.RunnerUp != nil {
					r.Cells[1].Text, r.Cells[2].Text = c.RunnerUp.Name, amount(c.RunnerUp.CostsMore)
				}
				if c.FlipPrice != nil {
					r.Cells[1].Note, r.Cells[3].Text = "Turns on the price of: "+c.FlipOn, amount(*c.FlipPrice)
				}
				if group.Group {
					t.Rows, group = append(t.Rows, group), Row{}
				}
				t.Rows = append(t.Rows, r)
			}
		}
	}
	if len(t.Rows) == 0 {
		return nil
	}
	return []Block{Heading{2, "The choices in figures"},
		Paragraph{Small: true, Text: "Costs more: against what is chosen, with the risk of having to do it again counted in. Turns at: the price of the dearest piece of work at which another way would be chosen."}, t}
}

// gaugeRows is a row for each condition; those without a bar that say the same of one part stand together. What is
// always renewed has no reading to show.
func (in Input) gaugeRows(a area) []GaugeRow {
	var rows []GaugeRow
	var last group
	for _, c := range a.Conditions {
		if c.Grade == core.GradeNone || in.long() && fit(c) {
			continue
		}
		r := in.gaugeRow(c)
		n := len(rows)
		if n == 0 || !rows[n-1].same(r) || last.Part != c.Part {
			last = group{Part: c.Part, PartName: c.PartName}
			rows = append(rows, r)
			n++
		}
		last.Choices = append(last.Choices, core.Choice{Place: c.Place})
		rows[n-1].Part = last.Name()
	}
	return rows
}

func (in Input) gaugeRow(c core.UnitCondition) GaugeRow {
	r := GaugeRow{Check: in.governing(c), Gauge: c.Gauge, Grade: capital(found(c)),
		Unseen: c.Grade == core.NotSeen || c.ReadingsTaken == 0 && c.Gauge == nil && c.ReadingsNeeded > 0}
	switch {
	case c.Gauge != nil:
		r.Check, r.Note = c.Gauge.Name, c.Gauge.Source
	case c.Grade == core.NotSeen && len(c.ChecksNotRead) > 0:
	case len(c.Reasons) > 0:
		r.Note = sourced(c.Reasons[0])
	}
	return r
}

// same says that two rows without a bar differ in their part alone.
func (r GaugeRow) same(o GaugeRow) bool {
	return r.Gauge == nil && o.Gauge == nil && r.Check == o.Check && r.Grade == o.Grade && r.Note == o.Note && r.Unseen == o.Unseen
}

// governing is the check that governs, or those that were not read, in words.
func (in Input) governing(c core.UnitCondition) string {
	ids := []string{c.GoverningCheck}
	if c.Grade == core.NotSeen && len(c.ChecksNotRead) > 0 {
		ids = c.ChecksNotRead
	}
	return and(unique(in.checkWords(c.Place, ids)))
}

// figures are the budget's own numbers, unrounded, for whoever wants to check.
func (in Input) figures() []Block {
	b := in.Plan.Budget
	t := Table{Columns: []Column{{Head: "Figure, before tax", Share: 5}, {Head: "Amount", Right: true}, {Head: "Standard error", Right: true}}}
	row := func(name string, m core.Money, i int) {
		if m.CurrencyCode() == "" {
			return
		}
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
	row("The choice with its risk counted in", in.Plan.Proof.Value, -1)
	row("No choice is cheaper than", in.Plan.Proof.Bound, -1)
	row("Mean of the trials", b.Mean, -1)
	row("Standard deviation of the trials", b.SD, -1)
	return []Block{Heading{2, "The budget's figures"}, t,
		Paragraph{Small: true, Text: fmt.Sprintf("%s trials, seed %d: the same plan gives the same figures. Failures to come are costed one by one, which errs on the high side.", thousands(float64(b.Trials)), b.Seed)}}
}
