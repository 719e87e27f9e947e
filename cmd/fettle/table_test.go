package main

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

func usd(t *testing.T, s string) core.Money {
	t.Helper()
	m, err := core.NewMoney(s, "USD")
	require.NoError(t, err)
	return m
}

func TestAmount(t *testing.T) {
	for in, want := range map[string]string{"0": "0.00", "12.5": "12.50", "999.99": "999.99", "1000": "1 000.00", "12255.31": "12 255.31", "-1234567.1": "-1 234 567.10"} {
		require.Equal(t, want, amount(usd(t, in)), in)
	}
}

// Figures for people are rounded to five; totals never are.
func TestNear(t *testing.T) {
	for in, want := range map[string]string{"0": "0", "2.49": "0", "2.50": "5", "12214.99": "12 215", "12217.50": "12 220", "-7.49": "-5", "-7.50": "-10"} {
		require.Equal(t, want, near(usd(t, in)), in)
	}
	yen, err := core.NewMoney("1234", "JPY")
	require.NoError(t, err)
	require.Equal(t, "1 235", near(yen))
}

// An amount is never parted between two lines, whatever the width.
func TestWrapKeepsAmountsWhole(t *testing.T) {
	text := "one time in ten below, half the time under 12 215 and in all 1 234 567.89 with tax, for 3 men in 100 hours"
	for width := 24; width < len(text); width++ {
		lines := wrap(text, width)
		require.Equal(t, text, strings.Join(lines, " "))
		for _, l := range lines {
			require.LessOrEqual(t, len(l), width, l)
		}
		all := strings.Join(lines, "\n")
		require.Contains(t, all, "12 215")
		require.Contains(t, all, "1 234 567.89")
	}
	require.Equal(t, []string{"a-word-that-is-longer-than-its-line", "x"}, wrap("a-word-that-is-longer-than-its-line x", 10))
}

func TestTable(t *testing.T) {
	tab := newTable("part", ">cost", "why")
	tab.add("Gear", "1.00", "worn")
	tab.add("Layshaft ½", "1 200.00", "a reason that is long enough to need a second line")
	var out strings.Builder
	tab.print(&out, "  ", 50)
	require.Equal(t, `  part            cost  why
  Gear            1.00  worn
  Layshaft ½  1 200.00  a reason that is long
                        enough to need a second
                        line
`, out.String())
}
