// Package head is the cylinder head with its valve train, timing drive and manifolds as a subsystem.
//
// Most of it is sheet.yaml. What a sheet cannot say stands beside it:
//
//	skim.go      a skim has to leave the head thick enough
//	studs.go     broken studs are paid by their number
//	springs.go   what the load of the springs says of the set
//	evidence.go  what valves and seats tell of one another
package head

import (
	_ "embed"

	"github.com/fettle-tools/fettle/core/sdk"
)

//go:embed sheet.yaml
var sheet []byte

// Subsystem is the cylinder head, to be served or checked.
func Subsystem() sdk.Subsystem { return sdk.Subsystem{Sheet: sheet, Rules: rules} }

// rules says what hangs on more than one reading.
func rules(b *sdk.Bench) {
	skim(b)
	studs(b)
	springs(b)
	evidence(b)
}

// common is the source of what the trade knows and nobody printed.
const common = "common practice, no source"
