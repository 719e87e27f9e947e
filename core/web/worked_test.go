package web

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// What is worked out from other readings stands there as such, and is neither counted nor asked; what was read of it besides stands instead.
func TestWhatIsWorkedOutIsNotAsked(t *testing.T) {
	target := core.Target{Part: "crankpin", Position: "P1"}
	us := core.UnitSheet{Subsystem: "bottom-end", Unit: "engine", Sheet: core.Sheet{Parts: []core.Part{{ID: "crankpin", Name: "Crankpin", Positions: []string{"P1"}, Checks: []core.Check{
		{ID: "diameter", Name: "diameter", Kind: core.Measured, Stations: []string{"FV", "FH"}}, {ID: "out-of-round", Name: "out-of-round", Kind: core.Derived}}}}},
		Assessment: core.Assessment{Conditions: []core.Condition{{Target: target, Facts: []core.Fact{{Name: "out-of-round", Value: core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: .0012, Unit: "in"}}}}}}}}
	read := []core.Finding{{Target: target, Check: "diameter", Station: "FV", AsTyped: "1.9988 in"}}
	var p benchPage
	p.fill(us, read)
	require.Equal(t, []int{1, 2}, []int{p.Read, p.Asked})
	require.Equal(t, "0.0012 in, worked out", p.Parts[0].Questions[2].Answered())
	p = benchPage{}
	p.fill(us, append(read, core.Finding{Target: target, Check: "out-of-round", AsTyped: ".001 in"}))
	require.Equal(t, ".001 in", p.Parts[0].Questions[2].Answered())
}
