// Package electrics is charging, starting, ignition and wiring as a subsystem.
//
// Most of it is sheet.yaml. What a sheet cannot say stands beside it:
//
//	battery.go   gravity brought to one temperature, the charge it tells of, cells too far apart
//	starter.go   what the starter circuit may drop at the current it was read at
//	harness.go   when branches are too many to mend
package electrics

import (
	_ "embed"

	"github.com/fettle-tools/fettle/core/sdk"
)

//go:embed sheet.yaml
var sheet []byte

// Subsystem is the electrics, to be served or checked.
func Subsystem() sdk.Subsystem {
	return sdk.Subsystem{Sheet: sheet, Prepare: correctGravity, Rules: rules}
}

// rules says what hangs on more than one reading.
func rules(b *sdk.Bench) {
	batteryRules(b)
	starterRules(b)
	harnessRules(b)
}

// common is the source of what the trade knows and nobody printed.
const common = "common practice, no source"
