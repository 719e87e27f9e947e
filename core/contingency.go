package core

import "time"

// Contingency is the owner's money that the agreed scope holds back for what could not be known (P80 less expected): what change notes drew of it,
// and what is left. All sums are before tax.
type Contingency struct {
	Paper    string    `json:"paper"`
	Revision int       `json:"revision"`
	Agreed   time.Time `json:"agreed"`
	Who      string    `json:"who"`
	Held     Money     `json:"held"`
	Drawn    []Drawing `json:"drawn"`
	Left     Money     `json:"left"` // never below zero nor over what was held
}

// Drawing is what one approved change note took out; below zero if it saved.
type Drawing struct {
	Note string    `json:"note"`
	At   time.Time `json:"at"`
	Who  string    `json:"who"`
	Sum  Money     `json:"sum"`
}

// HeldBack is the contingency of the main budget in force, with every change note approved since that costs or saves; nil before one is agreed. It is
// drawn by change note alone; what they save does not make it larger.
func (s *Story) HeldBack() *Contingency {
	a := s.Agreed(GateBudget)
	if a == nil {
		return nil
	}
	code := s.currency()
	c := Contingency{Paper: a.Paper, Revision: a.Revision, Agreed: a.At, Who: a.Who, Drawn: []Drawing{}}
	held := int64(0)
	if p := s.Issued(a.Paper, a.Revision); p != nil {
		held = Minor(p.Contingency)
	}
	left := held
	for _, n := range s.notesSince(GateBudget) {
		net := int64(0)
		for _, o := range n.Taken {
			net += o.net()
		}
		if left -= net; net != 0 {
			c.Drawn = append(c.Drawn, Drawing{n.ID, n.Closed.At, n.Who, MinorMoney(net, code)})
		}
	}
	c.Held, c.Left = MinorMoney(held, code), MinorMoney(min(max(left, 0), held), code)
	return &c
}

// Contingency is what was held back, and what of it is left; nothing before a main budget is agreed.
func (s *Story) Contingency() (whole, left Money) {
	if c := s.HeldBack(); c != nil {
		return c.Held, c.Left
	}
	return MinorMoney(0, s.currency()), MinorMoney(0, s.currency())
}
