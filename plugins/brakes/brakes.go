// Package brakes is the hydraulic drum brakes as a subsystem, with the hand brake on the transmission.
//
// Most of it is sheet.yaml. What a sheet cannot say stands beside it:
//
//	prepare.go  what one part's readings say of another: drums across an axle, bonded linings
//	drums.go    what a drum cleans up at, and what that leaves open to its axle
//	shoes.go    a twisted shoe is not relined
//	pipes.go    two bad runs of pipe are the full set
package brakes

import (
	_ "embed"

	"github.com/fettle-tools/fettle/core/sdk"
)

//go:embed sheet.yaml
var sheet []byte

// Subsystem is the brakes, to be served or checked.
func Subsystem() sdk.Subsystem { return sdk.Subsystem{Sheet: sheet, Prepare: prepare, Rules: rules} }

// prepare gives values that no formula of one part can reach.
func prepare(p *sdk.Prepare) {
	acrossTheAxle(p)
	bonded(p)
}

// rules says what hangs on more than one part.
func rules(b *sdk.Bench) {
	for _, a := range axles {
		a.drums(b)
	}
	shoeRules(b)
	pipeRules(b)
}

// common is the source of what the trade knows and nobody printed.
const common = "common practice, no source"
