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

	"github.com/fettle-tools/fettle/cmd/fettle-subsystems/builtin"
	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

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
	var names []string
	for _, b := range builtin.All() {
		if len(args) == 1 && args[0] == b.Name {
			return b.Subsystem(), 0
		}
		names = append(names, b.Name)
	}
	fmt.Fprintf(stderr, "this program serves subsystems to fettle, which starts it: fettle plugin list\nbuilt in: %s\n", strings.Join(names, ", "))
	return sdk.Subsystem{}, 2
}
