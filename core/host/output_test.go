package host

import (
	"bytes"
	"io"
	"log/slog"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestOutputIsKeptLineByLineAndNoLongerThanItsCap(t *testing.T) {
	var log bytes.Buffer
	o := newOutput(slog.New(slog.NewTextHandler(&log, nil)), 40)
	for _, part := range []string{"one\r\ntw", "o\n\n", "\x1b[31mthree\x07\n", strings.Repeat("x", 100_000), "\nfive\n"} {
		n, err := io.WriteString(o, part)
		require.NoError(t, err)
		require.Equal(t, len(part), n)
	}
	require.Contains(t, log.String(), "said=one\n")
	require.Contains(t, log.String(), "said=two\n")
	require.Contains(t, log.String(), "said=[31mthree\n")
	require.Contains(t, log.String(), "plugin output cut off")
	require.NotContains(t, log.String(), "five")
	require.Less(t, log.Len(), 1000)
	require.Equal(t, "five", o.lastWords())
}

func TestTheFirstWordsOfACrashAreRemembered(t *testing.T) {
	o := newOutput(slog.New(slog.DiscardHandler), 1000)
	_, _ = io.WriteString(o, "starting\npanic: no gear\n\ngoroutine 1 [running]:\nmain.main()\nexit status 2")
	require.Equal(t, "panic: no gear", o.lastWords())
}

func TestForeignTextIsFitForALine(t *testing.T) {
	require.Equal(t, "a b?c", printable(" a\tb\xffc\n", 10))
	require.Equal(t, "ab ...", printable("abc", 2))
	require.Equal(t, "a ...", printable("aé", 2), "no half letters")
}
