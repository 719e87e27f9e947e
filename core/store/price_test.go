package store

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

func price(item, likely string, day int) core.PriceEntry {
	return core.PriceEntry{Item: item, Supplier: "Upper Yard", Kind: "new", Price: core.Money3{Low: likely, Likely: likely, High: likely, Currency: "USD"},
		Date: time.Date(2026, 2, day, 0, 0, 0, 0, time.UTC)}
}

func TestPricesAreTheLatest(t *testing.T) {
	b := newBook(t)
	rows := []core.PriceEntry{price("rollers", "12.50", 3), price("bearing", "40", 5), price("bearing", "44", 9), price("bearing", "38", 1)}
	a, err := b.ImportPrices(t.Context(), "Wren", rows)
	require.NoError(t, err)
	require.Len(t, a.New, 4)
	a, err = b.ImportPrices(t.Context(), "Wren", rows)
	require.NoError(t, err)
	require.Len(t, a.There, 4)
	got, err := b.Prices(t.Context())
	require.NoError(t, err)
	require.Equal(t, []core.PriceEntry{rows[2], rows[0]}, got, "by item; an older date never wins, however late it comes")

	require.NoError(t, b.AddPrices(t.Context(), "Wren", []core.PriceEntry{price("bearing", "45", 9)}))
	require.NoError(t, b.AddPrices(t.Context(), "Wren", []core.PriceEntry{price("bearing", "44", 9)}))
	got, err = b.Prices(t.Context())
	require.NoError(t, err)
	require.Equal(t, "44", got[0].Price.Likely, "of one day the last typed")
	_, err = b.Undo(t.Context(), "", "Wren")
	require.NoError(t, err)
	got, err = b.Prices(t.Context())
	require.NoError(t, err)
	require.Equal(t, "45", got[0].Price.Likely)
}
