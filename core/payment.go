package core

import (
	"slices"
	"strings"
)

// Payment is money asked for, or moved, between the shop and somebody. Entries are never changed; a wrong one is taken back.
type Payment struct {
	Is    string `json:"is"`           // one of PaymentWords
	Sum   Money  `json:"sum,omitzero"` // above zero; of payers with tax, paid out and back before tax as outwork and goods are priced
	Party string `json:"party"`
	Stage string `json:"stage,omitempty"` // deposit, strip-down complete ... what it is for
	How   string `json:"how,omitempty"`
	Ref   string `json:"ref,omitempty"` // outwork or purchase it pays
	Note  string `json:"note,omitempty"`
	Stamp
}

// What a payment is, seen from the shop.
const (
	PayAsked    = "asked"    // the shop asks a payer for it
	PayReceived = "received" // a payer paid it
	PayRefunded = "refunded" // the shop gave it back
	PayOut      = "paid out" // the shop paid an outworker or a supplier
	PayBack     = "back"     // an outworker or a supplier gave it back, an exchange charge say
)

// PaymentWords are all of them.
var PaymentWords = []string{PayAsked, PayReceived, PayRefunded, PayOut, PayBack}

// Kind is "payment".
func (p *Payment) Kind() string { return "payment" }

// Check refuses money of nobody, of none, in another currency, and giving back more than came.
func (p *Payment) Check(s *Story) error {
	switch {
	case !slices.Contains(PaymentWords, p.Is):
		return Errorf(Invalid, "use one of: "+strings.Join(PaymentWords, ", "), "%q is not what becomes of money", p.Is)
	case blank(p.Party):
		return Errorf(Invalid, "name who: --party NAME", "the money is nobody's")
	case Minor(p.Sum) <= 0:
		return Errorf(Invalid, "write an amount like 1200", "no sum is given")
	case p.Ref != "" && s.Sent(p.Ref) == nil && s.Bought(p.Ref) == nil:
		return Errorf(NotFound, "see: fettle send, fettle buy", "%s has no outwork or purchase %s", s.Job.Number, p.Ref)
	}
	if c := s.currency(); c != "XXX" && p.Sum.CurrencyCode() != c {
		return Errorf(Invalid, "write it in "+c, "the job is in %s, not %s", c, p.Sum.CurrencyCode())
	}
	came := map[string]string{PayRefunded: PayReceived, PayBack: PayOut}[p.Is]
	if came == "" {
		return nil
	}
	if held := Minor(s.Paid(came, p.Party)) - Minor(s.Paid(p.Is, p.Party)); Minor(p.Sum) > held {
		return Errorf(Conflict, "see: fettle pay "+s.Job.Number, "%s cannot be %s: of what was %s, %s is left with %s", p.Sum, p.Is, came, MinorMoney(held, p.Sum.CurrencyCode()), p.Party)
	}
	return nil
}

func (p *Payment) fold(s *Story, at Stamp) {
	q := *p
	q.Stamp = at
	s.Payments = append(s.Payments, q)
}

// Paid sums the payments of one kind; party "" counts all.
func (s *Story) Paid(is, party string) Money {
	total := int64(0)
	for _, p := range s.Payments {
		if p.Is == is && (party == "" || strings.EqualFold(p.Party, party)) {
			total += Minor(p.Sum)
		}
	}
	return MinorMoney(total, s.currency())
}
