// Package steering is the steering gear and linkage as a subsystem: wheel, column, box, drop arm, links and relay.
//
// Most of it is sheet.yaml. What a sheet cannot say stands beside it:
//
//	heavy.go  a truck over 10 000 lb gross has other limits at the tread
//	lash.go   where the free play at the rim comes from
//	toe.go    how far to turn the track rod
package steering

import (
	_ "embed"

	"github.com/fettle-tools/fettle/core/sdk"
)

//go:embed sheet.yaml
var sheet []byte

// Subsystem is the steering, to be served or checked.
func Subsystem() sdk.Subsystem { return sdk.Subsystem{Sheet: sheet, Prepare: heavy, Rules: rules} }

// rules says what hangs on more than one part.
func rules(b *sdk.Bench) {
	lashRules(b)
	toeRules(b)
}

// common is the source of what the trade knows and nobody printed.
const common = "common practice, no source"
