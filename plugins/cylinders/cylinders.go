// Package cylinders is the cylinder block with its bores and pistons as a subsystem.
//
// Most of it is sheet.yaml. What a sheet cannot say stands beside it, in the order it is used:
//
//	group.go     bores and pistons: a block takes one size
//	present.go   a block that is at an oversize already is graded against that size
//	sealing.go   compression as a share of the best cylinder, and what the pattern says
//	rebore.go    the step a block needs, by its worst bore
//	sleeve.go    sleeves as the other offer, pits, walls
//	rings.go     what new rings and new pistons would come to in a worn bore
//	evidence.go  what plugs, rings and threads tell of the rest
package cylinders

import (
	_ "embed"

	"github.com/fettle-tools/fettle/core/sdk"
)

//go:embed sheet.yaml
var sheet []byte

// Subsystem is the cylinder block, to be served or checked.
func Subsystem() sdk.Subsystem { return sdk.Subsystem{Sheet: sheet, Prepare: prepare, Rules: rules} }

// prepare moves limits before grading, and gives what one cylinder alone cannot say.
func prepare(p *sdk.Prepare) {
	present(p)
	compression(p)
}

// rules says what hangs on more than one part.
func rules(b *sdk.Bench) {
	rebore(b)
	rings(b)
	sealing(b)
	threads(b)
	evidence(b)
}

// common is the source of what the trade knows and nobody printed.
const common = "common practice, no source"
