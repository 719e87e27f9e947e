package paper

import "github.com/fettle-tools/fettle/core"

// Statement says where the job's money stands on a day: agreed, done, promised, asked, paid, owing, and the hours by task.
func Statement(in StoryInput) Document {
	d := in.open("Progress statement", Fact{"State", in.Story.Job.State})
	d.Blocks = append(d.Blocks, in.moneyStands()...)
	d.Blocks = append(d.Blocks, in.moved()...)
	d.Blocks = append(d.Blocks, in.hoursByTask()...)
	d.Blocks = append(d.Blocks, in.whatIsOut()...)
	if len(in.Story.Purchases) > 0 {
		d.Blocks = append(d.Blocks, Heading{1, "Goods"}, in.purchases(in.Story.Purchases))
	}
	d.Blocks = append(d.Blocks, in.waitsFor()...)
	return d
}

// moneyStands is the account in one table.
func (in StoryInput) moneyStands() []Block {
	a := in.Story.Account()
	t := Table{Columns: []Column{{Head: "", Share: 5}, {Head: "", Share: 6}, {Head: "Sum", Right: true}}}
	add := func(name, note string, m core.Money) {
		t.Rows = append(t.Rows, Row{Cells: []Cell{{Text: name}, {Note: note}, {Text: amount(m)}}})
	}
	total := func(name string, m core.Money) {
		t.Rows = append(t.Rows, Row{Sum: true, Cells: []Cell{{Text: name}, {}, {Text: amount(m)}}})
	}
	group := func(name string) { t.Rows = append(t.Rows, Row{Group: true, Cells: []Cell{{Text: name}}}) }
	group("Agreed, tax included")
	add("Authorised", in.onWhat(), a.Authorised)
	group("Done, before tax")
	add("Work in the shop", number(a.Hours, 2)+" h", a.Labour)
	add("Goods that arrived", "", a.Goods)
	add("Outwork accepted", "", a.Outwork)
	total("Done so far, before tax", a.Done)
	add("Promised", "ordered or out, before tax", a.Promised)
	if core.Minor(a.Exchange) > 0 {
		add("Exchange charges", "held until old units are back", a.Exchange)
	}
	group("Payments, tax included")
	add("Asked for", "", a.Asked)
	add("Paid", "less what was given back", a.Received)
	if core.Minor(a.Owing) < 0 {
		total("Paid ahead", core.MinorMoney(-core.Minor(a.Owing), a.Owing.CurrencyCode()))
	} else {
		total("Owing of what was asked for", a.Owing)
	}
	bs := []Block{Heading{1, "Where the money stands"}, Paragraph{Small: true, Text: "All sums are in " + a.Done.CurrencyCode() + ". What was done is before tax, what was agreed and paid is with tax: the two are not taken one from the other."}, t}
	if whole, left := in.Story.Contingency(); core.Minor(whole) > 0 {
		bs = append(bs, Paragraph{Text: "Of the contingency of " + withCode(whole) + ", " + withCode(left) + " is left, both before tax. It is drawn by change note alone."})
	}
	return bs
}

// onWhat says by whose word the sum is authorised.
func (in StoryInput) onWhat() string {
	a := in.Story.Agreed(core.GateBudget)
	if a == nil {
		a = in.Story.Agreed(core.GateStrip)
	}
	if a == nil {
		return "nobody has agreed to anything yet"
	}
	s := joined(", ", a.Gate, a.Who, a.How, in.day(a.At))
	if n := len(in.Story.Notes); n > 0 {
		s += "; approved change notes are in it"
	}
	return s
}

// moved lists the payments one by one, those with suppliers left out.
func (in StoryInput) moved() []Block {
	t := Table{Columns: []Column{{Head: "Day", Share: 3}, {Head: "", Share: 2}, {Head: "Who", Share: 4}, {Head: "For", Share: 5}, {Head: "Sum", Right: true}}}
	for _, p := range in.Story.Payments {
		switch p.Is {
		case core.PayAsked, core.PayReceived, core.PayRefunded:
			t.Rows = append(t.Rows, Row{Cells: []Cell{{Text: in.day(p.At)}, {Text: p.Is}, {Text: p.Party}, {Text: p.Stage, Note: joined(", ", p.How, p.Note)}, {Text: amount(p.Sum)}}})
		}
	}
	if len(t.Rows) == 0 {
		return []Block{Paragraph{Text: "Nothing was asked for or paid yet."}}
	}
	return []Block{Heading{1, "Asked for and paid"}, t}
}

// expectedHours says what a task was to take: its line of the scope, else the step of the strip plan that it is called by; nil if neither says.
func (in StoryInput) expectedHours(task, line string) *core.Range3 {
	lines, _ := in.agreedLines()
	for _, l := range lines {
		if line != "" && l.ID == line {
			return &l.Hours
		}
	}
	for i := range in.Steps.Steps {
		if s := &in.Steps.Steps[i]; s.Name == task || s.ID == line {
			return &s.StripHours
		}
	}
	return nil
}

// hoursByTask lists the hours with who spent them and what was expected.
func (in StoryInput) hoursByTask() []Block {
	tasks := in.Story.TaskHours(in.expectedHours)
	bs := []Block{Heading{1, "Hours by task"}}
	if len(tasks) == 0 {
		return append(bs, Paragraph{Text: "No hours are written down yet."})
	}
	t := Table{Columns: []Column{{Head: "Task", Share: 6}, {Head: "Who", Share: 4}, {Head: "Hours", Right: true}, {Head: "Expected", Right: true}, {Head: "Charge", Right: true}}}
	total, charge, code := 0.0, []core.Money{}, in.Story.Account().Labour.CurrencyCode()
	for _, k := range tasks {
		var who []string
		for _, p := range k.People {
			s := p.Who
			if len(k.People) > 1 {
				s += " " + number(p.Hours, 2)
			}
			who = append(who, s)
		}
		name, expected := k.Task, "not said"
		if k.Line != "" && k.Task == k.Line {
			name = in.lineName(k.Line)
		}
		if k.Expected != nil {
			expected = hours(*k.Expected)
		}
		t.Rows = append(t.Rows, Row{Cells: []Cell{{Text: core.Capital(name)}, {Text: and(who)}, {Text: number(k.Hours, 2)}, {Text: expected}, {Text: noneOr(k.Labour)}}})
		total, charge = total+k.Hours, append(charge, k.Labour)
	}
	t.Rows = append(t.Rows, Row{Sum: true, Cells: []Cell{{Text: "Together, before tax"}, {}, {Text: number(total, 2)}, {}, {Text: amount(sum(code, charge...))}}})
	return append(bs, t)
}

// noneOr writes a sum, or that there is none.
func noneOr(m core.Money) string {
	if core.Minor(m) == 0 {
		return "none"
	}
	return amount(m)
}

// whatIsOut lists outwork with what became of it.
func (in StoryInput) whatIsOut() []Block {
	if len(in.Story.Outwork) == 0 {
		return nil
	}
	t := Table{Columns: []Column{{Head: "Ticket", Share: 1.6}, {Head: "Work", Share: 5}, {Head: "With", Share: 4}, {Head: "Is", Share: 3.4}, {Head: "Before tax", Right: true}}}
	for _, o := range in.Story.Outwork {
		is, price := Cell{Text: o.State, Note: joined(", ", in.day(o.Back.At), o.Why)}, o.Price
		if o.State == core.OutworkOut {
			is.Note = "promised for " + said(in.day(o.Due))
			if o.Late(in.Date) {
				is.Note += ": late"
			}
		}
		if o.Charged != nil {
			price = *o.Charged
		}
		t.Rows = append(t.Rows, Row{Cells: []Cell{{Lead: o.ID}, {Text: o.Work, Note: and(o.Tags)}, {Text: o.To}, is, {Text: amount(price)}}})
	}
	return []Block{Heading{1, "Outwork"}, t}
}

// waitsFor says what the job waits for.
func (in StoryInput) waitsFor() []Block {
	waits := in.Story.Waits()
	if len(waits) == 0 {
		return nil
	}
	for i := range waits {
		waits[i] = sentence(waits[i])
	}
	return []Block{Heading{1, "What the job waits for"}, List{waits}}
}
