// Package frontaxle is the front driven axle with its steering knuckles as a subsystem. Its final drive has the rules of
// package finaldrive; what is its own stands beside:
//
//	angles.go  left against right, from the angles of both wheels
//	swivel.go  shim packs of the swivels
package frontaxle

import (
	_ "embed"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
	"github.com/fettle-tools/fettle/plugins/finaldrive"
)

//go:embed sheet.yaml
var sheet []byte

// Subsystem is the front axle, to be served or checked.
func Subsystem() sdk.Subsystem {
	return sdk.Subsystem{Sheet: sheet, Prepare: differences, Rules: rules}
}

func rules(b *sdk.Bench) {
	finaldrive.Rules(b)
	finaldrive.Evidence(b)
	for _, side := range sides {
		swivel(b, side)
		finaldrive.Warn(b, core.Target{Part: "swivel-bolt", Position: side}, "threads", finaldrive.Over(0),
			"bolts or studs of the "+side+" swivel stretched or damaged", "look at the faces of cover and arm for fretting, and at the threads in the housing")
		finaldrive.Warn(b, core.Target{Part: "swivel-ball", Position: side}, "seal-track", finaldrive.Over(1),
			"the "+side+" swivel ball is pitted where its seal rubs", "look for oil on the brake lining of that wheel")
	}
}
