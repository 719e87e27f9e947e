package core

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
	for _, p := range s.Surprises {
		for _, o := range p.Options {
			return o.Sum.CurrencyCode()
		}
	}
	return "XXX"
}

// Authorised is the sum, tax included, up to which the shop may go: the main agreement and the change notes approved since.
func (s *Story) Authorised() Money {
	total := int64(0)
	if a := s.Agreed(GateBudget); a != nil {
		total = Minor(a.Sum)
	} else if a := s.Agreed(GateStrip); a != nil {
		total = Minor(a.Sum)
	}
	for _, n := range s.Notes {
		for _, o := range n.Taken {
			total += Minor(o.Sum)
		}
	}
	return MinorMoney(total, s.currency())
}

// Committed is what is spent or promised so far, before tax: hours at their rates, goods not returned, outwork not refused.
func (s *Story) Committed() Money {
	total := int64(0)
	for _, w := range s.Hours {
		total += int64(round(float64(Minor(w.Rate)) * w.Hours))
	}
	for _, o := range s.Outwork {
		if o.State == OutworkRefused {
			continue
		}
		if o.Charged != nil {
			total += Minor(*o.Charged)
		} else {
			total += Minor(o.Price)
		}
	}
	for _, p := range s.Purchases {
		if p.State != PurchaseReturned {
			total += Minor(p.Price)
		}
	}
	return MinorMoney(total, s.currency())
}

// mayCommit refuses what would go beyond the sum authorised.
func (s *Story) mayCommit(more Money) error {
	if Minor(more) < 0 {
		return Errorf(Invalid, "write an amount like 420", "a price cannot be less than nothing")
	}
	if c := s.currency(); c != "XXX" && more.CurrencyCode() != "" && more.CurrencyCode() != c {
		return Errorf(Invalid, "write it in "+c, "the job is in %s, not %s", c, more.CurrencyCode())
	}
	is, may := Minor(s.Committed())+Minor(more), Minor(s.Authorised())
	if is > may {
		return Errorf(Conflict, "ask first: fettle change "+s.Job.Number, "with this %s would be spent or promised before tax, and %s is authorised with tax",
			MinorMoney(is, s.currency()), s.Authorised())
	}
	return nil
}
