package paper

import (
	"math"
	"strconv"
	"strings"

	"github.com/bojanz/currency"

	"github.com/fettle-tools/fettle/core"
)

// amount writes money with thousands separators and no currency: that is stated once.
func amount(m core.Money) string {
	if m.CurrencyCode() == "" {
		return ""
	}
	return format(m.Round(), true)
}

// withCode writes money with its currency, for a sum that somebody signs for.
func withCode(m core.Money) string { return m.CurrencyCode() + "\u00a0" + amount(m) }

// toFive writes money rounded to 5 whole units: the way ranges are shown to people (trade practice).
func toFive(m core.Money) string { return toWhole(m, 5) }

// toWhole writes money rounded to a number of whole units.
func toWhole(m core.Money, units int64) string {
	if m.CurrencyCode() == "" {
		return ""
	}
	return format(m.Near(units), false)
}

// format writes an amount for people, with the digits of its currency or without those that are nothing.
func format(m core.Money, digits bool) string {
	a, err := currency.NewAmount(m.Number(), m.CurrencyCode())
	if err != nil {
		return m.Number() // no currency that has a way of writing
	}
	f := currency.NewFormatter(currency.NewLocale("en"))
	f.CurrencyDisplay = currency.DisplayNone
	if !digits {
		f.MinDigits = 0
	}
	return f.Format(a)
}

// span writes a range of money rounded to 5, or to 1 where all of it lies under 100; one figure if both
// ends are the same.
func span(low, high core.Money) string {
	if low.CurrencyCode() == "" || high.CurrencyCode() == "" {
		return ""
	}
	if core.Minor(low) == core.Minor(high) {
		return amount(low)
	}
	units := int64(5)
	if hundred, err := core.NewMoney("100", high.CurrencyCode()); err == nil && core.Minor(high) < core.Minor(hundred) {
		units = 1
	}
	return toWhole(low, units) + "–" + toWhole(high, units)
}

// upTo writes the most that a held-back line may come to.
func upTo(high core.Money) string {
	if core.Minor(high) == 0 {
		return ""
	}
	_, text, _ := strings.Cut(span(core.MinorMoney(0, high.CurrencyCode()), high), "–")
	return "up to " + text
}

// sum adds money of one currency; nothing gives zero of the code.
func sum(code string, ms ...core.Money) core.Money {
	var n int64
	for _, m := range ms {
		n += core.Minor(m)
	}
	return core.MinorMoney(n, code)
}

// percent writes a share of 0 to 1 in whole per cent; what is less than half of one is not called none.
func percent(share float64) string {
	if share > 0 && share < .005 {
		return "under 1%"
	}
	return strconv.Itoa(int(math.Floor(share*100+.5))) + "%"
}

// ratio is a over b in minor units; 0 where b is none.
func ratio(a, b core.Money) float64 {
	if core.Minor(b) == 0 {
		return 0
	}
	return float64(core.Minor(a)) / float64(core.Minor(b))
}
