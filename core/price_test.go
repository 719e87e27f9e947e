package core

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func terms(t *testing.T) Terms {
	t.Helper()
	rate, err := NewMoney("85", "USD")
	require.NoError(t, err)
	return Terms{Currency: "USD", Rates: []Rate{{"mechanic", rate}}, Taxes: []Tax{{"parts", "8.25", "sales tax"}, {"labour", "0", "none"}}}
}

// The crank line of the trade's worked example: 4/6/9 h at 85, shells 180/260/420, grinding 220/320/480: 740 / 1 090 / 1 665, mean
// 1 127.50 (common practice).
func TestPriceOperationWorkedExample(t *testing.T) {
	c, ps := terms(t).PriceOperation(Operation{ID: "regrind", Name: "Regrind", Skill: "mechanic", Hours: Range3{4, 6, 9},
		Items:   []Item{{Key: "shells", Name: "Shells", Count: 1, TypicalEach: Money3{"180", "260", "420", "USD"}}},
		Outwork: Money3{"220", "320", "480", "USD"}, LeadWeeks: Range3{2, 4, 10}})
	require.Empty(t, ps)
	require.Equal(t, Range3{74000, 109000, 166500}, c.Total())
	require.Equal(t, int64(112750), c.Expected)
	require.Equal(t, Range3{2, 4, 10}, c.Lead)
	require.Equal(t, int64(60333), c.Typical, "shells 273.33 and grinding 330.00 that nobody has asked")
	sum := int64(0)
	for _, s := range c.Shares {
		sum += s.Amount
	}
	require.Equal(t, c.Expected, sum)
}

func TestPriceBookOverridesTypical(t *testing.T) {
	terms := terms(t)
	day := time.Date(2026, 10, 1, 0, 0, 0, 0, time.UTC)
	terms.Prices = []PriceEntry{
		{Item: "shells", Supplier: "A", Kind: "new", Price: Money3{"300", "300", "300", "USD"}, Date: day},
		{Item: "shells", Supplier: "B", Kind: "used", Price: Money3{"200", "210", "220", "USD"}, LeadWeeks: Range3{1, 3, 6}, Date: day},
		{Item: "shells", Supplier: "C", Kind: "new", Price: Money3{"1", "1", "1", "EUR"}, Date: day},
		{Item: "regrind", Supplier: "T", Kind: "new", Price: Money3{"330", "330", "330", "USD"}, LeadWeeks: Range3{4, 8, 12}, Date: day},
	}
	c, ps := terms.PriceOperation(Operation{ID: "regrind/M1", Name: "Regrind", Items: []Item{{Key: "shells", Name: "Shells", Count: 2, TypicalEach: Money3{"180", "260", "420", "USD"}}},
		Outwork: Money3{"220", "320", "480", "USD"}, LeadWeeks: Range3{2, 4, 10}})
	require.Empty(t, ps)
	require.Equal(t, "B", c.Items[0].Supplier, "the cheapest likely price in the job's currency")
	require.Equal(t, int64(42000+33000), c.Expected)
	require.Zero(t, c.Typical)
	require.Equal(t, Range3{4, 8, 12}, c.Lead, "the longest wait that a supplier named")
}

func TestPriceAsksRatherThanGuesses(t *testing.T) {
	terms := terms(t)
	terms.Currency = "GBP"
	c, ps := terms.PriceOperation(Operation{ID: "x", Name: "X", Skill: "welder", Hours: Range3{1, 1, 1}, Items: []Item{{Key: "k", Name: "K", Count: 1, TypicalEach: Money3{"1", "2", "3", "USD"}}}, Outwork: Money3{"1", "2", "3", "USD"}})
	require.Len(t, ps, 3)
	require.Zero(t, c.Expected)
	for _, p := range ps {
		require.NotEmpty(t, p.Next)
	}
}

// ISO 4217: USD, EUR, GBP, SEK, DKK have 2 minor digits; JPY, KRW, CLP, ISK 0; BHD, KWD, JOD 3 (list one).
func TestMinorUnits(t *testing.T) {
	for code, minor := range map[string]int64{"USD": 1250, "EUR": 1250, "GBP": 1250, "SEK": 1250, "DKK": 1250, "JPY": 13, "KRW": 13, "CLP": 13, "ISK": 13, "BHD": 12500, "KWD": 12500, "JOD": 12500} {
		m, err := NewMoney("12.50", code)
		require.NoError(t, err)
		require.Equal(t, minor, Minor(m), code)
	}
	_, err := NewMoney("12,50", "USD")
	require.Equal(t, Invalid, ErrorCode(err))
	_, err = NewMoney("1", "XYZ")
	require.Error(t, err)
}

// Tax is rounded once for a line and class: 8.25 % of 0.07 is 0.005775, one cent; K01 of UBL 2.1's quotation example: 25 % of 43750 is 10937.50.
func TestTax(t *testing.T) {
	tax, unknown := terms(t).TaxOf([]TaxShare{{"parts", 7}, {"labour", 100000}, {"luxury", 5}})
	require.Equal(t, int64(1), tax)
	require.Equal(t, []string{"luxury"}, unknown)
	dkk := Terms{Currency: "DKK", Taxes: []Tax{{"goods", "25", "moms"}}}
	for _, c := range []struct{ base, tax int64 }{{15050000, 3762500}, {4375000, 1093750}, {175000, 43750}} {
		tax, _ := dkk.TaxOf([]TaxShare{{"goods", c.base}})
		require.Equal(t, c.tax, tax)
	}
}

func TestPercentToFactor(t *testing.T) {
	for in, out := range map[string]string{"8.25": "0.0825", "6": "0.06", "0": "0.00", "100": "1.00", "12.5": "0.125"} {
		require.Equal(t, out, percentToFactor(in), in)
	}
}

func TestSharesSumToTheLine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var c Cost
		for i := range rapid.IntRange(1, 5).Draw(t, "classes") {
			n := rapid.Int64Range(0, 1e7).Draw(t, "share")
			c.Shares = append(c.Shares, TaxShare{string(rune('a' + i)), n})
			c.Expected += n
		}
		amount := rapid.Int64Range(0, 1e7).Draw(t, "amount")
		sum := int64(0)
		for _, s := range scaleShares(c, amount) {
			sum += s.Amount
		}
		require.Equal(t, amount, sum)
	})
}
