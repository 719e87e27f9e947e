// Package transferbox is the transfer box as a subsystem: gears, intermediate shaft, output shafts, selectors and case.
// Most of it is sheet.yaml; shims.go makes up the shim pack of the intermediate shaft.
package transferbox

import (
	_ "embed"

	"github.com/fettle-tools/fettle/core/sdk"
)

//go:embed sheet.yaml
var sheet []byte

// Subsystem is the transfer box, to be served or checked.
func Subsystem() sdk.Subsystem { return sdk.Subsystem{Sheet: sheet, Rules: rules} }

func rules(b *sdk.Bench) { shims(b) }

// common is the source of what the trade knows and nobody printed.
const common = "common practice, no source"
