package paper

import (
	"fmt"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// price is the money by subsystem, then the totals and the tax. Every figure of it is the total of lines that stand below.
func (in Input) price(as []area) []Block {
	bs := []Block{Heading{1, "What it will cost"}}
	if ps := in.unpriced(as); len(ps) > 0 {
		bs = append(bs, Notice{"Not in the price, or not certain", ps})
	}
	return append(bs,
		Paragraph{Text: "Expected amounts: what the work costs on average over many such jobs. Each is the sum of the lines printed in the sections that follow. " + in.rates()},
		in.shares(as),
		Paragraph{Small: true, Text: "Work is charged by the time used, goods and outwork as paid, unless its line says fixed. " +
			"Held back: charged only if it turns out to be needed, and then up to the sum named at its line; what is not needed is not charged."})
}

// shares is a row a subsystem, with its hours, its work and what is held back for it.
func (in Input) shares(as []area) Table {
	t := Table{Compact: true, Columns: []Column{{Head: "Subsystem", Share: 1}, {Head: "Hours", Right: true}, {Head: "Work", Right: true}, {Head: "Held back", Right: true}, {Head: "Expected", Right: true}}}
	code := in.code()
	row := func(name string, work, held []bundle) {
		if len(work)+len(held) == 0 {
			return
		}
		var h core.Range3
		for _, b := range work {
			h = h.Add(b.Hours)
		}
		w, r := amounts(code, work), amounts(code, held)
		t.Rows = append(t.Rows, Row{Cells: []Cell{{Text: name}, {Text: hours(h)}, {Text: amount(w)}, {Text: amount(r)}, {Text: amount(sum(code, w, r))}}})
	}
	for _, a := range as {
		row(a.Title, bundles(a.lines(core.LineWork)), bundles(a.lines(core.LineReserve)))
	}
	row("Other", bundles(in.otherLines(core.LineWork)), bundles(in.otherLines(core.LineReserve)))
	row("Taking apart and putting back", in.accessBundles(), nil)
	return Table{Compact: true, Columns: t.Columns, Rows: append(t.Rows, in.sums(len(t.Columns))...)}
}

// unpriced are the faults that the price suffers from; those of a subsystem that is not assessed are told with it.
func (in Input) unpriced(as []area) []string {
	var out []string
	for _, p := range in.Plan.Problems {
		if p.Severity == core.SeverityError && !failedArea(as, p) {
			out = append(out, sentence(p.Summary))
		}
	}
	return unique(out)
}

// otherLines are the lines of a kind that are of no subsystem.
func (in Input) otherLines(k core.LineKind) []core.Line {
	var ls []core.Line
	for _, l := range in.Plan.WorkOrder.Lines {
		if l.Subsystem == "" && l.Kind == k {
			ls = append(ls, l)
		}
	}
	return ls
}

// lineName tells opening from closing where a step gives its name to both.
func lineName(l core.Line) string {
	name := bare(l.Name)
	switch l.Kind {
	case core.LineRefit:
		return "Put back: " + name
	case both:
		return core.Capital(name) + ", and back"
	}
	return core.Capital(name)
}

// bare is a line's name without the word for its kind.
func bare(name string) string {
	for _, p := range []string{"Strip: ", "Refit: ", "Reserve: "} {
		name = strings.TrimPrefix(name, p)
	}
	return name
}

// sums are the totals before and with tax in the last of the columns; tax by class and rate.
func (in Input) sums(columns int) []Row {
	o := in.Plan.WorkOrder
	row := func(total bool, text string, m core.Money) Row {
		cells := make([]Cell, columns)
		cells[0].Text, cells[columns-1].Text = text, amount(m)
		return Row{Sum: total, Cells: cells}
	}
	rows := []Row{row(true, "Total before tax", o.TotalBeforeTax)}
	for _, x := range o.Taxes {
		name := x.Name
		if name == "" {
			name = "Tax"
		}
		text := fmt.Sprintf("%s on %s, %s%% of %s", core.Capital(name), x.Class, x.Percent, amount(x.Base))
		if core.Minor(x.Tax) == 0 {
			text = fmt.Sprintf("%s, on %s", core.Capital(name), amount(x.Base))
		}
		rows = append(rows, row(false, text, x.Tax))
	}
	if len(o.Taxes) != 1 {
		rows = append(rows, row(true, "Tax", o.Tax))
	}
	return append(rows, row(true, "Total with tax", o.Total))
}

func (in Input) rates() string {
	if len(in.Rates) == 0 {
		return "The labour rate is not stated on this paper: ask for it before signing."
	}
	var rs []string
	for _, r := range in.Rates {
		rs = append(rs, fmt.Sprintf("%s %s an hour", r.Skill, amount(r.Hour)))
	}
	return "Labour before tax: " + and(rs) + "."
}

// certainty says how sure the total is, and what it rests on.
func (in Input) certainty() []Block {
	b := in.Plan.Budget
	text := "Before tax, all lines together. The curve says how likely it is that the job stays within a sum. " +
		"It is drawn from many trials of this job, not from adding the highest or the lowest figures."
	if len(b.Widest) > 0 {
		var ws []string
		for _, w := range b.Widest[:min(3, len(b.Widest))] {
			ws = append(ws, fmt.Sprintf("%s (%s)", lower(bare(w.Name)), percent(w.Share)))
		}
		text += " What widens it most: " + and(ws) + "."
	}
	bs := []Block{Heading{1, "How sure the figure is"}, Paragraph{Text: text}}
	if c, ok := BudgetCurve(b); ok {
		bs = append(bs, c)
	}
	if old := in.oldPrices(); len(old) > 0 {
		bs = append(bs, Facts{[]Fact{{"Old prices", fmt.Sprintf("More than %d days old, to be asked again before ordering: %s", core.PriceOldDays, and(old))}}})
	}
	return bs
}

// BudgetCurve draws how likely each sum is to be enough. ok is false where nothing was drawn.
func BudgetCurve(b core.Budget) (c Curve, ok bool) {
	return Curve{Points: b.Curve, Label: "Cost before tax, " + b.Expected.CurrencyCode(),
		Marks: []CurveMark{{"P50", b.P50, .5}, {"P80", b.P80, .8}}}, len(b.Curve) > 1
}

// oldPrices names the items whose price is older than core.PriceOldDays.
func (in Input) oldPrices() []string {
	lines := in.Plan.WorkOrder.Lines
	names := itemsWith(lines, func(it core.OrderItem) bool { return it.Old })
	keys := map[string]bool{}
	for _, l := range lines {
		for _, it := range l.Items {
			keys[it.Key] = it.Old
			keys[it.Name] = it.Old
		}
	}
	for _, o := range in.Plan.OldPrices {
		if !keys[o] {
			names = append(names, o)
		}
	}
	return unique(names)
}
