// Package fuel is the fuel system as a subsystem: tank, pipes, tap, pump, carburettor, air cleaner, accelerator linkage
// and exhaust.
//
// Most of it is sheet.yaml. What a sheet cannot say stands beside it: sediment.go, what a dirty tank says of the rest.
package fuel

import (
	_ "embed"

	"github.com/fettle-tools/fettle/core/sdk"
)

//go:embed sheet.yaml
var sheet []byte

// Subsystem is the fuel system, to be served or checked.
func Subsystem() sdk.Subsystem { return sdk.Subsystem{Sheet: sheet, Prepare: sediment} }
