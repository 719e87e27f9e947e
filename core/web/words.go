package web

import (
	"fmt"
	"html/template"
	"strings"
	"time"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/paper"
)

// words are how pages say sums, days and readings.
func words(zone *time.Location) template.FuncMap {
	return template.FuncMap{
		"amount": amount, "capital": capital, "plain": plain,
		"day":   func(t time.Time) string { return t.In(zone).Format("2 January 2006") },
		"clock": func(t time.Time) string { return t.In(zone).Format("2 Jan 15:04") },
		"count": count, "hours": hours,
		"gauge": paper.ScreenGauge, "ink": paper.ScreenInk, "curve": paper.ScreenCurve,
		"static": func(version, file string) string { return "/static/" + version + "/" + file },
	}
}

// amount writes money with its thousands parted: "9 742.00".
func amount(m core.Money) string {
	whole, frac, dot := strings.Cut(m.Round().Number(), ".")
	sign := ""
	if strings.HasPrefix(whole, "-") {
		sign, whole = "-", whole[1:]
	}
	for i := len(whole) - 3; i > 0; i -= 3 {
		whole = whole[:i] + "\u00a0" + whole[i:]
	}
	if dot {
		whole += "." + frac
	}
	return sign + whole
}

func capital(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

// plain writes an id as words: "bottom-end" is "bottom end".
func plain(id string) string { return strings.ReplaceAll(id, "-", " ") }

// count writes a number with its noun.
func count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}
