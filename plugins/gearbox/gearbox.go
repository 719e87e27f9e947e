// Package gearbox is the manual gearbox as a subsystem. Its rules fit its sheet: there is no more to it than data.
package gearbox

import (
	_ "embed"

	"github.com/fettle-tools/fettle/core/sdk"
)

//go:embed sheet.yaml
var sheet []byte

// Subsystem is the gearbox, to be served or checked.
func Subsystem() sdk.Subsystem { return sdk.Subsystem{Sheet: sheet} }
