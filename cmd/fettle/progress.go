package main

import (
	"fmt"
	"os"
	"strings"
)

// progress tells on a terminal how far work has come that takes more than a moment; the last step clears the line. What is no
// terminal is told nothing.
func (c *command) progress(what string, n, of int) {
	f, ok := c.err.(*os.File)
	if !ok {
		return
	}
	if info, err := f.Stat(); err != nil || info.Mode()&os.ModeCharDevice == 0 {
		return
	}
	line := fmt.Sprintf("%s %d of %d", what, n, of)
	if n == of {
		line = strings.Repeat(" ", len(line))
		fmt.Fprintf(f, "\r%s\r", line)
		return
	}
	fmt.Fprintf(f, "\r%s", line)
}
