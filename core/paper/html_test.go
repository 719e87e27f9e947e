package paper

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// A long paper on a screen leads to its sum, to where it is signed and to every section; a short one needs no way about.
func TestALongPaperLeadsToItsSumAndItsSignature(t *testing.T) {
	html, err := HTML(Scope(input()))
	require.NoError(t, err)
	page := string(html)
	_, ways, ok := strings.Cut(page, `<nav class="ways"`)
	require.True(t, ok)
	ways, _, _ = strings.Cut(ways, "</nav>")
	for name, heading := range map[string]string{"The sum": summed, "Where to sign": signed} {
		m := regexp.MustCompile(`<a href="#([^"]+)">` + name + `</a>`).FindStringSubmatch(ways)
		require.NotNil(t, m, name)
		require.Regexp(t, `<h[23] id="`+m[1]+`">`+heading+`</h`, page)
	}
	require.Contains(t, ways, `<a href="#contents">Contents</a>`)
	for _, m := range regexp.MustCompile(`href="#([^"]+)"`).FindAllStringSubmatch(page, -1) {
		require.Contains(t, page, `id="`+m[1]+`"`)
	}

	html, err = HTML(Document{Title: "Note", Blocks: []Block{Heading{1, "One"}, Heading{1, "Two"}}})
	require.NoError(t, err)
	require.NotContains(t, string(html), "<nav")
}
