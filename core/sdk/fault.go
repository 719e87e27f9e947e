package sdk

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// Fault is one thing wrong in a sheet, at its place. Line and Column count from 1; Next says what to do.
type Fault struct {
	Line   int    `json:"line"`
	Column int    `json:"column"`
	What   string `json:"what"`
	Next   string `json:"next"`
}

// String gives "line:column: what; next".
func (f Fault) String() string {
	s := fmt.Sprintf("%d:%d: %s", f.Line, f.Column, f.What)
	if f.Next != "" {
		s += "; " + f.Next
	}
	return s
}

// CheckSheet reads a sheet and tells all its faults at once, in the order of the file. None means that it loads.
func CheckSheet(data []byte) []Fault {
	_, fs := load(data, false)
	return fs
}

// faults collects what is wrong; a place is told once for each thing wrong there.
type faults struct {
	list []Fault
	seen map[Fault]bool
}

func (f *faults) add(p place, next, format string, args ...any) {
	x := Fault{p.line, p.column, fmt.Sprintf(format, args...), next}
	if f.seen == nil {
		f.seen = map[Fault]bool{}
	}
	if !f.seen[x] {
		f.seen[x] = true
		f.list = append(f.list, x)
	}
}

// sorted gives the faults by line, then column; those of one place stay in the order they were found.
func (f *faults) sorted() []Fault {
	slices.SortStableFunc(f.list, func(a, b Fault) int {
		return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column))
	})
	return f.list
}

// faultError puts all faults into one error of code Invalid, a line each.
func faultError(fs []Fault) error {
	if len(fs) == 0 {
		return nil
	}
	lines := make([]string, len(fs))
	for i, f := range fs {
		lines[i] = f.String()
	}
	n := "1 fault"
	if len(fs) > 1 {
		n = fmt.Sprintf("%d faults", len(fs))
	}
	return core.Errorf(core.Invalid, "put right what stands at each line and column", "the sheet has %s:\n%s", n, strings.Join(lines, "\n"))
}
