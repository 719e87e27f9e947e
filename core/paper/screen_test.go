package paper

import (
	"fmt"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
)

// A code on a page and one in lines of text say the same, the way a phone reads them.
func TestScreenCode(t *testing.T) {
	const text = "https://192.168.1.20:8443/pair?code=K7QX-93MF-2B"
	dir := t.TempDir()
	svg, err := ScreenCode(text)
	require.NoError(t, err)
	path := regexp.MustCompile(`<path d="(M[^"]*)"`).FindStringSubmatch(string(svg))
	require.NotNil(t, path, svg)
	drawCode(t, path[1], filepath.Join(dir, "code-page.png"))

	lines, err := CodeLines(text)
	require.NoError(t, err)
	var runs strings.Builder
	for y, line := range lines {
		require.Equal(t, utf8.RuneCountInString(lines[0]), utf8.RuneCountInString(line), "lines as long as one another")
		for x, r := range []rune(line) {
			for half, dark := range map[int]string{0: "▀█", 1: "▄█"} {
				if strings.ContainsRune(dark, r) {
					fmt.Fprintf(&runs, "M%d %dh1v1h-1z", x, 2*y+half)
				}
			}
		}
	}
	drawCode(t, runs.String(), filepath.Join(dir, "code-lines.png"))
	require.Equal(t, []string{text, text}, readCodes(t, filepath.Join(dir, "code-*.png")))

	for _, code := range []func() error{func() error { _, err := ScreenCode(strings.Repeat("x", 4000)); return err }, func() error { _, err := CodeLines(strings.Repeat("x", 4000)); return err }} {
		require.ErrorContains(t, code(), "code of")
	}
}
