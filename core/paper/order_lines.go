package paper

import (
	"fmt"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// buying is every item once, with how many, from whom and for what money.
func (in Input) buying() []Block {
	var list []core.OrderItem
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
		}
	}
	if len(list) == 0 {
		return nil
	}
	t := Table{Columns: []Column{{Share: .45}, {Head: "Item", Share: 5}, {Head: "From", Share: 3}, {Head: "Count", Right: true}, {Head: "Each", Right: true}}}
	for _, b := range list {
		t.Rows = append(t.Rows, Row{Cells: []Cell{{Box: true}, {Text: capital(b.Name), Note: priceNote(b)},
			{Text: b.Supplier, Note: b.Kind}, {Text: number(b.Count, 2)}, {Text: amount(b.Each)}}})
	}
	bs := []Block{Heading{1, "Items to buy"}}
	if !in.Authorised {
		bs = append(bs, Notice{NotAuthorised, []string{"Nothing on this list is ordered yet."}})
	}
	return append(bs, t)
}

func priceNote(it core.OrderItem) string {
	var ns []string
	if it.Typical {
		ns = append(ns, "Typical price, not asked.")
	}
	if it.Old {
		ns = append(ns, fmt.Sprintf("Price over %d days old: ask again.", core.PriceOldDays))
	}
	if it.OneUse {
		ns = append(ns, "Used once: always new.")
	}
	return strings.Join(ns, " ")
}

// outwork lists what is sent away, with its wait, and may not be sent before it is agreed.
func (in Input) outwork() []Block {
	t := Table{Columns: []Column{{Head: "Sent out for", Share: 5}, {Head: "To", Share: 3}, {Head: "Weeks, likely (range)", Right: true}, {Head: "Agreed", Share: 2.8}}}
	agreed := NotAuthorised
	if in.Authorised {
		agreed = "Yes"
	}
	for _, l := range in.Plan.WorkOrder.Lines {
		if l.Outwork == "" || l.Kind == core.LineReserve {
			continue
		}
		t.Rows = append(t.Rows, Row{Cells: []Cell{{Text: capital(l.Name), Note: "For: " + placesOf(in.Plan, l)}, {Text: capital(l.Outwork)}, {Text: weeks(l.LeadWeeks)}, {Text: agreed}}})
	}
	if len(t.Rows) == 0 {
		return nil
	}
	return []Block{Heading{1, "Outwork"}, Paragraph{Text: "Ask for the finished sizes in writing. What comes back is measured before it goes on the shelf."}, t}
}

// reserves lists what may fall due, at its chance.
func (in Input) reserves() []Block {
	t := Table{Columns: []Column{{Head: "What may fall due", Share: 6}, {Head: "Chance", Right: true}, {Head: "If it does", Right: true}, {Head: "Held", Right: true}}}
	var held []core.Money
	for _, l := range in.Plan.WorkOrder.Lines {
		if l.Kind != core.LineReserve {
			continue
		}
		chance := ""
		if l.Chance != nil {
			chance = percent(*l.Chance)
		}
		t.Rows = append(t.Rows, Row{Cells: []Cell{{Text: lineName(l), Note: capital(placesOf(in.Plan, l))}, {Text: chance}, {Text: upTo(l.High)}, {Text: amount(l.Amount)}}})
		held = append(held, l.Amount)
	}
	if len(t.Rows) == 0 {
		return nil
	}
	t.Rows = append(t.Rows, Row{Sum: true, Cells: []Cell{{Text: "Held in reserves"}, {}, {}, {Text: amount(sum(in.code(), held...))}}})
	return []Block{Heading{1, "Reserves"}, t}
}

// orderSums are the totals of the order.
func (in Input) orderSums() []Block {
	t := Table{Columns: []Column{{Head: "Sums", Share: 5}, {Head: "Rate", Share: 2}, {Head: "Of", Right: true}, {Head: "Amount", Right: true}}, Rows: in.sumsByKind()}
	t.Rows = append(t.Rows, in.sums()...)
	o := in.Plan.WorkOrder
	return []Block{Heading{1, "Sums"},
		Paragraph{Text: fmt.Sprintf("Expected hours: %s. %s of the total before tax rests on typical prices nobody has asked (%s). %s",
			number(o.HoursExpected, 1), percent(ratio(o.Typical, o.TotalBeforeTax)), amount(o.Typical), in.rates())}, t}
}

// sumsByKind are the subtotals of opening, closing, work and reserves.
func (in Input) sumsByKind() []Row {
	var rows []Row
	for _, k := range []struct {
		kind core.LineKind
		name string
	}{{core.LineStrip, "Taking apart"}, {core.LineRefit, "Putting back"}, {core.LineWork, "Work, goods and outwork"}, {core.LineReserve, "Reserves"}} {
		var ms []core.Money
		for _, l := range in.Plan.WorkOrder.Lines {
			if l.Kind == k.kind {
				ms = append(ms, l.Amount)
			}
		}
		if len(ms) > 0 {
			rows = append(rows, Row{Cells: []Cell{{Text: k.name}, {}, {}, {Text: amount(sum(in.code(), ms...))}}})
		}
	}
	return rows
}

// why gives each part one line: the finding, the limit it is held against, where that comes from, what follows. Parts
// that are always renewed need no reason and have none.
func (in Input) why(as []area) []Block {
	bs := []Block{Heading{1, "Why"}}
	for _, a := range as {
		t := Table{Columns: []Column{{Head: "Part", Share: 2.8}, {Head: "Finding → limit → source", Share: 8}, {Head: "So", Share: 1.6}}}
		kinds := map[core.Place]core.RemedyKind{}
		for _, g := range a.Groups {
			for _, c := range g.Choices {
				kinds[c.Place] = c.Kind
			}
		}
		var last group
		for _, c := range a.Conditions {
			if c.Grade == core.GradeNone {
				continue
			}
			row := Row{Cells: []Cell{{}, {Note: in.because(c)}, {Text: fate(kinds[c.Place])}}}
			n := len(t.Rows)
			if n == 0 || last.Part != c.Part || t.Rows[n-1].Cells[1] != row.Cells[1] || t.Rows[n-1].Cells[2] != row.Cells[2] {
				last = group{Part: c.Part, PartName: c.PartName}
				t.Rows = append(t.Rows, row)
				n++
			}
			last.Choices = append(last.Choices, core.Choice{Place: c.Place})
			t.Rows[n-1].Cells[0].Text = last.Name()
		}
		if len(t.Rows) > 0 {
			bs = append(bs, Heading{2, a.Title}, t)
		}
	}
	if len(bs) == 1 {
		return nil
	}
	return bs
}

// because is a condition's finding, its limit and the limit's source, with the rule that fired.
func (in Input) because(c core.UnitCondition) string {
	links := []string{}
	switch {
	case c.Gauge != nil:
		links = append(links, c.Gauge.Name+" "+reading(*c.Gauge), limit(*c.Gauge), c.Gauge.Source)
	case c.Grade == core.NotSeen && len(c.ChecksNotRead) > 0:
		links = append(links, "not read: "+and(unique(in.checkWords(c.Place, c.ChecksNotRead))))
	case len(c.Reasons) > 0:
		r := c.Reasons[0]
		links = append(links, plainReason(r, c.Grade), r.Source)
		if r.Rule != "" {
			links = append(links, "rule "+r.Rule)
		}
	default:
		links = append(links, found(c))
	}
	return capital(strings.Join(unique(links), " → "))
}

// shopSign is who gives the order and who takes it.
func (in Input) shopSign() []Block {
	return []Block{Signature{Statement: "Given out and taken on.", Signers: []Signer{{"Given by", []string{"Name", "Signature", "Date"}}, {"Taken by", []string{"Name", "Signature", "Date"}}}}}
}
