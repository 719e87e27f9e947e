// Package springs is the leaf springs, shackles and dampers as a subsystem.
//
// Most of it is sheet.yaml. What a sheet cannot say stands beside it:
//
//	pair.go    the springs of an axle as a pair, from their own readings
//	leaves.go  how many leaves are paid for, and what worn or missing leaves do to the rate
package springs

import (
	_ "embed"

	"github.com/fettle-tools/fettle/core/sdk"
)

//go:embed sheet.yaml
var sheet []byte

// Subsystem is the springs, to be served or checked.
func Subsystem() sdk.Subsystem { return sdk.Subsystem{Sheet: sheet, Prepare: pairs, Rules: leaves} }

// axle is one pair of springs.
type axle struct {
	name, left, right string // positions
	leaves, length    string // facts
}

var axles = []axle{{"front", "LF", "RF", "leaves_front", "L_front"}, {"rear", "LR", "RR", "leaves_rear", "L_rear"}}
