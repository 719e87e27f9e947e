package config

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/fettle-tools/fettle/core"
)

// PriceColumns are the columns of a price file, in their usual order.
var PriceColumns = []string{"item", "supplier", "kind", "low", "likely", "high", "currency", "exchange", "lead_low", "lead_likely", "lead_high", "date", "note"}

// decimalComma is an amount as written where the comma is the decimal sign.
var decimalComma = regexp.MustCompile(`^([0-9]+),([0-9]{1,2})$`)

// amount is a decimal amount.
var amount = regexp.MustCompile(`^[0-9]{1,12}(\.[0-9]{1,6})?$`)

// ReadPrices reads a CSV price file:
//
//	item,supplier,kind,low,likely,high,currency,exchange,lead_low,lead_likely,lead_high,date,note
//	gearbox-overhaul-parts,Upper Yard,new,220,380,720,USD,,1,4,16,2026-03-02,by telephone
//
// kind is one of core.PriceKinds. likely is needed; low and high are likely if blank. exchange is what is charged until
// the old unit is returned. Lead is in weeks, blank for none known. The date is the day of asking. In a file parted by
// semicolons 12,50 is read as 12.50. A row that cannot be read is told, and is not among the entries; the others are.
func ReadPrices(data []byte, file string) ([]core.PriceEntry, Faults) {
	t := readTable(data, file, PriceColumns, nil)
	var entries []core.PriceEntry
	for _, r := range t.rows {
		before := len(t.faults)
		if e := t.price(r); len(t.faults) == before {
			entries = append(entries, e)
		}
	}
	return entries, t.faults.sorted()
}

func (t *table) price(r record) core.PriceEntry {
	c := r.cells
	e := core.PriceEntry{Item: c[0], Supplier: c[1], Kind: strings.ToLower(c[2]), Note: c[12]}
	if e.Item == "" {
		t.add(r.line, "item", "write the key that the sheet gives it", "the item is blank")
	}
	if !slices.Contains(core.PriceKinds, e.Kind) {
		t.add(r.line, "kind", "write one of: "+strings.Join(core.PriceKinds, ", "), "%q is no kind of supply", c[2])
	}
	e.Price = core.Money3{Low: t.amount(r.line, "low", c[3]), Likely: t.amount(r.line, "likely", c[4]), High: t.amount(r.line, "high", c[5]), Currency: strings.ToUpper(c[6])}
	if c[4] == "" {
		t.add(r.line, "likely", "write the likely price", "there is no price")
	}
	if !core.ValidCurrency(e.Price.Currency) {
		t.add(r.line, "currency", "write its three letters, like USD", "%q is no currency", c[6])
	} else {
		t.rising(r.line, e.Price)
	}
	e.Exchange = t.amount(r.line, "exchange", c[7])
	e.LeadWeeks = t.lead(r.line, c[8:11])
	e.Date = t.date(r.line, c[11])
	return e
}

// amount reads a decimal amount as text; "" if it is blank.
func (t *table) amount(line int, column, s string) string {
	if s == "" {
		return ""
	}
	if t.comma == ';' {
		s = decimalComma.ReplaceAllString(s, "$1.$2")
	}
	if !amount.MatchString(s) {
		t.add(line, column, "write an amount like 12.50, without the currency's sign", "%q is no amount", s)
		return ""
	}
	return s
}

// rising checks that low, likely and high rise, as far as they are written.
func (t *table) rising(line int, m core.Money3) {
	var last core.Money
	for i, s := range []string{m.Low, m.Likely, m.High} {
		if s == "" {
			continue
		}
		a, err := core.NewMoney(s, m.Currency)
		if err != nil {
			t.add(line, PriceColumns[3+i], core.ErrorNext(err), "%q is no amount of %s", s, m.Currency)
			return
		}
		if last.CurrencyCode() != "" {
			if c, err := a.Cmp(last); err == nil && c < 0 {
				t.add(line, PriceColumns[3+i], "write low, likely, high, rising", "%s is less than the price before it", s)
			}
		}
		last = a
	}
}

// lead reads low, likely and high in weeks; those left blank are taken from likely.
func (t *table) lead(line int, cells []string) core.Range3 {
	var v [3]float64
	for i, s := range cells {
		if s == "" {
			s = cells[1]
		}
		if s == "" {
			continue
		}
		if t.comma == ';' {
			s = decimalComma.ReplaceAllString(s, "$1.$2")
		}
		x, err := strconv.ParseFloat(s, 64)
		if err != nil || !(x >= 0 && x <= 1000) {
			t.add(line, PriceColumns[8+i], "write weeks, like 4", "%q is no number of weeks", s)
			return core.Range3{}
		}
		v[i] = x
	}
	if v[0] > v[1] || v[1] > v[2] {
		t.add(line, "lead_likely", "write lead_low, lead_likely, lead_high, rising", "the weeks do not rise")
	}
	return core.Range3{Low: v[0], Likely: v[1], High: v[2]}
}

// date reads the day of asking.
func (t *table) date(line int, s string) time.Time {
	x, err := time.Parse(time.DateOnly, s)
	if err != nil {
		t.add(line, "date", "write the day it was asked, like 2026-03-02", "%q is no date", s)
	}
	return x
}
