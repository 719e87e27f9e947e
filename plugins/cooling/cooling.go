// Package cooling is the cooling of the engine as a subsystem: radiator, cap, thermostat, pump, fan, belt, hoses, jacket,
// gauge, heater. Its rules fit its sheet: there is no more to it than data.
package cooling

import (
	_ "embed"

	"github.com/fettle-tools/fettle/core/sdk"
)

//go:embed sheet.yaml
var sheet []byte

// Subsystem is the cooling, to be served or checked.
func Subsystem() sdk.Subsystem { return sdk.Subsystem{Sheet: sheet} }
