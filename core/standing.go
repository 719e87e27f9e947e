package core

import (
	"fmt"
	"strings"
)

// Waits says what a job waits for, and for whom, in words: an answer, outwork, goods, an agreement; empty when the shop itself is next.
func (s *Story) Waits() []string {
	var waits []string
	switch s.Job.State {
	case StateHandedOver:
		return nil
	case StateScopeOut:
		waits = append(waits, "the owner's answer to the scope")
	case StateArrived:
		waits = append(waits, "the owner's yes to the strip-down")
	case StateWaiting, StateStopped:
		if n := len(s.Moves); n > 0 {
			waits = append(waits, s.Moves[n-1].Why)
		}
	}
	for _, n := range s.Notes {
		if n.State == NoteSent {
			waits = append(waits, "the owner's answer to "+n.ID)
		}
	}
	for _, o := range s.Outwork {
		if o.State == OutworkOut {
			waits = append(waits, o.ID+" at "+o.To)
		}
	}
	for _, p := range s.Purchases {
		if p.State == PurchaseOrdered {
			waits = append(waits, p.ID+" from "+p.From)
		}
	}
	return waits
}

// Account is what a job came to so far and what is owed, in one currency, taxes in it where the entry had them.
type Account struct {
	Hours      float64 `json:"hours"`      // spent
	Labour     Money   `json:"labour"`     // at each hour's own charge
	Goods      Money   `json:"goods"`      // arrived
	Outwork    Money   `json:"outwork"`    // accepted
	Done       Money   `json:"done"`       // the three together: what the job has come to, before tax
	Promised   Money   `json:"promised"`   // ordered and not here yet
	Asked      Money   `json:"asked"`      // of the payers
	Received   Money   `json:"received"`   // from them, less what was given back
	Owing      Money   `json:"owing"`      // asked and not received; below zero: paid ahead
	ForOthers  Money   `json:"for_others"` // owed by the shop: goods arrived and outwork accepted that it has not paid
	Exchange   Money   `json:"exchange"`   // charges out for old units not back yet
	Authorised Money   `json:"authorised"`
}

// Account sums the job up.
func (s *Story) Account() Account {
	code := s.currency()
	var a Account
	money := func(n int64) Money { return MinorMoney(n, code) }
	var labour, goods, outwork, promised, exchange int64
	for _, w := range s.Hours {
		a.Hours += w.Hours
		labour += w.charge()
	}
	for _, o := range s.Outwork {
		switch o.State {
		case OutworkAccepted:
			outwork += Minor(o.charge())
		case OutworkOut:
			promised += Minor(o.charge())
		}
	}
	for _, p := range s.Purchases {
		switch p.State {
		case PurchaseArrived:
			goods += Minor(p.Price)
		case PurchaseOrdered:
			promised += Minor(p.Price)
		}
		if held := p.Outstanding(); held != nil {
			exchange += Minor(*held)
		}
	}
	received := Minor(s.Paid(PayReceived, "")) - Minor(s.Paid(PayRefunded, ""))
	asked := Minor(s.Paid(PayAsked, ""))
	a.Labour, a.Goods, a.Outwork, a.Done, a.Promised = money(labour), money(goods), money(outwork), money(labour+goods+outwork), money(promised)
	a.Asked, a.Received, a.Owing, a.Exchange = money(asked), money(received), money(asked-received), money(exchange)
	a.ForOthers = money(goods + outwork + exchange - Minor(s.Paid(PayOut, "")) + Minor(s.Paid(PayBack, "")))
	a.Authorised = s.Authorised()
	return a
}

// GateStanding says of one gate whether it is passed, and by whose word.
type GateStanding struct {
	Gate string `json:"gate"`
	Is   string `json:"is"`
}

// Gates says how each gate stands.
func (s *Story) Gates() []GateStanding {
	var gs []GateStanding
	for _, g := range Gates {
		is := "nobody has agreed yet"
		if g == GateChange {
			is = s.changesStand()
		} else if a := s.Agreed(g); a != nil {
			is = strings.TrimSpace(fmt.Sprintf("%s, %s, %s", a.Who, a.How, a.At.Format("2 January 2006")))
			if a.Paper != "" {
				is += fmt.Sprintf(", %s revision %d", a.Paper, a.Revision)
			}
			if Minor(a.Sum) > 0 {
				is += fmt.Sprintf(", up to %s", a.Sum.Round())
			}
		}
		gs = append(gs, GateStanding{g, is})
	}
	return gs
}

func (s *Story) changesStand() string {
	count := map[string]int{}
	for _, n := range s.Notes {
		count[n.State]++
	}
	var words []string
	for _, state := range NoteStates {
		if n := count[state]; n > 0 {
			words = append(words, fmt.Sprintf("%d %s", n, state))
		}
	}
	if n := len(s.Gathering()); n > 0 {
		words = append(words, fmt.Sprintf("%d gathering", n))
	}
	if len(words) == 0 {
		return "no change so far"
	}
	return strings.Join(words, ", ")
}
