package sdk

import (
	"fmt"
	"os"
	"runtime"
	"runtime/debug"

	"github.com/fettle-tools/fettle/core"
)

// Serve is the author's whole main: it loads the sheet and serves the subsystem until the host ends it or is gone. A sheet
// with faults is told on standard error, all of them, and the process ends with status 1.
func Serve(s Subsystem) {
	runtime.GOMAXPROCS(1) // its calls come one at a time, and many plugins share the machine: less memory, and no slower
	runtime.MemProfileRate = 0
	debug.SetGCPercent(20) // reading a sheet leaves much behind
	p, err := New(s)
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		fmt.Fprintln(os.Stderr, core.ErrorNext(err))
		os.Exit(1)
	}
	debug.FreeOSMemory()
	debug.SetGCPercent(400) // a call is short; what it leaves goes back to the system when the plugin rests
	ServeAssessor(p)
}
