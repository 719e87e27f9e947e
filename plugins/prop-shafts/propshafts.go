// Package propshafts is the propeller shafts and universal joints as a subsystem. Its rules fit its sheet: there is no more
// to it than data.
package propshafts

import (
	_ "embed"

	"github.com/fettle-tools/fettle/core/sdk"
)

//go:embed sheet.yaml
var sheet []byte

// Subsystem is the propeller shafts, to be served or checked.
func Subsystem() sdk.Subsystem { return sdk.Subsystem{Sheet: sheet} }
