package paper

import (
	"fmt"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// access is taking apart and putting back: each step once, its positions together.
func (in Input) access() []Block {
	work := in.accessBundles()
	if len(work) == 0 {
		return nil
	}
	t := Table{Compact: true, Columns: []Column{{Head: "Step", Share: 1}, {Head: "Hours", Right: true}, {Head: "Range", Right: true}, {Head: "Expected", Right: true}}}
	for _, b := range work {
		t.Rows = append(t.Rows, Row{Cells: []Cell{{Text: b.Title()}, {Text: hours(b.Hours)}, {Text: b.Reach()}, {Text: amount(b.Amount)}}})
	}
	t.Rows = append(t.Rows, Row{Sum: true, Cells: []Cell{{Text: "Taking apart and putting back"}, {}, {}, {Text: amount(amounts(in.code(), work))}}})
	text := "Each step is done once for all that needs it, and charged by the time used."
	if h := in.Plan.WorkOrder.DoneOnce; h > 0 {
		text += fmt.Sprintf(" Doing it all while it is open saves %s hours of stripping against doing each subsystem by itself.", number(h, 1))
	}
	if h := in.Plan.StripSpent; h > 0 {
		text += fmt.Sprintf(" %s hours of it are done already, under their own agreement; they are in none of these sums.", number(h, 1))
	}
	return []Block{Heading{1, "Taking apart and putting back"}, Paragraph{Text: text}, t}
}

// accessBundles are the steps, each with its opening and its closing together; the work order has them apart.
func (in Input) accessBundles() []bundle {
	var steps []core.Line
	for _, l := range in.Plan.WorkOrder.Lines {
		if l.Kind != core.LineStrip && l.Kind != core.LineRefit {
			continue
		}
		i := 0
		for ; i < len(steps); i++ {
			if s := steps[i]; s.Kind != l.Kind && s.Kind != both && stepKey(s) == stepKey(l) {
				break
			}
		}
		if i == len(steps) {
			steps = append(steps, l)
			continue
		}
		steps[i] = together(steps[i], l)
	}
	return bundles(steps)
}

// stepKey is what the opening and the closing of one step have in common.
func stepKey(l core.Line) string {
	if _, key, ok := strings.Cut(l.ID, ":"); ok {
		return key
	}
	return l.Unit + "/" + l.Name
}

// both is the kind of a step's opening and closing added up for reading.
const both core.LineKind = "strip and refit"

// together adds the closing of a step to its opening.
func together(a, b core.Line) core.Line {
	code := a.Amount.CurrencyCode()
	a.Kind = both
	a.Low, a.High, a.Amount = sum(code, a.Low, b.Low), sum(code, a.High, b.High), sum(code, a.Amount, b.Amount)
	a.Hours, a.Shared = a.Hours.Add(b.Hours), max(a.Shared, b.Shared)
	return a
}
