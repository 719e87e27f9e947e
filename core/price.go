package core

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"
)

// Minor3 gives a three-point price in minor units; ok is false if it is empty, of another currency or no number.
func (m Money3) Minor3(code string) (r Range3, ok bool) {
	if m.Likely == "" || m.Currency != code {
		return Range3{}, false
	}
	var v [3]float64
	for i, s := range []string{m.Low, m.Likely, m.High} {
		if s == "" {
			s = m.Likely
		}
		a, err := NewMoney(s, code)
		if err != nil {
			return Range3{}, false
		}
		v[i] = float64(Minor(a))
	}
	return Range3{v[0], v[1], v[2]}, true
}

// Empty reports that no price is stated.
func (m Money3) Empty() bool { return m.Likely == "" }

// PriceEntry is one row of the price book.
type PriceEntry struct {
	Item       string    `json:"item"`
	Supplier   string    `json:"supplier"`
	Kind       string    `json:"kind"` // new, new old stock, reproduction, used, owner's own, on the shelf
	Price      Money3    `json:"price"`
	Exchange   string    `json:"exchange,omitempty"` // exchange charge, decimal in the same currency
	LeadWeeks  Range3    `json:"lead_weeks"`
	Date       time.Time `json:"date"`
	Note       string    `json:"note,omitempty"`
	Supersedes []string  `json:"supersedes,omitempty"`
}

// PriceKinds are the kinds of supply, in the words of the price book.
var PriceKinds = []string{"new", "new old stock", "reproduction", "used", "owner's own", "on the shelf"}

// PriceOldDays is the age at which a price is flagged before anything is issued (trade practice: 90 days).
const PriceOldDays = 90

// Rate is what an hour of a skill costs.
type Rate struct {
	Skill string `json:"skill"`
	Hour  Money  `json:"hour"`
}

// Tax is a rate for a class of goods or labour.
type Tax struct {
	Class   string `json:"class"`   // labour, parts, outwork ...
	Percent string `json:"percent"` // decimal text
	Name    string `json:"name"`
}

// Terms are the money terms of a job: what the shop charges and what the law adds.
type Terms struct {
	Currency string
	Rates    []Rate
	Taxes    []Tax
	Prices   []PriceEntry
	Today    time.Time
	own      *Labour // whose hours these are; nil: the shop's
}

// rate finds the rate of a skill in minor units an hour.
func (t Terms) rate(skill string) (float64, bool) {
	if t.own != nil {
		return float64(Minor(t.own.Hour)), true
	}
	for _, r := range t.Rates {
		if r.Skill == skill {
			return float64(Minor(r.Hour)), true
		}
	}
	return 0, false
}

// price finds the cheapest live price of an item by its likely.
func (t Terms) price(key string) (best PriceEntry, r Range3, ok bool) {
	for _, p := range t.Prices {
		if p.Item != key {
			continue
		}
		x, good := p.Price.Minor3(t.Currency)
		if good && (!ok || x.Likely < r.Likely) {
			best, r, ok = p, x, true
		}
	}
	return best, r, ok
}

// TaxShare is the part of a cost that falls in one tax class, by its expected amount in minor units.
type TaxShare struct {
	Class  string
	Amount int64
}

// Cost is what an operation or a step takes, in minor units, low, likely and high together.
type Cost struct {
	ID       string
	Name     string
	Hours    Range3
	Labour   Range3 // money
	Goods    Range3
	Outwork  Range3
	Expected int64 // the three-point mean of the total, rounded to the minor unit
	Shares   []TaxShare
	Items    []PricedItem
	Lead     Range3 // weeks
	Typical  int64  // of Expected, what rests on typical prices nobody has asked
}

// Total is labour, goods and outwork together.
func (c Cost) Total() Range3 { return c.Labour.Add(c.Goods).Add(c.Outwork) }

// PricedItem is an item with its price and where that came from.
type PricedItem struct {
	Item
	Each     Range3 // minor units
	Supplier string // "" for a typical price
	Kind     string
	Typical  bool // "typical, not asked"
	Asked    time.Time
	Lead     Range3 // weeks, as the supplier named them
}

// PriceOperation prices an operation. What cannot be priced is told as problems: no rate for a skill, no price for
// an item in the job's currency. A typical price is never relabelled into another currency.
func (t Terms) PriceOperation(o Operation) (Cost, []Problem) {
	c := Cost{ID: o.ID, Name: o.Name, Hours: o.Hours, Lead: o.LeadWeeks}
	var ps []Problem
	var asked Range3 // the longest wait that a supplier has named
	if o.Hours != (Range3{}) {
		rate, ok := t.rate(o.Skill)
		if !ok {
			ps = append(ps, noRate(o.Skill))
		}
		c.Labour = o.Hours.Scale(rate)
	}
	if !o.Outwork.Empty() {
		out, ok := o.Outwork.Minor3(t.Currency)
		kind, _, _ := strings.Cut(o.ID, "/") // one price for every piece of a kind
		if entry, r, found := t.price(kind); found {
			out, ok = r, true
			asked = asked.longer(entry.LeadWeeks)
		} else if ok {
			c.Typical += round(out.Mean())
		}
		if !ok {
			ps = append(ps, noPrice("outwork for "+o.Name, kind, t.Currency))
		}
		c.Outwork = out
	}
	goods, items, typical, more := t.priceItems(o.Items)
	c.Goods, c.Items = goods, items
	c.Typical += typical
	ps = append(ps, more...)
	for _, p := range items {
		asked = asked.longer(p.Lead)
	}
	if asked != (Range3{}) {
		c.Lead = asked
	}
	t.close(&c, o.Items)
	return c, ps
}

// PriceStep prices the opening (strip) and the closing (refit) of a step, one-use items with the closing.
func (t Terms) PriceStep(s Step) (strip, refit Cost, ps []Problem) {
	strip = Cost{ID: s.ID, Name: s.Name, Hours: s.StripHours}
	refit = Cost{ID: s.ID, Name: s.Name, Hours: s.Refit()}
	skill := s.Skill
	if skill == "" {
		skill = "mechanic"
	}
	rate, ok := t.rate(skill)
	if !ok {
		ps = append(ps, noRate(skill))
	}
	// Strip-plan hours are man-hours as the trade writes them: people say how many hands, not a factor.
	strip.Labour = strip.Hours.Scale(rate)
	refit.Labour = refit.Hours.Scale(rate)
	goods, items, typical, more := t.priceItems(s.OneUse)
	refit.Goods, refit.Items, refit.Typical = goods, items, typical
	ps = append(ps, more...)
	t.close(&strip, nil)
	t.close(&refit, s.OneUse)
	return strip, refit, ps
}

func (t Terms) priceItems(items []Item) (sum Range3, priced []PricedItem, typical int64, ps []Problem) {
	for _, it := range items {
		p := PricedItem{Item: it}
		if entry, r, ok := t.price(it.Key); ok {
			p.Each, p.Supplier, p.Kind, p.Asked, p.Lead = r, entry.Supplier, entry.Kind, entry.Date, entry.LeadWeeks
		} else if r, ok := it.TypicalEach.Minor3(t.Currency); ok {
			p.Each, p.Typical = r, true
			typical += round(r.Scale(it.Count).Mean())
		} else {
			ps = append(ps, noPrice(it.Name, it.Key, t.Currency))
		}
		sum = sum.Add(p.Each.Scale(it.Count))
		priced = append(priced, p)
	}
	return sum, priced, typical, ps
}

// close fills the expected amount and its shares by tax class, which sum to it exactly.
func (t Terms) close(c *Cost, items []Item) {
	c.Expected = round(c.Total().Mean())
	labour, outwork := round(c.Labour.Mean()), round(c.Outwork.Mean())
	rest := c.Expected - labour - outwork
	add := func(class string, n int64) {
		if n == 0 {
			return
		}
		for i := range c.Shares {
			if c.Shares[i].Class == class {
				c.Shares[i].Amount += n
				return
			}
		}
		c.Shares = append(c.Shares, TaxShare{class, n})
	}
	add("labour", labour)
	add("outwork", outwork)
	for i, p := range c.Items {
		n := round(p.Each.Scale(p.Count).Mean())
		if i == len(c.Items)-1 || n > rest {
			n = rest
		}
		rest -= n
		class := items[i].TaxClass
		if class == "" {
			class = "parts"
		}
		add(class, n)
	}
	if rest != 0 && len(c.Items) == 0 {
		add("labour", rest)
	}
}

// TaxOf gives the tax on shares in minor units, rounded once for the line and each class, and the classes without a rate.
func (t Terms) TaxOf(shares []TaxShare) (tax int64, unknown []string) {
	for _, s := range shares {
		found := false
		for _, x := range t.Taxes {
			if x.Class != s.Class {
				continue
			}
			found = true
			m, err := MinorMoney(s.Amount, t.Currency).Mul(percentToFactor(x.Percent))
			if err == nil {
				tax += Minor(m)
			}
		}
		if !found {
			unknown = append(unknown, s.Class)
		}
	}
	return tax, unknown
}

// percentToFactor moves the point of a decimal text two places: "8.25" gives "0.0825".
func percentToFactor(p string) string {
	neg := strings.HasPrefix(p, "-")
	p = strings.TrimLeft(p, "+-")
	whole, frac, _ := strings.Cut(p, ".")
	whole = strings.Repeat("0", max(0, 3-len(whole))) + whole
	s := whole[:len(whole)-2] + "." + whole[len(whole)-2:] + frac
	if neg {
		s = "-" + s
	}
	return s
}

// Unpriced reports whether work is priced without its labour, as a rate is not known, and counts what has no price: the sums are made without them.
func (p Plan) Unpriced() (labour bool, things int) {
	seen := map[string]bool{}
	for _, x := range p.Problems {
		labour = labour || x.Lacks == LacksRate
		if x.Lacks == LacksPrice {
			seen[x.Summary] = true
		}
	}
	return labour, len(seen)
}

// Lacks says what the sums are made without: "what an hour costs and 34 prices"; "" for nothing.
func (p Plan) Lacks() string {
	var lacks []string
	labour, things := p.Unpriced()
	if labour {
		lacks = append(lacks, "what an hour costs")
	}
	switch {
	case things == 1:
		lacks = append(lacks, "1 price")
	case things > 1:
		lacks = append(lacks, fmt.Sprintf("%d prices", things))
	}
	return strings.Join(lacks, " and ")
}

func noRate(skill string) Problem {
	return Problem{Severity: SeverityError, Lacks: LacksRate, Summary: fmt.Sprintf("no hourly rate for %q: that work is priced without its labour", skill),
		Next: fmt.Sprintf("set rates.%s in fettle.yaml", skill)}
}

func noPrice(what, key, code string) Problem {
	return Problem{Severity: SeverityError, Lacks: LacksPrice, Summary: fmt.Sprintf("no price in %s for %s", code, what),
		Next: fmt.Sprintf("add %q to the price book: fettle price set %s 12.50", key, key)}
}

func round(x float64) int64 { return int64(math.Floor(x + 0.5)) }

// ParsePercent checks a decimal percentage.
func ParsePercent(s string) (float64, error) {
	f, err := strconv.ParseFloat(s, 64)
	if err != nil || f < 0 || f > 100 {
		return 0, Errorf(Invalid, "write a percentage like 8.25", "%q is not a percentage", s)
	}
	return f, nil
}
