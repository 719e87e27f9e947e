package sdk

import (
	"fmt"
	"os"
	"runtime"
	"runtime/debug"

	"github.com/fettle-tools/fettle/core"
)

// Serve is the author's whole main: it loads the sheet and serves the subsystem until the host ends it or is gone. A sheet
// with faults is told on standard error, all of them, and the process ends with status 1. On Linux the program is started
// twice, in one process: what main does before Serve is done twice.
func Serve(s Subsystem) {
	runtime.GOMAXPROCS(1) // its calls come one at a time, and many plugins share the machine: less memory, and no slower
	runtime.MemProfileRate = 0
	doc, again := handedOver()
	if doc == nil {
		p, err := New(s)
		if err != nil {
			fmt.Fprintln(os.Stderr, err)
			fmt.Fprintln(os.Stderr, core.ErrorNext(err))
			os.Exit(1)
		}
		if doc = p.doc; !again {
			handOver(doc)
		}
	}
	s.Sheet = nil          // read; not kept
	debug.SetGCPercent(40) // what calls leave behind is small, and goes back to the system when the plugin rests
	ServeAssessor(&Plugin{doc, s})
}
