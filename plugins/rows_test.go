package plugins_test

import (
	"testing"

	"github.com/fettle-tools/fettle/core"
	"github.com/stretchr/testify/require"
)

// row is one row of the trade's table of limits. The figures are worked for a demonstration unit; the sources stand in
// the sheets, beside each limit.
type row struct {
	id, part, check string
	kind            core.CheckKind
	unit            string
	limit           bounds
	confidence      string
}

// bounds are what new is, and the limit on the side that wears.
type bounds struct {
	newLow, newHigh   float64
	wearLow, wearHigh *float64
	worst             *int
}

func most(low, high, limit float64) bounds {
	return bounds{newLow: low, newHigh: high, wearHigh: &limit}
}
func least(low, high, limit float64) bounds {
	return bounds{newLow: low, newHigh: high, wearLow: &limit}
}
func class(asNew float64, worst int) bounds { return bounds{newHigh: asNew, worst: &worst} }
func goNoGo() bounds                        { return bounds{} }

// Every row of the table is one check of the sheet, with the same limit for the same nominal sizes.
func TestRows(t *testing.T) {
	for _, b := range builtIns() {
		require.Len(t, b.rows, b.count, "rows of the table for %s", b.name)
		_, sheet := b.described(t)
		seen := map[string]bool{}
		for _, r := range b.rows {
			t.Run(r.id, func(t *testing.T) {
				require.False(t, seen[r.part+"/"+r.check], "one check, one row")
				seen[r.part+"/"+r.check] = true
				c := sheet.Check(r.part, r.check)
				require.NotNil(t, c)
				r.require(t, *c)
			})
		}
	}
}

func (r row) require(t *testing.T, c core.Check) {
	t.Helper()
	require.Equal(t, r.kind, c.Kind)
	require.Equal(t, r.unit, c.Unit)
	require.Equal(t, r.confidence, c.Limit.Confidence)
	require.Equal(t, r.limit.worst, c.Limit.WorstClass)
	sameBound(t, r.limit.wearLow, c.Limit.WearLow)
	sameBound(t, r.limit.wearHigh, c.Limit.WearHigh)
	switch r.kind {
	case core.Judged:
		sameBound(t, &r.limit.newHigh, c.Limit.NewHigh)
	case core.Measured, core.Derived, core.Counted:
		sameBound(t, &r.limit.newLow, c.Limit.NewLow)
		sameBound(t, &r.limit.newHigh, c.Limit.NewHigh)
	}
}

func sameBound(t *testing.T, want, got *float64) {
	t.Helper()
	require.Equal(t, want == nil, got == nil, "bound present")
	if want != nil {
		require.InDelta(t, *want, *got, 1e-9)
	}
}
