package core

import "slices"

// currency is the job's one currency, as far as its story tells.
func (s *Story) currency() string {
	for _, a := range s.Agreements {
		if c := a.Sum.CurrencyCode(); c != "" {
			return c
		}
	}
	for _, p := range s.Papers {
		if c := p.Total.CurrencyCode(); c != "" {
			return c
		}
	}
	for _, p := range s.Payments {
		return p.Sum.CurrencyCode()
	}
	for _, w := range s.Hours {
		if c := w.Rate.CurrencyCode(); c != "" {
			return c
		}
	}
	for _, p := range s.Surprises {
		for _, o := range p.Options {
			return o.Sum.CurrencyCode()
		}
	}
	return "XXX"
}

// Authorised is the sum, tax included, up to which the shop may go: the main agreement and the change notes approved since. A later main
// agreement's sum stands for everything before it.
func (s *Story) Authorised() Money {
	total, gate := int64(0), GateBudget
	a := s.Agreed(gate)
	if a == nil {
		gate = GateStrip
		a = s.Agreed(gate)
	}
	if a != nil {
		total = Minor(a.Sum)
	}
	for _, n := range s.notesSince(gate) {
		for _, o := range n.Taken {
			total += Minor(o.Sum)
		}
	}
	return MinorMoney(total, s.currency())
}

// Left is what is authorised and not spent or promised yet; below zero if more was spent than authorised.
func (s *Story) Left() Money {
	return MinorMoney(Minor(s.Authorised())-Minor(s.Committed()), s.currency())
}

// notesSince are the change notes answered after the agreement in force at a gate; its sum has taken up those before it.
func (s *Story) notesSince(gate string) []Note {
	agreed := 0
	for i, a := range s.Agreements {
		if a.Gate == gate {
			agreed = i + 1
		}
	}
	var since []Note
	for _, n := range s.Notes {
		if n.Closed.At.IsZero() || n.under >= agreed {
			since = append(since, n)
		}
	}
	return since
}

// Committed is what is spent or promised so far, with the tax that the scope reckons with: hours at their rates, goods not returned, outwork not
// refused.
func (s *Story) Committed() Money {
	total := int64(0)
	for _, w := range s.Hours {
		total += s.taxed(w.charge(), w.Line)
	}
	for _, o := range s.Outwork {
		if o.State != OutworkRefused {
			total += s.taxed(Minor(o.charge()), o.Lines...)
		}
	}
	for _, p := range s.Purchases {
		if p.State != PurchaseReturned {
			total += s.taxed(Minor(p.Price), p.Lines...)
		}
	}
	return MinorMoney(total, s.currency())
}

// taxed adds to an amount before tax what tax the scope reckons with: that of the lines it is for, or of the whole scope where it is for none
// of them. Before a scope is issued no tax is known, and none is added.
func (s *Story) taxed(net int64, lines ...string) int64 {
	amount, tax := s.taxShare(func(l Line) bool { return slices.Contains(lines, l.ID) })
	if amount <= 0 {
		return net
	}
	return net + round(float64(net)*float64(tax)/float64(amount))
}

// TaxIn is the tax in a sum that is typed with it, for work on some places: at the share of the lines that serve them, else of the whole scope.
func (s *Story) TaxIn(gross Money, places []Place) Money {
	amount, tax := s.taxShare(func(l Line) bool { return l.serves(places) })
	if amount+tax <= 0 {
		return MinorMoney(0, gross.CurrencyCode())
	}
	return MinorMoney(round(float64(Minor(gross))*float64(tax)/float64(amount+tax)), gross.CurrencyCode())
}

// taxShare is the amount and the tax of some lines of the scope and of approved changes, or of the whole scope where none of them are wanted.
func (s *Story) taxShare(wanted func(Line) bool) (amount, tax int64) {
	add := func(l Line) {
		if wanted(l) {
			amount, tax = amount+Minor(l.Amount), tax+Minor(l.Tax)
		}
	}
	for _, l := range s.scopeLines() {
		add(l)
	}
	for _, n := range s.Notes {
		for _, l := range s.noteLines(n) {
			add(l)
		}
	}
	if p := s.priced(); amount == 0 && p != nil {
		return Minor(p.Expected), Minor(p.Total) - Minor(p.Expected)
	}
	return amount, tax
}

// mayCommit refuses what would go beyond the sum authorised: a price before tax, for lines of the order.
func (s *Story) mayCommit(more Money, lines ...string) error {
	if Minor(more) < 0 {
		return Errorf(Invalid, "write an amount like 420", "a price cannot be less than nothing")
	}
	if c := s.currency(); c != "XXX" && more.CurrencyCode() != "" && more.CurrencyCode() != c {
		return Errorf(Invalid, "write it in "+c, "the job is in %s, not %s", c, more.CurrencyCode())
	}
	is, may := Minor(s.Committed())+s.taxed(Minor(more), lines...), Minor(s.Authorised())
	if is > may {
		return Errorf(Conflict, "ask first: fettle change "+s.Job.Number, "with this %s would be spent or promised with tax, and %s is authorised",
			MinorMoney(is, s.currency()), s.Authorised())
	}
	return nil
}
