// Package bottomend is the engine bottom end as a subsystem: crankshaft, bearings, connecting rods, main bearing
// tunnel, oil pump and sump.
//
// Most of it is sheet.yaml. What a sheet cannot say stands beside it, in the order it is used:
//
//	group.go       mains and pins: a group takes one size
//	present.go     a crank that is at an undersize already is graded against that size
//	grind.go       the step a group needs, by its worst journal
//	crankshaft.go  what may be done to the crank while its crack test is still to come
//	thrust.go      thrust washers chosen from those to be had
//	evidence.go    what shells, bolts and the sump tell of the rest
package bottomend

import (
	_ "embed"

	"github.com/fettle-tools/fettle/core/sdk"
)

//go:embed sheet.yaml
var sheet []byte

// Subsystem is the bottom end, to be served or checked.
func Subsystem() sdk.Subsystem { return sdk.Subsystem{Sheet: sheet, Prepare: prepare, Rules: rules} }

// prepare moves limits before grading.
func prepare(p *sdk.Prepare) {
	for _, g := range groups {
		g.present(p)
	}
}

// rules says what hangs on more than one part.
func rules(b *sdk.Bench) {
	for _, g := range groups {
		g.grind(b)
	}
	crankshaftRules(b)
	thrustRules(b)
	evidence(b)
}

// common is the source of what the trade knows and nobody printed.
const common = "common practice, no source"
