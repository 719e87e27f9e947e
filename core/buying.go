package core

import (
	"slices"
	"time"
)

// Wanted is one item that a line of the order needs and nobody has ordered yet.
type Wanted struct {
	Line      string  `json:"line"`
	LineName  string  `json:"line_name"`
	Subsystem string  `json:"subsystem"`
	Key       string  `json:"item"`
	Name      string  `json:"name"`
	Count     float64 `json:"count"` // still to be ordered
	Each      Money   `json:"each"`
	Supplier  string  `json:"supplier,omitempty"`
	Typical   bool    `json:"typical"` // nobody was asked for the price
	Old       bool    `json:"old"`
	Unpriced  bool    `json:"unpriced,omitempty"` // nobody knows what it costs
	// NotAuthorised says why it may not be ordered: no agreement covers its line, or its set is not read; "" if it may.
	NotAuthorised string `json:"not_authorised,omitempty"`
	// Waits says that it is agreed to, and waits for the rest of its set to be read.
	Waits bool `json:"waits,omitempty"`
}

// atHand are the kinds of supply that nobody has to order.
var atHand = []string{"on the shelf", "owner's own"}

// ToBuy lists what the lines of a plan's order need, less what is ordered or here, in the order of the lines. What is only held in reserve is not
// on it, nor what lies on the shelf.
func (s *Story) ToBuy(p Plan) []Wanted {
	ordered := map[string]float64{} // by purchase: what of it no line has taken up yet
	for _, b := range s.Purchases {
		if b.State == PurchaseOrdered || b.State == PurchaseArrived {
			ordered[b.ID] = b.Count
		}
	}
	var wanted []Wanted
	for _, l := range p.WorkOrder.Lines {
		if l.Kind == LineReserve {
			continue
		}
		for _, it := range l.Items {
			left := it.Count
			for _, b := range s.Purchases {
				if b.Item == it.Key && slices.Contains(b.Lines, l.ID) {
					n := min(left, ordered[b.ID])
					left, ordered[b.ID] = left-n, ordered[b.ID]-n
				}
			}
			if left <= Slack || slices.Contains(atHand, it.Kind) {
				continue
			}
			w := Wanted{Line: l.ID, LineName: l.Name, Subsystem: l.Subsystem, Key: it.Key, Name: it.Name, Count: left, Each: it.Each, Supplier: it.Supplier, Typical: it.Typical, Old: it.Old, Unpriced: it.Unpriced()}
			if err := s.Covered(l.ID); err != nil {
				w.NotAuthorised = err.Error()
			} else if err := p.Waits(l); err != nil {
				w.NotAuthorised, w.Waits = err.Error(), true
			}
			wanted = append(wanted, w)
		}
	}
	return wanted
}

// WantedItem is one item as it would be ordered: from one supplier, for all the lines that need it and stand alike.
type WantedItem struct {
	Wanted
	Lines      []string
	Subsystems []string // that it is for
}

// ByItem puts together what is wanted of one item from one supplier, apart from what may not be ordered or waits. Counts are added; the order stays.
func ByItem(all []Wanted) []WantedItem {
	var rows []WantedItem
	for _, x := range all {
		i := slices.IndexFunc(rows, func(r WantedItem) bool {
			return r.Key == x.Key && r.Supplier == x.Supplier && (r.NotAuthorised == "") == (x.NotAuthorised == "") && r.Waits == x.Waits
		})
		if i < 0 {
			i, rows = len(rows), append(rows, WantedItem{Wanted: x})
			rows[i].Count = 0
		}
		rows[i].Count += x.Count
		rows[i].Lines = append(rows[i].Lines, x.Line)
		rows[i].Subsystems = appendNew(rows[i].Subsystems, x.Subsystem)
	}
	return rows
}

// Late reports whether it is ordered, and was promised for an earlier day.
func (p Purchase) Late(now time.Time) bool { return p.State == PurchaseOrdered && pastDue(p.Due, now) }

// Outstanding is the exchange charge that is held until the old unit is back; nil if there is none, or it came back.
func (p Purchase) Outstanding() *Money {
	if p.ExchangeBack || p.State == PurchaseReturned {
		return nil
	}
	return p.Exchange
}

// ExchangeOutstanding is what all exchange charges of the job that are still held come to; nil if there are none.
func (s Story) ExchangeOutstanding() *Money {
	var sum *Money
	for _, p := range s.Purchases {
		if held := p.Outstanding(); held != nil {
			all := *held
			if sum != nil {
				all = MinorMoney(Minor(*sum)+Minor(*held), held.CurrencyCode())
			}
			sum = &all
		}
	}
	return sum
}
