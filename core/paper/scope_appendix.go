package paper

import (
	"fmt"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// appendix holds the numbers: the readings with their limits, the photographs, the choices and the budget in figures.
func (in Input) appendix(as []area) []Block {
	bs := []Block{Break{}, Heading{1, "Appendix: readings and limits"},
		Paragraph{Small: true, Text: "Each bar runs from new, at its left end, to the wear limit; past the limit it is hatched. The tick is the reading, " +
			"the whisker its uncertainty. " + practiceMeans}}
	for _, a := range as {
		if rows := in.readings(a); len(rows) > 0 {
			bs = append(bs, Heading{2, a.Title})
			bs = append(bs, rows...)
		}
	}
	bs = append(append(bs, in.pictures()...), in.otherWays(as)...)
	bs = append(append(append(bs, in.figures()...), in.learned()...), in.moreCautions()...)
	return bs
}

// otherWays is every choice in figures: the next best way, and the price at which the choice would turn. Of parts that are fit
// and used again the sums alone are told.
func (in Input) otherWays(as []area) []Block {
	t := Table{Compact: true, Columns: []Column{{Head: "Part", Share: 5}, {Head: "Next best way", Share: 6}, {Head: "Costs more", Right: true}, {Head: "Turns at", Right: true}}}
	for _, a := range as {
		rows := []Row{{Group: true, Cells: []Cell{{Text: a.Title}}}}
		var again []string
		for _, g := range a.Groups {
			fit, rest := sortedFit(g)
			for _, w := range otherWaysOf(rest) {
				rows = append(rows, Row{Cells: []Cell{{Text: w.members.Name()}, {Text: w.name, Note: w.turns}, {Text: reach(w.low, w.high)}, {Text: reach(w.flipLow, w.flipHigh)}}})
			}
			for _, w := range otherWaysOf(fit) {
				again = append(again, w.inShort())
			}
		}
		if len(again) > 0 {
			rows = append(rows, Row{Notes: []string{"Used again; otherwise it costs more: " + sentence(strings.Join(again, "; "))}})
		}
		if len(rows) > 1 {
			t.Rows = append(t.Rows, rows...)
		}
	}
	if len(t.Rows) == 0 {
		return nil
	}
	return []Block{Heading{2, "The choices in figures"},
		Paragraph{Small: true, Text: "Costs more: against what is chosen, with the risk of having to do it again counted in. Turns at: the price of the dearest piece of work at which another way would be chosen."}, t}
}

// sortedFit parts the members of a group that are fit and used again from the others.
func sortedFit(g group) (fit, rest group) {
	fit = group{Part: g.Part, PartName: g.PartName, All: g.All}
	rest = fit
	conditions := byPlace(g.Conditions)
	for _, ch := range g.Choices {
		if c, known := conditions[ch.Place]; known && isFit(c, ch) {
			fit.Choices = append(fit.Choices, ch)
			continue
		}
		rest.Choices = append(rest.Choices, ch)
	}
	return fit, rest
}

// inShort is a way in one phrase: the parts and what it costs more.
func (w otherWay) inShort() string {
	s := lower(w.members.Name())
	if more := reach(w.low, w.high); more != "" {
		s += " " + more
	}
	if at := reach(w.flipLow, w.flipHigh); at != "" {
		s += ", turns at " + at
	}
	return s
}

// figures are the budget's own numbers, unrounded, for whoever wants to check.
func (in Input) figures() []Block {
	b := in.Plan.Budget
	t := Table{Compact: true, Columns: []Column{{Head: "Figure, before tax", Share: 5}, {Head: "Amount", Right: true}, {Head: "Standard error", Right: true}}}
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
	if in.Plan.Proof.OfRisk {
		row("What the choice risks in doing things again", in.Plan.Proof.Value, -1)
		row("No choice within what may be spent risks less than", in.Plan.Proof.Bound, -1)
	} else {
		row("The choice with its risk counted in", in.Plan.Proof.Value, -1)
		row("No choice is cheaper than", in.Plan.Proof.Bound, -1)
	}
	row("Mean of the trials", b.Mean, -1)
	row("Standard deviation of the trials", b.SD, -1)
	return []Block{Heading{2, "The budget's figures"}, t,
		Paragraph{Small: true, Text: fmt.Sprintf("%s trials, seed %d: the same plan gives the same figures. Failures to come are costed one by one, which errs on the high side.", thousands(float64(b.Trials)), b.Seed)}}
}

// practiceMeans explains the word that sourceWords puts for a source that is none.
const practiceMeans = "Where the source says practice, the limit is common practice without a published source, and a rule of thumb."

// sourceWords shortens the source that is none; the paper says once what the word means.
func sourceWords(s string) string {
	return strings.ReplaceAll(s, "common practice, no source", "practice")
}
