package config

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

func TestReadPrices(t *testing.T) {
	header := strings.Join(PriceColumns, ",")
	want := core.PriceEntry{Item: "rollers", Supplier: "Upper Yard", Kind: "new old stock", Price: core.Money3{Low: "10", Likely: "12.50", High: "20", Currency: "USD"},
		Exchange: "5", LeadWeeks: core.Range3{Low: 1, Likely: 4, High: 16.5}, Date: time.Date(2026, 3, 2, 0, 0, 0, 0, time.UTC), Note: "by telephone"}
	got, faults := ReadPrices([]byte(header+"\nrollers,Upper Yard,New old stock,10,12.50,20,usd,5,1,4,16.5,2026-03-02,by telephone\nbolts,,on the shelf,,3,,USD,,,2,,2026-03-02,\n"), "x")
	require.Empty(t, faults)
	require.Equal(t, want, got[0])
	require.Equal(t, core.Money3{Likely: "3", Currency: "USD"}, got[1].Price)
	require.Equal(t, core.Range3{Low: 2, Likely: 2, High: 2}, got[1].LeadWeeks)

	got, faults = ReadPrices([]byte(strings.ReplaceAll(header, ",", ";")+"\nrollers;Upper Yard;new old stock;10;12,50;20;USD;5;1;4;16,5;2026-03-02;by telephone\n"), "x")
	require.Empty(t, faults)
	require.Equal(t, want, got[0], "the comma of a file parted by semicolons is a decimal one")

	got, faults = ReadPrices([]byte(header+"\n"+
		"rollers,,fresh,1,2,3,USD,,,,,2026-03-02,\n"+
		"rollers,,new,3,2,1,USD,,,,,2026-03-02,\n"+
		",,new,,,,ZZZ,-1,9,4,1,,\n"+
		"rollers,,new,$1,2,3,USD,,many,,,02.03.2026,\n"+
		"rollers,,new,1,2,3,USD,,,,,2026-03-02,good\n"), "x")
	require.Len(t, got, 1)
	require.Equal(t, []string{`2, kind: "fresh" is no kind of supply`, "3, likely: 2 is less than the price before it", "3, high: 1 is less than the price before it",
		"4, item: the item is blank", "4, likely: there is no price", `4, currency: "ZZZ" is no currency`, `4, exchange: "-1" is no amount`,
		"4, lead_likely: the weeks do not rise", `4, date: "" is no date`, `5, low: "$1" is no amount`, `5, lead_low: "many" is no number of weeks`,
		`5, date: "02.03.2026" is no date`}, places(t, faults))
}
