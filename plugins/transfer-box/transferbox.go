// Package transferbox is the transfer box as a subsystem: gears, intermediate shaft, output shafts, selectors and case.
// Most of it is sheet.yaml; shims.go makes up the shim pack of the intermediate shaft,
// and speedometer gears of another model are told of.
package transferbox

import (
	_ "embed"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

//go:embed sheet.yaml
var sheet []byte

// Subsystem is the transfer box, to be served or checked.
func Subsystem() sdk.Subsystem { return sdk.Subsystem{Sheet: sheet, Rules: rules} }

func rules(b *sdk.Bench) {
	shims(b)
	speedometer(b)
}

// speedometer tells of gears that suit another axle: the box, or the pair, may be of another model (common practice, no source).
func speedometer(b *sdk.Bench) {
	t := core.Target{Part: "speedometer-gear"}
	if q, id, ok := b.Reading(t, "suits-axles", ""); ok && q.Value < .5 {
		b.Problem(core.Problem{Severity: core.SeverityWarning, Target: t, Check: "suits-axles", FindingID: id,
			Summary: "the speedometer gears are cut for another axle", Next: "read the marks of the case and count the teeth of every gear: the box may be of another model"})
	}
}

// common is the source of what the trade knows and nobody printed.
const common = "common practice, no source"
