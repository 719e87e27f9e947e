package paper

import (
	"fmt"

	"github.com/fettle-tools/fettle/core"
)

// learned says what of the shop's closed jobs is in the figures, with the counts behind it; nothing where no job was closed.
func (in Input) learned() []Block {
	l := in.Plan.Learned
	if l == nil {
		return nil
	}
	bs := []Block{Heading{2, "What closed jobs have taught"}, Paragraph{Small: true, Text: labourRatio(*l.Ratio) +
		" It is in the range and the contingency; the hours of the lines are the usual ones."}}
	t := Table{Compact: true, Columns: []Column{{Head: "What may turn out", Share: 6}, {Head: "Usual", Right: true}, {Head: "Here", Right: true}, {Head: "Seen", Share: 4}}}
	for _, r := range l.OpenRows() {
		t.Rows = append(t.Rows, Row{Cells: []Cell{{Text: r.Name}, {Text: percent(r.Sheet)}, {Text: percent(r.Here)},
			{Text: fmt.Sprintf("on %d of %s in %s", r.Happened, countOf(r.Seen, "unit"), countOf(r.Jobs, "job"))}}})
	}
	if len(t.Rows) > 0 {
		bs = append(bs, t, Paragraph{Small: true, Text: "These chances are before what is known of this vehicle's life and before what it has shown. What it has settled already is left out."})
	}
	return bs
}

// labourRatio tells how hours have turned out against what was expected.
func labourRatio(r core.RatioLearned) string {
	s := "No closed job has hours to go by yet: the labour ratio, actual over expected hours, is the usual 1."
	if r.Jobs > 0 {
		s = fmt.Sprintf("Labour ratio, actual over expected hours: %s from %s.", number(r.Median, 2), countOf(r.Jobs, "closed job"))
		if r.None > 0 {
			s += fmt.Sprintf(" %s more had no hours to go by.", countOf(r.None, "job"))
		}
	}
	return s
}

func countOf(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
