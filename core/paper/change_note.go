package paper

import (
	"fmt"

	"github.com/fettle-tools/fettle/core"
)

// ChangeNote puts to the owner what the agreed scope did not price: what was found, why not before, what can be done, and what each does to the
// sum and the finish. It fails if the job has no such note.
func ChangeNote(in StoryInput, number string) (Document, error) {
	n := in.Story.Note(number)
	if n == nil {
		return Document{}, core.Errorf(core.NotFound, "see: fettle change "+in.Story.Job.Number, "%s has no change note %s", in.Story.Job.Number, number)
	}
	d := in.open("Change note", Fact{"Note", n.ID}, Fact{"Asked", joined(", ", in.day(n.Sent.At), prefixed("by ", n.Sent.By))}, Fact{"Is", n.State})
	d.Blocks = append(d.Blocks, in.noteStands(*n)...)
	for _, id := range n.Surprises {
		if s := in.Story.Surprise(id); s != nil {
			d.Blocks = append(d.Blocks, in.surprise(*s, *n)...)
		}
	}
	d.Blocks = append(d.Blocks, in.noteMoney(*n)...)
	d.Blocks = append(d.Blocks, Paragraph{Small: true, Text: competent + " What was agreed before stays as it is; this note is added to it."})
	if n.State == core.NoteSent {
		d.Blocks = append(d.Blocks, bothSign("I have ticked one answer to each matter of change note "+n.ID+", and authorise the sums beside them, tax included."))
	}
	return d, nil
}

// noteStands says what was answered, by whom and how.
func (in StoryInput) noteStands(n core.Note) []Block {
	switch n.State {
	case core.NoteSent:
		return []Block{Paragraph{Text: "Nothing of this is begun or ordered before it is answered. Sums are more than agreed, tax included; the contingency is held and drawn before tax."}}
	case core.NoteApproved, core.NoteDeclined:
		return []Block{Notice{core.Capital(n.State), []string{sentence(joined(", ", n.Who, n.How, in.minute(n.Closed.At)) + prefixed(": ", n.Why))}}}
	}
	return []Block{Notice{core.Capital(n.State), []string{sentence(joined(", ", in.minute(n.Closed.At)) + prefixed(": ", n.Why))}}}
}

// surprise is one matter with its answers.
func (in StoryInput) surprise(s core.Surprise, n core.Note) []Block {
	title := s.ID
	if s.Subsystem != "" || s.Target.Part != "" {
		title += ": " + lower(targetWords(s.Subsystem, s.Target))
	}
	facts := []Fact{{"Found", sentence(s.Found)}, {"Why not before", sentence(said(s.NotBefore))}}
	if s.Tag != "" {
		facts = append(facts, Fact{"Tag", in.tagWords(s.Tag)})
	}
	if len(s.Photos) > 0 {
		facts = append(facts, Fact{"Pictures", count(len(s.Photos), "picture") + " kept with it"})
	}
	bs := []Block{Heading{1, title}, Facts{facts}}
	if s.Safety {
		bs = append(bs, Notice{"This touches safety", []string{"If it is left undone, the vehicle does not go on the road: it leaves on a trailer, and that is written down."}})
	}
	return append(bs, in.options(s, n))
}

// options lists what can be done, each with its price, time and risk, and what it leaves of the contingency; the one chosen is named.
func (in StoryInput) options(s core.Surprise, n core.Note) Table {
	t := Table{Columns: []Column{{Share: .45}, {Head: "What can be done", Share: 7}, {Head: "More, with tax", Right: true}, {Head: "Weeks more", Right: true}}}
	held := n.State == core.NoteSent && in.Story.Agreed(core.GateBudget) != nil
	if held {
		t.Columns = append(t.Columns, Column{Head: "Contingency left", Right: true})
	}
	chosen, answered := 0, false
	for _, a := range n.Answered {
		if a.Surprise == s.ID {
			chosen, answered = a.Option, true
		}
	}
	for i, o := range s.Options {
		c := Cell{Text: fmt.Sprintf("%d. %s", i+1, o.Do), Note: prefixed("Risk: ", o.Risk)}
		if answered && chosen == i+1 {
			c.Lead = "Chosen"
		}
		r := Row{Cells: []Cell{{Box: !answered}, c, moreWithTax(o), {Text: number(o.Weeks, 1)}}}
		if held {
			r.Cells = append(r.Cells, Cell{Text: amount(in.Story.Would([]core.NoteAnswer{{Surprise: s.ID, Option: i + 1}}).Contingency)})
		}
		t.Rows = append(t.Rows, r)
	}
	none := Cell{Text: "None of these"}
	if answered && chosen == 0 {
		none.Lead = "Chosen"
	}
	t.Rows = append(t.Rows, Row{Cells: []Cell{{Box: !answered}, none}})
	return t
}

// moreWithTax is an option's sum, with what of it is tax.
func moreWithTax(o core.SurpriseOption) Cell {
	c := Cell{Text: noneOr(o.Sum)}
	if core.Minor(o.Tax) != 0 {
		c.Note = "tax in it " + amount(o.Tax)
	}
	return c
}

// noteMoney says what is authorised and held back, and what the answers do to it.
func (in StoryInput) noteMoney(n core.Note) []Block {
	whole, left := in.Story.Contingency()
	code := in.Story.Authorised().CurrencyCode()
	bs := []Block{Heading{1, "What it does to the sum"}}
	if in.Story.Agreed(core.GateBudget) == nil {
		return append(bs, Paragraph{Text: "No main budget is agreed yet, so there is no authorised sum or contingency for this to change."})
	}
	facts := []Fact{{"Authorised now", withCode(in.Story.Authorised()) + " including tax"}, {"Contingency left", withCode(left) + " of " + withCode(whole) + ", before tax"}}
	if n.State != core.NoteSent {
		if len(n.Taken) > 0 {
			var taken []core.Money
			for _, o := range n.Taken {
				taken = append(taken, o.Sum)
			}
			facts = append(facts, Fact{"Of the authorised sum, by this note", withCode(sum(code, taken...)) + " including tax"})
		}
		return append(bs, Facts{facts})
	}
	e := in.Story.Would(in.firstOptions(n))
	return append(bs, Facts{append(facts, Fact{"If each first answer is taken", fmt.Sprintf("%s authorised including tax, %s contingency left before tax, finish %s later", withCode(e.Authorised), withCode(e.Contingency), weeksMore(e.Weeks))})})
}

func weeksMore(w float64) string {
	if w == 1 {
		return "1 week"
	}
	return number(w, 1) + " weeks"
}

// firstOptions answers each matter with the first thing proposed.
func (in StoryInput) firstOptions(n core.Note) []core.NoteAnswer {
	var as []core.NoteAnswer
	for _, id := range n.Surprises {
		as = append(as, core.NoteAnswer{Surprise: id, Option: 1})
	}
	return as
}
