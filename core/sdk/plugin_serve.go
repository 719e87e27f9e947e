package sdk

import (
	"fmt"
	"os"
	"runtime/debug"

	"github.com/fettle-tools/fettle/core"
)

// Serve is the author's whole main: it loads the sheet and serves the subsystem until the host ends it or is gone. A sheet
// with faults is told on standard error, all of them, and the process ends with status 1.
func Serve(s Subsystem) {
	p, err := New(s)
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		fmt.Fprintln(os.Stderr, core.ErrorNext(err))
		os.Exit(1)
	}
	debug.FreeOSMemory() // what reading the sheet took is not wanted again; a plugin mostly waits
	ServeAssessor(p)
}
