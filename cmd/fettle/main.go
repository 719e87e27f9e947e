// Command fettle records what a mechanic finds, says what to do with each part, what it will cost and how sure that is.
package main

import (
	"context"
	"io"
	"os"
	"os/signal"
	"syscall"
	"time"
)

// Set by the linker (see the Makefile).
var (
	version           = "development"
	subsystemsSHA256  = ""                                                                                                                                                             // of the built-in subsystems' binary
	builtinSubsystems = "bottom-end cylinders head clutch gearbox transfer-box prop-shafts rear-axle front-axle steering brakes springs hubs-wheels cooling fuel electrics frame body" // what that binary serves
)

// environment is all that a run may touch: streams, clock, variables and the folder the program stands in.
type environment struct {
	in     io.Reader
	out    io.Writer
	err    io.Writer
	clock  func() time.Time
	getenv func(string) string
	folder string // where fettle and fettle-subsystems stand
	// browse opens an address in a browser where somebody sits at a screen; nil where nobody does: in a script, in a test.
	browse func(address string)
}

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	code := run(ctx, os.Args[1:], environment{in: os.Stdin, out: os.Stdout, err: os.Stderr, clock: time.Now, getenv: os.Getenv, folder: programFolder(), browse: screenBrowser()})
	stop()
	os.Exit(code)
}
