// Package finaldrive is what the rules of the rear and the front axle share: they have the same crown wheel and pinion,
// bearings and packs, under the same names.
//
//	ratio.go     the ratio a pair leaves behind, and both axles alike
//	backlash.go  backlash by the side packs, back to its figure as found or to a new one
//	pinion.go    pinion depth by its marks, preload by a trial pack, rolling torque as proof
//	warning.go   what one part tells of others
//
// The sums are those of package sdk.
package finaldrive

import (
	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

// Parts that both sheets have.
var (
	pair           = core.Target{Part: "crown-wheel-pinion"}
	gears          = []core.Target{{Part: "final-gear", Position: "crown-wheel"}, {Part: "final-gear", Position: "pinion"}}
	pinionBearings = core.Target{Part: "pinion-bearings"}
	depthPack      = core.Target{Part: "depth-pack"}
	preloadPack    = core.Target{Part: "preload-pack"}
	backPack       = core.Target{Part: "side-pack", Position: "back"}
	toothPack      = core.Target{Part: "side-pack", Position: "tooth"}
)

// common is the source of what the trade knows and nobody printed.
const common = "common practice, no source"

// Rules are the rules of the final drive of one axle.
func Rules(b *sdk.Bench) {
	ratio(b)
	backlash(b)
	depth(b)
	preload(b)
	rollingTorque(b)
}

// inches writes a length that was worked out, to a tenth of a thousandth.
func inches(x float64) core.Value {
	return core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: round(x), Unit: "in"}}
}
