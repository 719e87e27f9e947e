package config

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// Fault is one thing wrong in a file, at its place.
type Fault struct {
	File   string `json:"file"`
	Line   int    `json:"line,omitempty"`   // from 1; 0: the file as a whole
	Column int    `json:"column,omitempty"` // from 1; 0: the line as a whole
	Field  string `json:"field,omitempty"`  // the name of a CSV column, of a variable or of a flag
	What   string `json:"what"`
	Next   string `json:"next,omitempty"`
}

// Place gives "file:line:column" or "file:line, column name", as far as it is known.
func (f Fault) Place() string {
	s := f.File
	if f.Line > 0 {
		s += fmt.Sprintf(":%d", f.Line)
	}
	if f.Column > 0 {
		s += fmt.Sprintf(":%d", f.Column)
	}
	if f.Field != "" {
		s = strings.TrimPrefix(s+", "+f.Field, ", ")
	}
	return s
}

// String gives place, what and what next.
func (f Fault) String() string {
	s := f.Place() + ": " + f.What
	if f.Next != "" {
		s += "; " + f.Next
	}
	return s
}

// Faults are all faults of one file, by line and column.
type Faults []Fault

// Error gives one fault a line.
func (fs Faults) Error() string {
	lines := make([]string, len(fs))
	for i, f := range fs {
		lines[i] = f.String()
	}
	return strings.Join(lines, "\n")
}

// Err puts the faults into one core.Error of code Invalid, from which errors.As gives them back; nil if there are none.
func (fs Faults) Err() error {
	if len(fs) == 0 {
		return nil
	}
	what := "1 fault"
	if len(fs) > 1 {
		what = fmt.Sprintf("%d faults", len(fs))
	}
	if fs[0].File != "" {
		what += " in " + fs[0].File
	}
	e := core.Errorf(core.Invalid, "put right what is told at each place", "%s", what)
	e.Err = fs
	return e
}

// sorted puts the faults in the order of the file; those of one place stay as they were found.
func (fs Faults) sorted() Faults {
	slices.SortStableFunc(fs, func(a, b Fault) int { return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column)) })
	return fs
}
