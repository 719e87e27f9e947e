// Package frame is the chassis frame and its mounts as a subsystem: rails, crossmembers, outriggers, spring hangers,
// what engine, body and tow hang on, and the number.
//
// Most of it is sheet.yaml. What a sheet cannot say stands beside it:
//
//	counted.go  work that is paid by the count: patches, cracks, rivets, holes
//	rail.go     a rail too thin to be patched
//	line.go     which point of the frame is out of line; the number that stops the work
//	bolt.go     the fitted bolt that is equal to a rivet
package frame

import (
	_ "embed"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

//go:embed sheet.yaml
var sheet []byte

// Subsystem is the frame, to be served or checked.
func Subsystem() sdk.Subsystem { return sdk.Subsystem{Sheet: sheet, Rules: rules} }

// rules says what hangs on counts and on more than one reading.
func rules(b *sdk.Bench) {
	for _, c := range countedWork {
		c.Price(b)
	}
	thinRails(b)
	outOfLine(b)
	numberStamp(b)
	fittedBolt(b)
	b.NoteRusting(at("frame-coat"), "rusted-area")
}

// common is the source of what the trade knows and nobody printed.
const common = "common practice, no source"

// at names a single part.
func at(part string) core.Target { return core.Target{Part: part} }
