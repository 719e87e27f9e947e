package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// exitCodes are documented in the README: keep both true.
var exitCodes = map[core.Code]int{
	core.Internal:    1,
	core.Invalid:     2,
	core.NotFound:    3,
	core.Conflict:    4,
	core.Unavailable: 5,
	core.Newer:       6,
}

// faults is several errors told at once; the first decides the exit status.
type faults []error

func (f faults) Error() string {
	lines := make([]string, len(f))
	for i, e := range f {
		lines[i] = e.Error()
	}
	return strings.Join(lines, "\n")
}

func (f faults) Unwrap() []error { return f }

// orNil gives the faults, and no error where there are none.
func (f faults) orNil() error {
	if len(f) == 0 {
		return nil
	}
	return f
}

// tell writes an error as what, where and what next, and gives the exit status.
func tell(w io.Writer, err error) int {
	if err == nil {
		return 0
	}
	var many faults
	if errors.As(err, &many) {
		code := 0
		for _, e := range many {
			if c := tell(w, e); code == 0 {
				code = c
			}
		}
		return code
	}
	fmt.Fprintf(w, "fettle: %v\n", err)
	if next := core.ErrorNext(err); next != "" {
		for line := range strings.SplitSeq(next, "\n") {
			fmt.Fprintf(w, "  next: %s\n", line)
		}
	}
	return exitCodes[core.ErrorCode(err)]
}

// programFolder is where this program stands, links followed.
func programFolder() string {
	path, err := os.Executable()
	if err != nil {
		return "."
	}
	if real, err := filepath.EvalSymlinks(path); err == nil {
		path = real
	}
	return filepath.Dir(path)
}
