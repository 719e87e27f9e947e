package core

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// Two sheets of one engine ask for the same piece of work: it is one operation, at the first sheet's price; another unit has its own.
func TestWorkOfAUnitIsPaidOnce(t *testing.T) {
	sheet := func(subsystem, unit, per string) UnitSheet {
		return UnitSheet{Subsystem: subsystem, Unit: unit, Sheet: Sheet{Subsystem: subsystem, UnitKind: "engine"},
			Assessment: Assessment{Operations: []Operation{{ID: "align-bore", Name: "Align bore", Outwork: Money3{Low: "180", Likely: "300", High: "450", Currency: "USD"}, ServedPer: per}}}}
	}
	ops := func(sheets ...UnitSheet) *bench {
		return newBench(PlanRequest{Terms: Terms{Currency: "USD"}}, sheets)
	}
	b := ops(sheet("bottom-end", "engine", "unit"), sheet("cylinders", "engine", "unit"), sheet("cylinders", "engine-2", "unit"))
	require.Len(t, b.sel.Operations, 2)
	first, second := b.operations(b.sheets[0], []string{"align-bore"}), b.operations(b.sheets[1], []string{"align-bore"})
	require.Equal(t, first, second)
	require.NotEqual(t, first, b.operations(b.sheets[2], []string{"align-bore"}))
	require.Len(t, ops(sheet("bottom-end", "engine", "job"), sheet("cylinders", "engine", "job")).sel.Operations, 2)
}
