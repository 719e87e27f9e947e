package sdk

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// Three of the same are three times the hours and the goods, and wait no longer.
func TestTimes(t *testing.T) {
	o := core.Operation{ID: "insert", Name: "Insert", Hours: core.Range3{Low: .3, Likely: .5, High: 1}, LeadWeeks: core.Range3{Likely: 1},
		Items: []core.Item{{Key: "insert", Count: 1}}, Outwork: core.Money3{Low: "0", Likely: "12.50", High: "40", Currency: "USD"}}
	x := Times(o, 3)
	require.InDelta(t, 1.5, x.Hours.Likely, 1e-12)
	require.InDelta(t, 3, x.Items[0].Count, 1e-12)
	require.InDelta(t, 1, o.Items[0].Count, 1e-12, "the sheet's own is not touched")
	require.Equal(t, core.Money3{Low: "0", Likely: "37.50", High: "120", Currency: "USD"}, x.Outwork)
	require.Equal(t, "Insert, 3 times", x.Name)
	require.InDelta(t, 1, x.LeadWeeks.Likely, 1e-12)
}
