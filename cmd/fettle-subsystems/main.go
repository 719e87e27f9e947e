// Command fettle-subsystems serves the built-in subsystems, one a process, and any bare sheet. It is a plugin like any
// other and is started by fettle:
//
//	fettle-subsystems NAME               serves the built-in subsystem of that name
//	fettle-subsystems sheet PATH SHA256  serves a sheet without code, if the file has that hash
//	fettle-subsystems confine ...        takes its own rights away and becomes a plugin (sdk.BecomeConfined)
//
// With another command line it says what it serves and exits with status 2; with a sheet that cannot be served, 1.
package main

import (
	"fmt"
	"io"
	"os"
	"strings"

	"github.com/fettle-tools/fettle/core"
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

// builtIn lists the built-in subsystems: a new one is one line here.
var builtIn = []struct {
	name      string
	subsystem func() sdk.Subsystem
}{
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

func main() {
	if len(os.Args) > 1 && os.Args[1] == sdk.ConfineWord {
		fmt.Fprintln(os.Stderr, sdk.BecomeConfined(os.Args[2:])) // it returns only when it failed
		os.Exit(1)
	}
	subsystem, status := choose(os.Args[1:], os.Stderr)
	if status != 0 {
		os.Exit(status)
	}
	sdk.Serve(subsystem)
}

// choose finds what the command line asks for; a status other than 0 means that there is nothing to serve.
func choose(args []string, stderr io.Writer) (s sdk.Subsystem, status int) {
	if len(args) == 3 && args[0] == "sheet" {
		sheet, err := sdk.PinnedSheet(args[1], args[2])
		if err != nil {
			fmt.Fprintf(stderr, "%v\n%s\n", err, core.ErrorNext(err))
			return sdk.Subsystem{}, 1
		}
		return sdk.Subsystem{Sheet: sheet}, 0
	}
	names := make([]string, len(builtIn))
	for i, b := range builtIn {
		if len(args) == 1 && args[0] == b.name {
			return b.subsystem(), 0
		}
		names[i] = b.name
	}
	fmt.Fprintf(stderr, "this program serves subsystems to fettle, which starts it: fettle plugin list\nbuilt in: %s\n", strings.Join(names, ", "))
	return sdk.Subsystem{}, 2
}
