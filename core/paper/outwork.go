package paper

import (
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// OutworkTicket goes with the pieces: what goes as a set, what is asked of each, the price and the day. It fails if the job has no such outwork.
func OutworkTicket(in StoryInput, number string) (Document, error) {
	o := in.Story.Sent(number)
	if o == nil {
		return Document{}, core.Errorf(core.NotFound, "see: fettle send "+in.Story.Job.Number, "%s has no outwork %s", in.Story.Job.Number, number)
	}
	d := in.open("Outwork ticket", Fact{"Ticket", o.ID}, Fact{"To", o.To}, Fact{"Sent", in.day(o.Sent.At)})
	head := d.Blocks[0].(Letterhead)
	head.Facts = slices.DeleteFunc(head.Facts, func(f Fact) bool { return f.Name == "Owner" }) // is no business of an outworker's
	d.Blocks[0] = head
	for _, l := range o.Lines {
		if in.Story.Covered(l) != nil {
			d.Mark = NotAuthorised
		}
	}
	if d.Mark != "" {
		d.Blocks = append(d.Blocks, Notice{NotAuthorised, []string{"No recorded agreement covers this work. Do not begin it."}})
	}
	d.Blocks = append(d.Blocks, Facts{in.ticketFacts(*o)}, in.set(*o))
	d.Blocks = append(d.Blocks, in.asked(*o)...)
	d.Blocks = append(d.Blocks, Notice{"Please", []string{
		"The pieces are one set: keep them together, and send them back together.",
		"Send the size back in writing, as measured, for each piece. It is measured again here before it goes on the shelf.",
		"Ask before anything beyond this ticket, and before a piece is ground, bored or machined to any other size.",
		"Leave the tags on. Do not blast or stamp over a number.",
	}})
	d.Blocks = append(d.Blocks, in.cameBack(*o)...)
	if o.Back.At.IsZero() {
		d.Blocks = append(d.Blocks, Signature{Statement: "Taken over, complete as listed.", Signers: []Signer{{"Outworker", []string{"Name", "Signature", "Date"}}, {"For the shop", []string{"Name", "Signature", "Date"}}}})
	}
	return d, nil
}

func (in StoryInput) ticketFacts(o core.Outwork) []Fact {
	facts := []Fact{{"Work", core.Capital(said(o.Work))}, {"Price", ticketPrice(o)}, {"Promised for", said(in.day(o.Due))}, {"Parts supplied by", said(o.Parts)}}
	for _, p := range in.Story.Parties {
		if strings.EqualFold(p.Name, o.To) {
			if at := joined(", ", append(append([]string{}, p.Address...), p.Contact)...); at != "" {
				facts = append([]Fact{{"Address", at}}, facts...)
			}
		}
	}
	if names := in.lineNames(o.Lines); names != "" && !strings.EqualFold(names, o.Work) {
		facts = append(facts, Fact{"Our order", core.Capital(names)})
	}
	return facts
}

// ticketPrice says the price and how it binds.
func ticketPrice(o core.Outwork) string {
	switch {
	case core.Minor(o.Price) == 0:
		return "none is agreed: ask before the work is begun"
	case o.Type == "fixed":
		return withCode(o.Price) + " before tax, fixed"
	}
	return withCode(o.Price) + " before tax, and may still move: say so before it is passed"
}

// set lists the pieces with their tags and what hangs with them.
func (in StoryInput) set(o core.Outwork) Table {
	t := Table{Columns: []Column{{Share: .45}, {Head: "Tag", Share: 2}, {Head: "Piece", Share: 6}, {Head: "Unit", Share: 2.5}}}
	for _, n := range o.Tags {
		r := Row{Cells: []Cell{{Box: true}, {Lead: n}, {Text: "not in the book any more"}}}
		if tag := in.Story.Tag(n); tag != nil {
			r.Cells[2] = Cell{Text: core.Capital(tagName(*tag)), Note: joined("; ", tag.Position, prefixed("way round: ", tag.WayRound), prefixed("mated with ", strings.Join(tag.Mates, ", ")))}
			r.Cells = append(r.Cells, Cell{Text: tag.Unit})
		}
		t.Rows = append(t.Rows, r)
	}
	return t
}

// asked lists each size and condition with room for what was reached.
func (in StoryInput) asked(o core.Outwork) []Block {
	bs := []Block{Heading{1, "Sizes asked"}}
	if len(o.Asked) == 0 {
		return append(bs, Paragraph{Text: "No size is asked: the work is judged in words on return."})
	}
	t := Table{Columns: []Column{{Head: "What", Share: 4}, {Head: "Asked", Share: 4}, {Head: "As returned", Share: 4}}}
	for _, a := range o.Asked {
		r := Row{Cells: []Cell{{Text: core.Capital(a.What)}, {Lead: askedRange(a)}, {Text: ""}}}
		for _, x := range o.Results {
			if strings.EqualFold(x.What, a.What) {
				r.Cells[2] = Cell{Text: x.As, Note: map[bool]string{true: "as asked", false: "not as asked"}[x.OK]}
			}
		}
		t.Rows = append(t.Rows, r)
	}
	return append(bs, t)
}

// cameBack says how it came back.
func (in StoryInput) cameBack(o core.Outwork) []Block {
	if o.Back.At.IsZero() {
		return nil
	}
	facts := []Fact{{"On", in.day(o.Back.At) + ", by " + o.Back.By}, {"It is", o.State}}
	if o.Why != "" {
		facts = append(facts, Fact{"Why", o.Why})
	}
	if o.Charged != nil {
		facts = append(facts, Fact{"Charged", withCode(*o.Charged) + " before tax"})
	}
	return []Block{Heading{1, "Came back"}, Facts{facts}}
}

// askedRange says what was asked, both bounds to the same decimals.
func askedRange(a core.Asked) string {
	switch {
	case a.Low == nil && a.High == nil:
		return "as written"
	case a.Low == nil || a.High == nil:
		return a.Range()
	}
	low, high := core.FormatNumber(*a.Low), core.FormatNumber(*a.High)
	return withUnit(atLeast(low, high)+" to "+atLeast(high, low), a.Unit)
}
