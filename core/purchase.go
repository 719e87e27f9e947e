package core

import (
	"slices"
	"strings"
	"time"
)

// Purchase is goods ordered from a supplier.
type Purchase struct {
	ID       string    `json:"number"` // B-001
	From     string    `json:"from"`
	Item     string    `json:"item"` // key of the price book, or words
	What     string    `json:"what"`
	Count    float64   `json:"count"`
	Lines    []string  `json:"lines"`              // ids of lines of the agreed order it serves
	Price    Money     `json:"price,omitzero"`     // of all of it, before tax
	Exchange *Money    `json:"exchange,omitempty"` // charge held until the old unit is back and accepted
	Due      time.Time `json:"due,omitzero"`
	State    string    `json:"state"` // one of PurchaseStates
	// ExchangeBack: the old unit was accepted and the charge came back.
	ExchangeBack bool   `json:"exchange_back,omitempty"`
	Why          string `json:"why,omitempty"`
	Lies         string `json:"lies,omitempty"`
	Ordered      Stamp  `json:"ordered"`
	Changed      Stamp  `json:"changed,omitzero"`
}

// The states of a purchase.
const (
	PurchaseOrdered  = "ordered"
	PurchaseArrived  = "arrived"
	PurchaseWrong    = "wrong"
	PurchaseReturned = "returned"
)

// PurchaseStates are all of them.
var PurchaseStates = []string{PurchaseOrdered, PurchaseArrived, PurchaseWrong, PurchaseReturned}

// Kind is "purchase".
func (p *Purchase) Kind() string { return "purchase" }

// Number is the order's.
func (p *Purchase) Number() string { return p.ID }

// Prefix is "B-".
func (p *Purchase) Prefix() string { return "B-" }

// SetNumber gives it a number.
func (p *Purchase) SetNumber(n string) { p.ID = n }

// Check refuses goods that no agreement covers, and what goes beyond the sum authorised.
func (p *Purchase) Check(s *Story) error {
	if faults := p.Faults(s); len(faults) > 0 {
		return faults[0]
	}
	return nil
}

// Faults are all that Check refuses it for. Of a sum it says something only where all its lines are covered.
func (p *Purchase) Faults(s *Story) (faults []error) {
	if err := s.working("buying"); err != nil {
		return []error{err}
	}
	tell := func(is bool, err error) {
		if is {
			faults = append(faults, err)
		}
	}
	tell(blank(p.From), Errorf(Invalid, "name the supplier: --from NAME", "nobody is named to buy it from"))
	tell(blank(p.What) && blank(p.Item), Errorf(Invalid, "say what is bought: --item WHAT", "the purchase says nothing of the goods"))
	tell(p.Exchange != nil && Minor(*p.Exchange) < 0, Errorf(Invalid, "write an amount like 60", "an exchange charge cannot be less than nothing"))
	tell(!(p.Count > 0 && p.Count < 1e6), Errorf(Invalid, "count them", "%s of them cannot be bought", FormatNumber(p.Count)))
	tell(len(p.Lines) == 0, Errorf(Invalid, "name the part or the line of the order: --for PART", "the purchase serves no line of the order"))
	covered := true
	for _, l := range p.Lines {
		err := s.Covered(l)
		tell(err != nil, err)
		covered = covered && err == nil
	}
	if covered {
		err := s.mayCommit(p.Price, p.Lines...)
		tell(err != nil, err)
	}
	return faults
}

func (p *Purchase) fold(s *Story, at Stamp) {
	q := *p
	q.Ordered, q.State = at, PurchaseOrdered
	s.Purchases = standing(s.Purchases, q, func(p Purchase) string { return p.ID })
}

func (p *Purchase) leads(s *Story) string { return s.intoWork() }

// Delivery is what became of a purchase.
type Delivery struct {
	Purchase     string `json:"purchase"`
	State        string `json:"state"`
	ExchangeBack bool   `json:"exchange_back,omitempty"`
	Why          string `json:"why,omitempty"`
	Lies         string `json:"lies,omitempty"`
}

// Kind is "delivery".
func (d *Delivery) Kind() string { return "delivery" }

// afterwards lists what may become of a purchase in a state. What went back is ordered anew, under a new number.
func afterwards(state string) []string {
	switch state {
	case PurchaseOrdered:
		return []string{PurchaseArrived, PurchaseWrong, PurchaseReturned}
	case PurchaseArrived:
		return []string{PurchaseWrong, PurchaseReturned}
	case PurchaseWrong:
		return []string{PurchaseArrived, PurchaseReturned}
	}
	return nil
}

// Next lists what may become of it.
func (p Purchase) Next() []string { return afterwards(p.State) }

// Check refuses what was never ordered, and what cannot become of it any more. An exchange charge alone leaves it in its state.
func (d *Delivery) Check(s *Story) error {
	p := s.Bought(d.Purchase)
	switch {
	case p == nil:
		return Errorf(NotFound, "see: fettle buy "+s.Job.Number, "%s has no purchase %s", s.Job.Number, d.Purchase)
	case !slices.Contains(PurchaseStates, d.State):
		return Errorf(Invalid, "use one of: "+strings.Join(PurchaseStates, ", "), "%q is no state of a purchase", d.State)
	case d.State == p.State && !d.ExchangeBack:
		return Errorf(Conflict, "nothing is to be done", "%s is %s already", p.ID, p.State)
	case d.State != p.State && !slices.Contains(afterwards(p.State), d.State):
		return Errorf(Conflict, "order it anew: fettle buy "+s.Job.Number+" --for PART", "%s is %s: it cannot become %s", p.ID, p.State, d.State)
	case d.State != p.State && (d.State == PurchaseWrong || d.State == PurchaseReturned) && blank(d.Why):
		return Errorf(Invalid, "say what is wrong with it: --why WORDS", "no reason is given")
	case d.ExchangeBack && p.Exchange == nil:
		return Errorf(Conflict, "nothing is to be done", "%s has no exchange charge", p.ID)
	case d.ExchangeBack && p.ExchangeBack:
		return Errorf(Conflict, "nothing is to be done", "the exchange charge of %s came back already", p.ID)
	}
	return nil
}

func (d *Delivery) fold(s *Story, at Stamp) {
	p := s.Bought(d.Purchase)
	if p == nil {
		return
	}
	if d.State != p.State || d.Why != "" {
		p.Why = d.Why
	}
	p.State, p.Changed = d.State, at
	p.ExchangeBack = p.ExchangeBack || d.ExchangeBack
	if d.Lies != "" {
		p.Lies = d.Lies
	}
}

// Bought finds a purchase by its number, or nil.
func (s *Story) Bought(number string) *Purchase {
	return named(s.Purchases, number, func(p Purchase) string { return p.ID })
}
