package paper

import (
	"fmt"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// StripAuthority asks leave to take apart, with the first budget beside it and what nobody can know before. It needs the plan.
func StripAuthority(in StoryInput) Document {
	d := in.open("Authority to strip down")
	if in.Story.Agreed(core.GateStrip) == nil {
		d.Mark = NotAuthorised
	}
	d.Blocks = append(d.Blocks, in.stripAgreed()...)
	d.Blocks = append(d.Blocks, in.firstBudget()...)
	d.Blocks = append(d.Blocks, in.apart()...)
	d.Blocks = append(d.Blocks, in.notLookedAt()...)
	d.Blocks = append(d.Blocks, Heading{1, "What taking apart means"}, List{[]string{
		"Some readings can never be taken again once it is apart: they are taken first.",
		"Every piece gets a tag, and the fasteners of each joint go into one bag, counted.",
		"Nothing is thrown away without the owner's written word.",
		"If the job stops after this, what was taken apart is worth less than it was whole, and putting it back is work of its own.",
	}})
	d.Blocks = append(d.Blocks, Heading{1, "Cautions"}, Cautions{in.stepCautions()})
	d.Blocks = append(d.Blocks, bothSign("I authorise the strip-down alone, up to ____________________ including tax; beyond it, ask. Nothing else is agreed by this signature."))
	return d
}

// stripAgreed says who has agreed to the strip-down, or that nobody has.
func (in StoryInput) stripAgreed() []Block {
	a := in.Story.Agreed(core.GateStrip)
	if a == nil {
		return []Block{Notice{NotAuthorised, []string{"Nobody has agreed to the strip-down yet. Nothing is taken apart before."}}}
	}
	return []Block{Notice{"Authorised", []string{sentence(joined(", ", a.Who+bracketed(a.Capacity), a.How, in.minute(a.At), "up to "+withCode(a.Sum)+" including tax") + prefixed(": ", a.Words))}}}
}

func bracketed(s string) string {
	if s == "" {
		return ""
	}
	return " (" + s + ")"
}

// firstBudget is the range the whole job may come to, as far as anybody can say before it is apart.
func (in StoryInput) firstBudget() []Block {
	b := in.Plan.Budget
	bs := []Block{Heading{1, "First budget for the whole job"}}
	if b.P10.CurrencyCode() == "" {
		return append(bs, Paragraph{Text: "No budget could be made yet."})
	}
	return append(bs, Paragraph{Text: "A range, not a price: the work is priced after the inspection, in a scope of its own. All amounts are in " + b.P10.CurrencyCode() + " before tax."},
		Facts{[]Fact{{"One in ten: less than", toFive(b.P10)}, {"Expected", toFive(b.Expected)}, {"Four in five: at most", toFive(b.P80)},
			{"One in ten: more than", toFive(b.P90)}}})
}

// apart lists the steps to come with their hours, what each loses and what it costs to open and close.
func (in StoryInput) apart() []Block {
	t := Table{Columns: []Column{{Head: "Step", Share: 6}, {Head: "People", Right: true}, {Head: "Hours", Right: true}, {Head: "Range", Right: true}}}
	var total core.Range3
	for _, s := range in.Plan.Steps {
		if s.Done || s.StripHours == (core.Range3{}) {
			continue
		}
		r := Row{Cells: []Cell{{Text: core.Capital(s.Name)}, {Text: number(float64(max(s.People, 1)), 0)}, {Text: hours(s.StripHours)}, {Text: hourRange(s.StripHours)}}}
		if len(s.Lost) > 0 {
			r.Notes = append(r.Notes, "Read first, it is lost after: "+strings.NewReplacer("-", " ", "/", ", ").Replace(strings.Join(s.Lost, "; ")))
		}
		total = total.Add(s.StripHours)
		t.Rows = append(t.Rows, r)
	}
	bs := []Block{Heading{1, "What is taken apart"}}
	if len(t.Rows) == 0 {
		return append(bs, Paragraph{Text: "Nothing is left to take apart."})
	}
	t.Rows = append(t.Rows, Row{Sum: true, Cells: []Cell{{Text: "Together"}, {}, {Text: hours(total)}, {Text: hourRange(total)}}})
	var open []core.Money
	for _, l := range in.Plan.WorkOrder.Lines {
		if l.Kind == core.LineStrip {
			open = append(open, l.Amount)
		}
	}
	return append(bs, t, Paragraph{Text: "Taking this apart is expected to cost " + withCode(sum(in.Plan.Budget.Expected.CurrencyCode(), open...)) + " before tax, as far as it is priced. Putting it together again is not in that sum."})
}

// notLookedAt lists what could not be seen before it is apart, with what is held back for it.
func (in StoryInput) notLookedAt() []Block {
	bs := []Block{Heading{1, "Not inspected"}}
	if len(in.Plan.NotSeen) == 0 {
		return append(bs, Paragraph{Text: "Every part that a reading was needed for has been seen."})
	}
	t := Table{Columns: []Column{{Head: "Part", Share: 7}, {Head: "Readings", Right: true}, {Head: "Held", Right: true}}}
	all, title := in.Plan.NotSeen, ""
	var held []core.Money
	for i := 0; i < len(all); {
		j, taken, needed := i, 0, 0
		var at []string
		var one []core.Money
		for ; j < len(all) && all[j].Unit == all[i].Unit && all[j].Subsystem == all[i].Subsystem && all[j].Part == all[i].Part; j++ {
			taken, needed = taken+all[j].Taken, needed+all[j].Needed
			at, one = append(at, all[j].Position), append(one, all[j].Reserve)
		}
		if h := titleOf(in.Plan, all[i].Place); h != title {
			title = h
			t.Rows = append(t.Rows, Row{Group: true, Cells: []Cell{{Text: h}}})
		}
		m := sum(all[i].Reserve.CurrencyCode(), one...)
		t.Rows = append(t.Rows, Row{Cells: []Cell{{Text: strings.TrimSpace(core.Capital(all[i].PartName) + " " + positions(at))}, {Text: fmt.Sprintf("%d of %d", taken, needed)}, {Text: noneOr(m)}}})
		held, i = append(held, m), j
	}
	t.Rows = append(t.Rows, Row{Sum: true, Cells: []Cell{{Text: "Held for what was not inspected"}, {}, {Text: amount(sum(held[0].CurrencyCode(), held...))}}})
	return append(bs, Paragraph{Text: "Not inspected is not the same as sound. What is held is the chance times the cost of what each may turn out to need; it is inside the expected sum."}, t)
}

// titleOf names a subsystem, with its unit where that says more.
func titleOf(p core.Plan, at core.Place) string {
	for _, s := range p.Sheets {
		if s.Subsystem == at.Subsystem && s.Unit == at.Unit && s.Sheet.Title != "" {
			if strings.EqualFold(s.Sheet.Title, at.Unit) {
				return s.Sheet.Title
			}
			return joined(", ", s.Sheet.Title, at.Unit)
		}
	}
	return lineOf(core.Line{Subsystem: at.Subsystem, Unit: at.Unit})
}

// stepCautions are those of the steps to come, each once, after the one that always holds.
func (in StoryInput) stepCautions() []string {
	items := []string{competent}
	for _, s := range in.Plan.Steps {
		for _, c := range s.Cautions {
			if !s.Done {
				items = append(items, sentence(c.Text))
			}
		}
	}
	return unique(items)
}
