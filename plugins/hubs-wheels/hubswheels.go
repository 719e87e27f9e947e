// Package hubswheels is the hubs, wheel bearings, wheels and tyres as a subsystem.
//
// Most of it is sheet.yaml. What a sheet cannot say stands beside it:
//
//	tread.go   the tread that a heavy vehicle's front wheels need
//	spread.go  how far the road tyres roll apart, from their own readings
//	float.go   how far to turn a hub's nut
//	studs.go   one bad stud, or all of the hub; the hand of its threads
package hubswheels

import (
	_ "embed"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

//go:embed sheet.yaml
var sheet []byte

// Subsystem is the hubs and wheels, to be served or checked.
func Subsystem() sdk.Subsystem { return sdk.Subsystem{Sheet: sheet, Prepare: prepare, Rules: rules} }

func prepare(p *sdk.Prepare) {
	heavyTread(p)
	tyreSpread(p)
}

func rules(b *sdk.Bench) {
	for _, position := range corners {
		float(b, position)
		studs(b, position)
		handing(b, position)
	}
}

// corners are the positions of hubs.
var corners = []string{"LF", "RF", "LR", "RR"}

// common is the source of what the trade knows and nobody printed.
const common = "common practice, no source"

// sized gives a fact that is a size in a unit.
func sized(v core.Value, known bool, unit string) (x float64, ok bool) {
	if !known || v.Kind != core.ValueQuantity {
		return 0, false
	}
	q, err := v.Quantity.In(unit)
	return q.Value, err == nil
}
