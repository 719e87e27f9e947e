package paper

import (
	"fmt"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// buying is every item once, with how many, from whom and for what money.
func (in Input) buying() []Block {
	var list []core.OrderItem
	open := map[string]bool{} // items of a line that is not covered
	for _, l := range in.Plan.WorkOrder.Lines {
		if l.Kind == core.LineReserve {
			continue
		}
		for _, it := range l.Items {
			i := 0
			for ; i < len(list); i++ {
				b := list[i]
				if b.Key == it.Key && b.Supplier == it.Supplier && core.Minor(b.Each) == core.Minor(it.Each) {
					break
				}
			}
			if i == len(list) {
				list = append(list, it)
				list[i].Count = 0
			}
			list[i].Count += it.Count
			open[it.Key] = open[it.Key] || !in.covered(l)
		}
	}
	if len(list) == 0 {
		return nil
	}
	t := Table{Compact: true, Columns: []Column{{Share: .4}, {Head: "Item", Share: 5}, {Head: "From", Share: 5}, {Head: "Note", Share: 1.8}, {Head: "Count", Right: true}, {Head: "Each", Right: true}}}
	for _, b := range list {
		note := priceNote(b)
		if in.Authorised && open[b.Key] {
			note = strings.Join(unique([]string{NotAuthorised, note}), ", ")
		}
		t.Rows = append(t.Rows, Row{Cells: []Cell{{Box: true}, {Text: core.Capital(b.Name)},
			{Text: strings.Join(unique([]string{b.Supplier, b.Kind}), ", ")}, {Text: note}, {Text: number(b.Count, 2)}, {Text: amount(b.Each)}}})
	}
	bs := []Block{Heading{1, "Items to buy"}}
	if !in.Authorised {
		bs = append(bs, Notice{NotAuthorised, []string{"Nothing on this list is ordered yet."}})
	}
	return append(bs, Paragraph{Small: true, Text: fmt.Sprintf("Typical: nobody has been asked for this price yet. Ask again: the price is over %d days old. Once: used once, always new.", core.PriceOldDays)}, t)
}

// priceNote is what is to be known of an item and its price, in the words that stand above the list.
func priceNote(it core.OrderItem) string {
	var ns []string
	if it.Typical {
		ns = append(ns, "typical")
	}
	if it.Old {
		ns = append(ns, "ask again")
	}
	if it.OneUse {
		ns = append(ns, "once")
	}
	return strings.Join(ns, ", ")
}

// outwork lists what is sent away, with its wait, and may not be sent before it is agreed.
func (in Input) outwork() []Block {
	t := Table{Compact: true, Columns: []Column{{Head: "Sent out for", Share: 6}, {Head: "To", Share: 3}, {Head: "Weeks, likely (range)", Right: true}, {Head: "Agreed", Share: 2}}}
	for _, b := range bundles(in.Plan.WorkOrder.Lines) {
		l := b.Lines[0]
		if l.Outwork == "" || l.Kind == core.LineReserve {
			continue
		}
		agreed := NotAuthorised
		if in.covered(b.Lines...) {
			agreed = "Yes"
		}
		t.Rows = append(t.Rows, Row{Cells: []Cell{{Text: b.Title()}, {Text: core.Capital(l.Outwork)}, {Text: weeks(l.LeadWeeks)}, {Text: agreed}}})
	}
	if len(t.Rows) == 0 {
		return nil
	}
	return []Block{Heading{1, "Outwork"}, Paragraph{Text: "Ask for the finished sizes in writing. What comes back is measured before it goes on the shelf. What each is for stands on its job card."}, t}
}

// orderSums are the totals of the order.
func (in Input) orderSums(as []area) []Block {
	o := in.Plan.WorkOrder
	return []Block{Heading{1, "Sums"},
		Paragraph{Text: fmt.Sprintf("Expected hours: %s. %s of the total before tax rests on typical prices nobody has asked (%s). %s",
			number(o.HoursExpected, 1), percent(ratio(o.Typical, o.TotalBeforeTax)), amount(o.Typical), in.rates())}, in.shares(as)}
}

// shopSign is who gives the order and who takes it.
func (in Input) shopSign() []Block {
	return []Block{Signature{Statement: "Given out and taken on.", Signers: []Signer{{"Given by", []string{"Name", "Signature", "Date"}}, {"Taken by", []string{"Name", "Signature", "Date"}}}}}
}
