// Package body is the body as a subsystem: panels, bulkhead, apertures, doors, timber, floors, seats, glass, roof and trim.
//
// Most of it is sheet.yaml. What a sheet cannot say stands beside it:
//
//	rust.go     how much rust through is patched, let in or renewed
//	counted.go  work that is paid by the count; cracks and nuts that are put right though they condemn nothing
//	match.go    what is tried against its neighbour before paint
package body

import (
	_ "embed"

	"github.com/fettle-tools/fettle/core/sdk"
)

//go:embed sheet.yaml
var sheet []byte

// Subsystem is the body, to be served or checked.
func Subsystem() sdk.Subsystem { return sdk.Subsystem{Sheet: sheet, Rules: rules} }

func rules(b *sdk.Bench) {
	worseThanNew(b)
	rustedThrough(b)
	for _, c := range countedWork {
		c.Price(b)
	}
	neighbours(b)
	for _, t := range b.Sheet.Part("paint").Targets() {
		b.NoteRusting(t, "rusted-area")
	}
}

// common is the source of what the trade knows and nobody printed.
const common = "common practice, no source"
