package sdk

import (
	"slices"

	"github.com/fettle-tools/fettle/core"
)

// ConfineWord is the argument that makes a program a confiner; it then hands the rest of its arguments to BecomeConfined.
const ConfineWord = "confine"

// confinedMemory is how much a plugin may hold, in bytes: a hundred times what one needs. Common practice, no source.
const confinedMemory = 1 << 30

// ConfinedStart is a plugin to be started with its rights taken away before any code of its own has run. What is left
// to it: reading its own program, what Readable names and the system's libraries, writing in Folder, and a bounded
// amount of memory. On Linux this is Landlock (kernel 5.13 or newer; the network from 6.7, signals and abstract sockets
// from 6.12) and resource limits; an older kernel gives what it has, another system refuses.
type ConfinedStart struct {
	Folder   string   // the only place it may write
	Readable []string // files and folders it may read, beside the system's libraries
	Program  string
	Args     []string
}

// confineSeparator ends the readable paths.
const confineSeparator = "--"

// Arguments gives what a confiner is started with, after ConfineWord.
func (c ConfinedStart) Arguments() []string {
	return slices.Concat([]string{c.Folder}, c.Readable, []string{confineSeparator, c.Program}, c.Args)
}

// parseConfined reads Arguments back.
func parseConfined(args []string) (c ConfinedStart, err error) {
	i := slices.Index(args, confineSeparator)
	if i < 1 || i+1 >= len(args) {
		return c, core.Errorf(core.Invalid, "leave it to fettle to start plugins", "a confined start needs a folder, -- and a program")
	}
	return ConfinedStart{Folder: args[0], Readable: args[1:i], Program: args[i+1], Args: args[i+2:]}, nil
}

// BecomeConfined confines this process and becomes the program of the start. It returns only if that failed.
func BecomeConfined(args []string) error {
	c, err := parseConfined(args)
	if err != nil {
		return err
	}
	if err := c.restrict(); err != nil {
		return &core.Error{Code: core.Unavailable, What: "the plugin could not be confined", Where: c.Program, Next: "send the log to whoever keeps fettle", Err: err}
	}
	return &core.Error{Code: core.Unavailable, What: "the plugin could not be started", Where: c.Program,
		Next: "check that the file is a program for this machine and may be run", Err: c.become()}
}
