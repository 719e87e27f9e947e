// Package rearaxle is the rear axle and its final drive as a subsystem. What a sheet cannot say, the ratio of the
// other axle and the shim packs, it has from package finaldrive, which the front axle shares.
package rearaxle

import (
	_ "embed"

	"github.com/fettle-tools/fettle/core/sdk"
	"github.com/fettle-tools/fettle/plugins/finaldrive"
)

//go:embed sheet.yaml
var sheet []byte

// Subsystem is the rear axle, to be served or checked.
func Subsystem() sdk.Subsystem {
	return sdk.Subsystem{Sheet: sheet, Prepare: finaldrive.PrepareRatio, Rules: rules}
}

func rules(b *sdk.Bench) {
	finaldrive.Rules(b)
	finaldrive.Evidence(b)
}
