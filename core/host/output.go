package host

import (
	"bytes"
	"log/slog"
	"strings"
	"sync"
	"unicode"
)

// outputLine is the longest line of a plugin's output that is kept, in bytes.
const outputLine = 2 << 10

// output takes what a plugin prints after its handshake, and its standard error from the start: line by line into the
// log, up to a cap for each run. It remembers the last words for the message that says why the plugin stopped.
type output struct {
	log *slog.Logger

	mu      sync.Mutex
	room    int
	pending []byte
	said    string // the first line of a crash, else the last line
	crashed bool
}

func newOutput(log *slog.Logger, room int) *output { return &output{log: log, room: room} }

// Write never fails and never waits: a flood is dropped.
func (o *output) Write(b []byte) (int, error) {
	o.mu.Lock()
	defer o.mu.Unlock()
	for rest := b; len(rest) > 0; {
		line, after, whole := bytes.Cut(rest, []byte{'\n'})
		rest = after
		if keep := outputLine - len(o.pending); keep > 0 {
			o.pending = append(o.pending, line[:min(keep, len(line))]...)
		}
		if whole {
			o.flush()
		}
	}
	return len(b), nil
}

func (o *output) flush() {
	text := printable(string(o.pending), outputLine)
	o.pending = o.pending[:0]
	if text == "" {
		return
	}
	crash := strings.HasPrefix(text, "panic: ") || strings.HasPrefix(text, "fatal error: ") || strings.HasPrefix(text, "SIG")
	if !o.crashed {
		o.said, o.crashed = text, crash
	}
	switch {
	case o.room <= 0:
		return
	case o.room <= len(text):
		o.log.Warn("plugin output cut off", "said", text[:o.room])
	default:
		o.log.Info("plugin output", "said", text)
	}
	o.room -= len(text)
}

// lastWords gives what it said when it crashed, else its last line; "" if nothing.
func (o *output) lastWords() string {
	o.mu.Lock()
	defer o.mu.Unlock()
	if len(o.pending) > 0 {
		o.flush()
	}
	return printable(o.said, 160)
}

// printable makes foreign text fit for one line of a terminal or a paper: no control characters, at most n bytes.
func printable(s string, n int) string {
	s = strings.Map(func(r rune) rune {
		if r == '\t' {
			return ' '
		}
		if !unicode.IsPrint(r) {
			return -1
		}
		return r
	}, strings.ToValidUTF8(s, "?"))
	s = strings.TrimSpace(s)
	if len(s) > n {
		s = strings.ToValidUTF8(s[:n], "") + " ..."
	}
	return s
}
