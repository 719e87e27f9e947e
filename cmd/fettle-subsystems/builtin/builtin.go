// Package builtin lists the subsystems that are built into fettle: a new one is one line here.
package builtin

import (
	"github.com/fettle-tools/fettle/core/sdk"
	"github.com/fettle-tools/fettle/plugins/body"
	bottomend "github.com/fettle-tools/fettle/plugins/bottom-end"
	"github.com/fettle-tools/fettle/plugins/brakes"
	"github.com/fettle-tools/fettle/plugins/clutch"
	"github.com/fettle-tools/fettle/plugins/cooling"
	"github.com/fettle-tools/fettle/plugins/cylinders"
	"github.com/fettle-tools/fettle/plugins/electrics"
	"github.com/fettle-tools/fettle/plugins/frame"
	frontaxle "github.com/fettle-tools/fettle/plugins/front-axle"
	"github.com/fettle-tools/fettle/plugins/fuel"
	"github.com/fettle-tools/fettle/plugins/gearbox"
	"github.com/fettle-tools/fettle/plugins/head"
	hubswheels "github.com/fettle-tools/fettle/plugins/hubs-wheels"
	propshafts "github.com/fettle-tools/fettle/plugins/prop-shafts"
	rearaxle "github.com/fettle-tools/fettle/plugins/rear-axle"
	"github.com/fettle-tools/fettle/plugins/springs"
	"github.com/fettle-tools/fettle/plugins/steering"
	transferbox "github.com/fettle-tools/fettle/plugins/transfer-box"
)

// A Named subsystem goes by the name of its sheet.
type Named struct {
	Name      string
	Subsystem func() sdk.Subsystem
}

// All gives every built-in subsystem, the engine first, frame and body last.
func All() []Named {
	return []Named{
		{"bottom-end", bottomend.Subsystem},
		{"cylinders", cylinders.Subsystem},
		{"head", head.Subsystem},
		{"clutch", clutch.Subsystem},
		{"gearbox", gearbox.Subsystem},
		{"transfer-box", transferbox.Subsystem},
		{"prop-shafts", propshafts.Subsystem},
		{"rear-axle", rearaxle.Subsystem},
		{"front-axle", frontaxle.Subsystem},
		{"steering", steering.Subsystem},
		{"brakes", brakes.Subsystem},
		{"springs", springs.Subsystem},
		{"hubs-wheels", hubswheels.Subsystem},
		{"cooling", cooling.Subsystem},
		{"fuel", fuel.Subsystem},
		{"electrics", electrics.Subsystem},
		{"frame", frame.Subsystem},
		{"body", body.Subsystem},
	}
}
