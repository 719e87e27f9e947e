package electrics

import (
	"fmt"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

var starterCircuit = core.Target{Part: "starter-circuit"}

// starterRules tells what the circuit may drop at the current it was read at, so that the meter's own figure can be
// held against a limit.
func starterRules(b *sdk.Bench) {
	amps, _, ok := b.Reading(starterCircuit, "cranking-current", "")
	l, limited := b.Limit(starterCircuit, "drop-per-100A")
	if !ok || !limited || l.WearHigh == nil {
		return
	}
	b.AddFact(starterCircuit, core.Fact{Name: "allowed-drop", Source: fmt.Sprintf("%s V for each 100 A (%s)", core.FormatNumber(*l.WearHigh), l.Source),
		Value: core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: sdk.AllowedDrop(*l.WearHigh, amps.Value), Unit: "V"}}})
}
