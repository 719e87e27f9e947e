// Package clutch is the clutch as a subsystem: flywheel, cover, driven plate, release gear, bell housing and linkage.
//
// Most of it is sheet.yaml. What a sheet cannot say stands beside it:
//
//	facing.go    what grinding the flywheel's face leaves of it
//	evidence.go  what one part tells of another, and of the units next to it
package clutch

import (
	_ "embed"

	"github.com/fettle-tools/fettle/core/sdk"
)

//go:embed sheet.yaml
var sheet []byte

// Subsystem is the clutch, to be served or checked.
func Subsystem() sdk.Subsystem { return sdk.Subsystem{Sheet: sheet, Rules: rules} }

func rules(b *sdk.Bench) {
	facing(b)
	evidence(b)
}

// common is the source of what the trade knows and nobody printed.
const common = "common practice, no source"
