package main

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"github.com/fettle-tools/fettle/core"
)

// bought shows one order as it stands.
func (c *command) bought(s *shop, story core.Story, number string) error {
	p := story.Bought(number)
	if c.asJSON() {
		return writeJSON(c.out, p)
	}
	fmt.Fprintf(c.out, "%s  %s of %s, from %s\n", p.ID, core.FormatNumber(p.Count), p.What, p.From)
	t := newTable("", "")
	t.add("is", strings.TrimSuffix(p.State+": "+p.Why, ": "))
	t.add("price", amount(p.Price)+" "+p.Price.CurrencyCode()+" before tax")
	if p.Exchange != nil {
		word := ", held until the old unit is back"
		if p.Outstanding() == nil {
			word = ", back"
		}
		t.add("exchange", amount(*p.Exchange)+word)
	}
	for _, r := range [][2]string{{"promised", s.day(p.Due)}, {"lies", p.Lies}} {
		if r[1] != "" {
			t.add(r[0], r[1])
		}
	}
	t.add("for", strings.Join(p.Lines, ", "))
	t.print(c.out, "  ", screen)
	if p.State == core.PurchaseOrdered {
		c.print(fmt.Sprintf("\n  %s buy %s %s --arrived --lies WHERE    when it is here", c.self(), story.Job.Number, p.ID))
	}
	return nil
}

// buyingJSON is what buy --json prints of a job.
type buyingJSON struct {
	Job       string          `json:"job"`
	ToBuy     []core.Wanted   `json:"to_buy"`
	Late      []string        `json:"late"`
	Purchases []core.Purchase `json:"purchases"`
	Exchange  core.Money      `json:"exchange_outstanding"`
}

func (c *command) showBuying(s *shop, story core.Story, p core.Plan) error {
	now := c.clock()
	v := buyingJSON{story.Job.Number, orEmpty(story.ToBuy(p)), []string{}, orEmpty(story.Purchases), core.MinorMoney(0, s.settings().Currency)}
	for _, b := range story.Purchases {
		if b.Late(now) {
			v.Late = append(v.Late, b.ID)
		}
	}
	if held := story.ExchangeOutstanding(); held != nil {
		v.Exchange = *held
	}
	if c.asJSON() {
		return writeJSON(c.out, v)
	}
	printBuying(c.out, s, v, now)
	return nil
}

func printBuying(w io.Writer, s *shop, v buyingJSON, now time.Time) {
	if len(v.ToBuy) == 0 {
		fmt.Fprintln(w, "nothing of "+v.Job+" is to be bought")
	}
	var suppliers []string
	for _, x := range v.ToBuy {
		if !slices.Contains(suppliers, x.Supplier) {
			suppliers = append(suppliers, x.Supplier)
		}
	}
	for i, name := range suppliers {
		if i > 0 {
			fmt.Fprintln(w)
		}
		printSupplier(w, name, v.ToBuy)
	}
	if len(v.Purchases) == 0 {
		return
	}
	fmt.Fprintln(w)
	t := newTable("ordered", "from", ">price", ">exchange", "promised", "is", "what")
	for _, b := range v.Purchases {
		is, exchange := b.State, ""
		if b.Late(now) {
			is = "LATE"
		}
		if m := b.Outstanding(); m != nil {
			exchange = amount(*m)
		}
		t.add(b.ID, b.From, amount(b.Price), exchange, s.day(b.Due), is, fmt.Sprintf("%s of %s", core.FormatNumber(b.Count), b.What))
	}
	t.print(w, "", screen)
	if core.Minor(v.Exchange) > 0 {
		fmt.Fprintf(w, "%s in exchange charges comes back with the old units\n", amount(v.Exchange))
	}
}

// printSupplier lists what is to be bought from one supplier, each item once.
func printSupplier(w io.Writer, name string, all []core.Wanted) {
	title := name
	if title == "" {
		title = "nobody asked yet: the prices are typical, or not known"
	}
	fmt.Fprintln(w, title)
	t := newTable("", ">", ">", "", "")
	for _, r := range core.ByItem(all) {
		if r.Supplier != name {
			continue
		}
		no := ""
		switch {
		case r.Waits:
			no = "WAITS FOR ITS SET"
		case r.NotAuthorised != "":
			no = "NOT AUTHORISED"
		}
		if r.Old {
			no = strings.TrimSpace(no + " price is old")
		}
		each := amount(r.Each)
		if r.Unpriced {
			each = "no price"
		}
		t.add(r.Key, core.FormatNumber(r.Count), each, no, r.Name)
	}
	t.print(w, "  ", screen)
}
