package core_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

func TestBillsComeToTheTotal(t *testing.T) {
	usd := func(cents int64) core.Money { return core.MinorMoney(cents, "USD") }
	line := func(subsystem string, net, tax int64) core.Line {
		return core.Line{Subsystem: subsystem, Amount: usd(net), Tax: usd(tax)}
	}
	order := core.WorkOrder{TotalBeforeTax: usd(100_00 + 33_33 + 1), Lines: []core.Line{line("body", 100_00, 8_25), line("brakes", 33_33, 2_75), line("brakes", 1, 0)}}
	job := core.Job{Owner: core.Party{Name: "Owner"}, Payers: []core.Payer{{Party: "Mutual", Percent: "50", Subsystems: []string{"body"}}, {Party: "Trust", Percent: "33.3"}}}
	bills := job.Bills(order, []core.Party{{Name: "trust", TaxExempt: true, TaxWhy: "charity 1234"}})
	require.Len(t, bills, 3)
	require.Equal(t, []string{"Owner", "Mutual", "Trust"}, []string{bills[0].Party, bills[1].Party, bills[2].Party})
	require.Equal(t, "50.00", bills[1].Net.Number())
	require.Equal(t, "44.40", bills[2].Net.Number())
	require.Equal(t, "0.00", bills[2].Tax.Number())
	require.Equal(t, "pays no tax: charity 1234", bills[2].Why)
	sum := int64(0)
	for _, b := range bills {
		sum += core.Minor(b.Net)
	}
	require.Equal(t, core.Minor(order.TotalBeforeTax), sum)
}

func TestCheckPayers(t *testing.T) {
	served := []string{"body", "brakes"}
	require.NoError(t, core.CheckPayers([]core.Payer{{Party: "A", Percent: "60"}, {Party: "B", Percent: "40", Subsystems: []string{"body"}}}, served))
	require.ErrorContains(t, core.CheckPayers([]core.Payer{{Party: "A"}, {Party: "B", Percent: "1", Subsystems: []string{"body"}}}, served), "more than the whole of body")
	require.Equal(t, core.NotFound, core.ErrorCode(core.CheckPayers([]core.Payer{{Party: "A", Subsystems: []string{"sails"}}}, served)))
	require.Error(t, core.CheckPayers([]core.Payer{{Party: "A", Percent: "-3"}}, served))
}
