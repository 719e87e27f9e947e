package paper

import (
	"fmt"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// price lists every line with how it is charged, then the totals and the tax.
func (in Input) price(as []area) []Block {
	t := Table{Columns: []Column{{Head: "What", Share: 5}, {Head: "Charged", Share: 2}, {Head: "Range", Right: true}, {Head: "Expected", Right: true}}}
	if rows := in.accessRows(); len(rows) > 0 {
		t.Rows = append(t.Rows, Row{Group: true, Cells: []Cell{{Text: "Coming apart and going back together, each step done once for all that needs it"}}})
		t.Rows = append(t.Rows, rows...)
	}
	for _, a := range as {
		if len(a.Lines) == 0 {
			continue
		}
		t.Rows = append(t.Rows, Row{Group: true, Cells: []Cell{{Text: a.Title}}})
		for _, l := range a.Lines {
			t.Rows = append(t.Rows, priceRow(l))
		}
	}
	for i, l := range in.otherLines() {
		if i == 0 {
			t.Rows = append(t.Rows, Row{Group: true, Cells: []Cell{{Text: "Other"}}})
		}
		t.Rows = append(t.Rows, priceRow(l))
	}
	t.Rows = append(t.Rows, in.sums()...)
	bs := []Block{Heading{1, "What it will cost"}}
	if ps := in.unpriced(as); len(ps) > 0 {
		bs = append(bs, Notice{"Not in the price, or not certain", ps})
	}
	return append(bs,
		Paragraph{Text: "The amounts are expected amounts: what the line costs on average over many such jobs. " +
			"The range of a line is its low and its high, rounded to 5. " + in.rates()},
		t,
		Paragraph{Small: true, Text: "Fixed: the amount is charged whatever it takes. Time used: hours are charged as worked, goods and outwork as paid. " +
			"Held back: charged only if it turns out to be needed, and then up to the sum named; what is not needed is not charged."})
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

// accessRows are the steps, each with its opening and its closing together; the work order has them apart.
func (in Input) accessRows() []Row {
	var steps []core.Line
	for _, l := range in.Plan.WorkOrder.Lines {
		if l.Kind != core.LineStrip && l.Kind != core.LineRefit {
			continue
		}
		i := 0
		for ; i < len(steps); i++ {
			if s := steps[i]; s.Kind != l.Kind && stepKey(s) == stepKey(l) {
				break
			}
		}
		if i == len(steps) {
			steps = append(steps, l)
			continue
		}
		steps[i] = together(steps[i], l)
	}
	var rows []Row
	for _, s := range steps {
		rows = append(rows, priceRow(s))
	}
	return rows
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

// otherLines are work and reserves of no subsystem.
func (in Input) otherLines() []core.Line {
	var ls []core.Line
	for _, l := range in.Plan.WorkOrder.Lines {
		if l.Subsystem == "" && (l.Kind == core.LineWork || l.Kind == core.LineReserve) {
			ls = append(ls, l)
		}
	}
	return ls
}

func priceRow(l core.Line) Row {
	what := Cell{Text: lineName(l)}
	if l.Shared > 1 && l.Kind == core.LineWork {
		what.Note = fmt.Sprintf("Done once for %d parts.", l.Shared)
	}
	reach := span(l.Low, l.High)
	if l.Kind == core.LineReserve {
		reach = upTo(l.High)
	}
	return Row{Cells: []Cell{what, {Text: charged(l)}, {Text: reach}, {Text: amount(l.Amount)}}}
}

// lineName tells opening from closing where a step gives its name to both.
func lineName(l core.Line) string {
	name := bare(l.Name)
	switch l.Kind {
	case core.LineStrip:
		return capital(name)
	case core.LineRefit:
		return "Put back: " + name
	case both:
		return capital(name) + ", and back"
	}
	return capital(name)
}

// bare is a line's name without the word for its kind.
func bare(name string) string {
	for _, p := range []string{"Strip: ", "Refit: ", "Reserve: "} {
		name = strings.TrimPrefix(name, p)
	}
	return name
}

// charged says how a line comes to be paid.
func charged(l core.Line) string {
	switch {
	case l.Kind == core.LineReserve && l.Chance != nil:
		return "held back, chance " + percent(*l.Chance)
	case l.Kind == core.LineReserve:
		return "held back"
	case core.Minor(l.Low) == core.Minor(l.High):
		return "fixed"
	case l.Hours != (core.Range3{}):
		return "time used"
	}
	return "at cost"
}

// sums are the totals before and with tax; tax by class and rate.
func (in Input) sums() []Row {
	o := in.Plan.WorkOrder
	total := func(text string, m core.Money) Row {
		return Row{Sum: true, Cells: []Cell{{Text: text}, {}, {}, {Text: amount(m)}}}
	}
	rows := []Row{total("Total before tax", o.TotalBeforeTax)}
	for _, x := range o.Taxes {
		name := x.Name
		if name == "" {
			name = "Tax"
		}
		rows = append(rows, Row{Cells: []Cell{{Text: fmt.Sprintf("%s on %s", name, x.Class)}, {Text: x.Percent + "%"}, {Text: "of " + amount(x.Base)}, {Text: amount(x.Tax)}}})
	}
	if len(o.Taxes) != 1 {
		rows = append(rows, total("Tax", o.Tax))
	}
	return append(rows, total("Total with tax", o.Total))
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
	b, o := in.Plan.Budget, in.Plan.WorkOrder
	bs := []Block{Heading{1, "How sure the figure is"},
		Paragraph{Text: "Before tax, all lines together. The curve says how likely it is that the job stays within a sum. " +
			"It is drawn from many trials of this job, not from adding the highest or the lowest figures."}}
	if len(b.Curve) > 1 {
		bs = append(bs, Curve{Points: b.Curve, Label: "Cost before tax, " + in.code(),
			Marks: []CurveMark{{"P50", b.P50, .5}, {"P80", b.P80, .8}}})
	}
	facts := []Fact{
		{"Expected, before tax", amount(b.Expected)},
		{"Range, before tax", span(b.P10, b.P90) + " (one chance in ten below, one in ten above)"},
		{"As likely over as under (P50)", toFive(b.P50)},
		{"Four chances in five within (P80)", toFive(b.P80)},
		{"Contingency", amount(b.Contingency) + ": P80 less expected; apart from the price, drawn only by a change note"},
		{"Resting on typical prices", fmt.Sprintf("%s, %s of the total before tax: nobody has been asked for these prices yet", amount(o.Typical), percent(ratio(o.Typical, o.TotalBeforeTax)))},
	}
	if old := in.oldPrices(); len(old) > 0 {
		facts = append(facts, Fact{"Old prices", fmt.Sprintf("More than %d days old, to be asked again before ordering: %s", core.PriceOldDays, and(old))})
	}
	if len(b.Widest) > 0 {
		var ws []string
		for _, w := range b.Widest[:min(3, len(b.Widest))] {
			ws = append(ws, fmt.Sprintf("%s (%s)", bare(w.Name), percent(w.Share)))
		}
		facts = append(facts, Fact{"What widens it most", and(ws)})
	}
	return append(bs, Facts{facts})
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

// ownersChoices are the parts where another way is open, and what it would cost more.
func (in Input) ownersChoices(as []area) []Block {
	t := Table{Columns: []Column{{Head: "Part", Share: 3}, {Head: "Chosen", Share: 4}, {Head: "Open to the owner instead", Share: 4}, {Head: "Costs more", Right: true}}}
	var pinned []string
	var costs []core.Money
	for _, a := range as {
		for _, g := range a.Groups {
			c := g.Choices[0]
			if c.Pinned != nil {
				pinned = append(pinned, fmt.Sprintf("%s, fixed by %s: %s", g.Name(), c.Pinned.By, sentence(c.Name)))
				if c.PinCosts != nil {
					costs = append(costs, *c.PinCosts)
				}
			}
			for _, r := range runnersUp(g) {
				t.Rows = append(t.Rows, Row{Cells: []Cell{{Text: r.parts}, {Text: c.Name}, {Text: r.name}, {Text: amount(r.more)}}})
			}
		}
	}
	if len(t.Rows) == 0 && len(pinned) == 0 {
		return nil
	}
	bs := []Block{Heading{1, "The owner's choices"},
		Paragraph{Text: "What is chosen is the cheapest sound way, with the risk of having to do it again counted in. Another way is open for these; tell the shop before signing. Parts within the new limit that are used again are not listed."}}
	if len(t.Rows) > 0 {
		bs = append(bs, t)
	}
	if len(pinned) > 0 {
		bs = append(bs, List{pinned})
	}
	if len(costs) > 0 {
		// The plan prices all that is fixed together and says the sum at each.
		bs = append(bs, Paragraph{Text: fmt.Sprintf("What is fixed costs %s more, all together, than the cheapest sound way without it.", amount(costs[0]))})
	}
	return bs
}

type runnerUp struct {
	parts, name string
	more        core.Money
}

// runnersUp gathers the members of a group that have the same next best way at the same price.
func runnersUp(g group) []runnerUp {
	var out []runnerUp
	var members []group
	for k, c := range g.Choices {
		sound := k < len(g.Conditions) && g.Conditions[k].Grade == core.WithinNew && c.Kind == core.Reuse
		if c.RunnerUp == nil || sound || core.Minor(c.RunnerUp.CostsMore) == 0 { // at the same money it is the shop's to choose
			continue
		}
		i := 0
		for ; i < len(out); i++ {
			if out[i].name == c.RunnerUp.Name && core.Minor(out[i].more) == core.Minor(c.RunnerUp.CostsMore) {
				break
			}
		}
		if i == len(out) {
			out = append(out, runnerUp{name: c.RunnerUp.Name, more: c.RunnerUp.CostsMore})
			members = append(members, group{PartName: g.PartName})
		}
		members[i].Choices = append(members[i].Choices, c)
		out[i].parts = members[i].Name()
	}
	return out
}
