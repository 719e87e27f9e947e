package sdk

import (
	"testing"

	"github.com/fettle-tools/fettle/core"
	"github.com/stretchr/testify/require"
)

// Worked example of the trade, common practice: lines 54.2500 and 54.0625 apart, tyres 29 in, swivel arms 6.5 in, 16
// threads to the inch, to be brought to .0625.
func TestToe(t *testing.T) {
	x := Toe{Rear: 54.25, Front: 54.0625, Tyre: 29}
	require.InDelta(t, .1875, x.In(), 1e-9)
	require.InDelta(t, .370, x.Degrees(), .0005)
	require.InDelta(t, 34.1, x.SideSlip(), .05)
	change := RodChange(x.In()-.0625, 6.5, 29)
	require.InDelta(t, .0280, change, .00005)
	require.InDelta(t, .448, RodTurns(change, 16, false), .0005)
	require.InDelta(t, .224, RodTurns(change, 16, true), .0005)
	require.Negative(t, Toe{Rear: 54, Front: 54.1, Tyre: 29}.In(), "toe-out")
}

// 49 CFR 570.60(d): rejected over 1.5 times the maker's toe. At the limit it is not over it.
func TestToeLimit(t *testing.T) {
	require.InDelta(t, .1875, ToeLimit(.125), 1e-9)
	l := .1875
	zero, top := 0.0, .125
	j := Judge(.1875, 0, core.Limit{NewLow: &zero, NewHigh: &top, WearHigh: &l, Unit: "in"}, core.Derived, true)
	require.Equal(t, "near limit", j.Grade.String())
}
