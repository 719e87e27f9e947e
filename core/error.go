package core

import (
	"errors"
	"fmt"
)

// Code says what sort of failure an Error is. The command maps a code to an exit
// status; nothing else reads it.
type Code string

// The codes. Anything that is not an *Error counts as Internal.
const (
	Invalid     Code = "invalid"      // the input is wrong: say what, where and what to do
	NotFound    Code = "not found"    // the thing named does not exist
	Conflict    Code = "conflict"     // it exists, or was changed, or may not be done now
	Unavailable Code = "unavailable"  // a plugin or a file cannot be reached at present
	Internal    Code = "internal"     // our fault
	Newer       Code = "newer schema" // the book was written by a newer program
)

// Error is the one typed error of the project: what happened, where, what next.
type Error struct {
	Code  Code
	What  string // what happened, in plain words
	Where string // file, line, column, field; "" if there is no place
	Next  string // what the person can do about it; "" if nothing
	Err   error  // the cause; nil if none
}

// Error gives "where: what", then the cause.
func (e *Error) Error() string {
	s := e.What
	if e.Where != "" {
		s = e.Where + ": " + s
	}
	if e.Err != nil {
		s += ": " + e.Err.Error()
	}
	return s
}

// Unwrap returns the cause.
func (e *Error) Unwrap() error { return e.Err }

// Errorf makes an *Error with a code, what happened and what to do next.
func Errorf(code Code, next, format string, args ...any) *Error {
	return &Error{Code: code, What: fmt.Sprintf(format, args...), Next: next}
}

// ErrorCode returns the code of the first *Error in err's chain, Internal for any other error, "" for nil.
func ErrorCode(err error) Code {
	if err == nil {
		return ""
	}
	var e *Error
	if errors.As(err, &e) {
		return e.Code
	}
	return Internal
}

// ErrorNext returns what the first *Error in err's chain advises, or "".
func ErrorNext(err error) string {
	var e *Error
	if errors.As(err, &e) {
		return e.Next
	}
	return ""
}
