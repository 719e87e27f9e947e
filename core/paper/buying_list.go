package paper

import (
	"fmt"
	"slices"

	"github.com/fettle-tools/fettle/core"
)

// BuyingList is what is still to be ordered, by supplier, and what is on the way. What no agreement covers is marked at its line. It needs
// the plan.
func BuyingList(in StoryInput) Document {
	d := in.open("Buying list")
	wanted := in.Story.ToBuy(in.Plan)
	covered := 0
	for _, w := range wanted {
		if w.NotAuthorised == "" {
			covered++
		}
	}
	switch {
	case len(wanted) > 0 && covered == 0:
		d.Mark = NotAuthorised
		d.Blocks = append(d.Blocks, Notice{NotAuthorised, []string{"No line of this list may be ordered: why stands beside each."}})
	case covered < len(wanted):
		d.Blocks = append(d.Blocks, Notice{fmt.Sprintf("%s of %d may not be ordered", count(len(wanted)-covered, "line"), len(wanted)), []string{"They are marked " + NotAuthorised + ", or " + waitsForSet + ", with the reason."}})
	}
	d.Blocks = append(d.Blocks, Heading{1, "To order"})
	if len(wanted) == 0 {
		d.Blocks = append(d.Blocks, Paragraph{Text: "Nothing is left to be ordered."})
	} else {
		d.Blocks = append(d.Blocks, in.toOrder(wanted), Paragraph{Small: true, Text: "Prices are before tax; typical means that nobody was asked. What is held in reserve, on the shelf or the owner's own is not on this list."})
	}
	d.Blocks = append(d.Blocks, in.onTheWay()...)
	return d
}

// waitsForSet stands beside what is agreed to and not to be ordered before the rest of its set is read.
const waitsForSet = "WAITS FOR ITS SET"

// toOrder puts the goods under their suppliers; those of nobody chosen come last.
func (in StoryInput) toOrder(wanted []core.Wanted) Table {
	var from []string
	for _, w := range wanted {
		if w.Supplier != "" && !slices.Contains(from, w.Supplier) {
			from = append(from, w.Supplier)
		}
	}
	slices.Sort(from)
	t := Table{Columns: []Column{{Share: .45}, {Head: "Item", Share: 6}, {Head: "Count", Right: true}, {Head: "Each", Right: true}, {Head: "Together", Right: true}}}
	var known []core.Money
	unknown := 0
	for _, f := range append(from, "") {
		name := f
		if f == "" {
			name = "Supplier not chosen"
		}
		head := false
		for _, w := range wanted {
			if w.Supplier != f {
				continue
			}
			if !head {
				head = true
				t.Rows = append(t.Rows, Row{Group: true, Cells: []Cell{{Text: name}}})
			}
			r, all := wantedRow(w)
			t.Rows = append(t.Rows, r)
			if w.Each.CurrencyCode() == "" || core.Minor(w.Each) == 0 {
				unknown++
			} else {
				known = append(known, all)
			}
		}
	}
	if len(known) > 0 {
		name := "Together, in " + known[0].CurrencyCode()
		if unknown > 0 {
			name += fmt.Sprintf(", without %s that nobody has priced", count(unknown, "line"))
		}
		t.Rows = append(t.Rows, Row{Sum: true, Cells: []Cell{{Text: name}, {}, {}, {}, {Text: amount(sum(known[0].CurrencyCode(), known...))}}})
	}
	return t
}

func wantedRow(w core.Wanted) (Row, core.Money) {
	r := Row{Cells: []Cell{{Box: true}, {Text: core.Capital(w.Name), Note: "For: " + lower(w.LineName)}, {Text: number(w.Count, 2)}, {Text: "not priced"}}}
	all := core.Money{}
	if core.Minor(w.Each) != 0 {
		all = core.MinorMoney(int64(float64(core.Minor(w.Each))*w.Count+.5), w.Each.CurrencyCode())
		r.Cells[3] = Cell{Text: amount(w.Each)}
		r.Cells = append(r.Cells, Cell{Text: amount(all)})
	}
	if w.Typical {
		r.Cells[3].Note = "typical"
	}
	if w.Old {
		r.Notes = append(r.Notes, fmt.Sprintf("The price is over %d days old: ask again.", core.PriceOldDays))
	}
	if w.NotAuthorised != "" {
		r.Cells[0] = Cell{}
		r.Cells[1].Lead = NotAuthorised
		if w.Waits {
			r.Cells[1].Lead = waitsForSet
		}
		r.Notes = append([]string{sentence(w.NotAuthorised)}, r.Notes...)
	}
	return r, all
}

// onTheWay lists the goods ordered, and what is held for old units.
func (in StoryInput) onTheWay() []Block {
	bs := []Block{Heading{1, "Ordered"}}
	if len(in.Story.Purchases) == 0 {
		return append(bs, Paragraph{Text: "Nothing is ordered yet."})
	}
	return append(bs, in.purchases(in.Story.Purchases))
}

// purchases lists goods ordered with what became of them.
func (in StoryInput) purchases(ps []core.Purchase) Table {
	t := Table{Columns: []Column{{Head: "Order", Share: 1.6}, {Head: "Goods", Share: 5}, {Head: "From", Share: 4}, {Head: "Is", Share: 3.4}, {Head: "Before tax", Right: true}}}
	for _, p := range ps {
		is := Cell{Text: p.State, Note: joined(", ", in.day(p.Changed.At), p.Lies, p.Why)}
		if p.State == core.PurchaseOrdered {
			is.Note = "promised for " + said(in.day(p.Due))
			if p.Late(in.Date) {
				is.Note += ": late"
			}
		}
		r := Row{Cells: []Cell{{Lead: p.ID}, {Text: number(p.Count, 2) + " × " + joined("", p.What)}, {Text: p.From}, is, {Text: amount(p.Price)}}}
		if p.What == "" {
			r.Cells[1].Text = number(p.Count, 2) + " × " + p.Item
		}
		if x := p.Outstanding(); x != nil {
			r.Notes = append(r.Notes, "Exchange charge of "+withCode(*x)+" is held until the old unit is back and accepted.")
		}
		t.Rows = append(t.Rows, r)
	}
	return t
}
