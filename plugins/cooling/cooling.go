// Package cooling is the cooling of the engine as a subsystem: radiator, cap, thermostat, pump, fan, belt, hoses, jacket,
// gauge, heater.
//
// Most of it is sheet.yaml. What a sheet cannot say stands beside it: radiator.go, a core that is not seen yet.
package cooling

import (
	_ "embed"

	"github.com/fettle-tools/fettle/core/sdk"
)

//go:embed sheet.yaml
var sheet []byte

// Subsystem is the cooling, to be served or checked.
func Subsystem() sdk.Subsystem { return sdk.Subsystem{Sheet: sheet, Rules: blockedCore} }

// common is the source of what the trade knows and nobody printed.
const common = "common practice, no source"
