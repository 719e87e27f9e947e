package web

import (
	"fmt"
	"html/template"
	"math"
	"regexp"
	"strings"
	"time"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/paper"
)

// words are how pages say sums, days and readings.
func words(zone *time.Location) template.FuncMap {
	return template.FuncMap{
		"amount": amount, "capital": core.Capital, "plain": plain,
		"day":   func(t time.Time) string { return t.In(zone).Format("2 January 2006") },
		"clock": func(t time.Time) string { return t.In(zone).Format("2 January 2006, 15:04") },
		"add":   func(a, b int) int { return a + b }, "areas": areas, "parted": parted, "bytes": bytesOf, "ofSet": ofSet,
		"count": count, "share": share, "minutes": minutes, "near": near, "signed": signed, "hours": hours, "percent": percent, "figure": core.FormatNumber, "weeks": weeks,
		"gauge": paper.ScreenGauge, "ink": paper.ScreenInk, "curve": paper.ScreenCurve, "labels": paper.ScreenLabels,
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

// sumInWords is a sum of four figures or more in a sentence.
var sumInWords = regexp.MustCompile(`\b\d{4,}\.\d\d\b`)

// parted writes the sums in a sentence with their thousands parted.
func parted(sentence string) string {
	return sumInWords.ReplaceAllStringFunc(sentence, func(s string) string {
		for i := len(s) - 6; i > 0; i -= 3 {
			s = s[:i] + "\u00a0" + s[i:]
		}
		return s
	})
}

// bytesOf writes the size of a file: "374 kB".
func bytesOf(n int) string { return fmt.Sprintf("%.0f\u00a0kB", math.Max(1, float64(n)/1000)) }

// inID is where an id joins its words: a dash or a slash after a small letter.
var inID = regexp.MustCompile(`([a-z])[-/]([a-z0-9])`)

// ofSet writes what does not go along in words: "no tag is of rod 2". Tags keep their numbers.
func ofSet(what string) string { return inID.ReplaceAllString(what, "$1 $2") }

// near writes money rounded to five whole units, for ranges that people read: "9 740".
func near(m core.Money) string {
	whole, _, _ := strings.Cut(amount(m.Near(5)), ".")
	return whole
}

// plain writes an id as words: "bottom-end" is "bottom end".
func plain(id string) string { return strings.ReplaceAll(id, "-", " ") }

// areas lists subsystems: "Bottom end, clutch".
func areas(subsystems []string) string { return core.Capital(plain(strings.Join(subsystems, ", "))) }

// hours writes hours to the hundredth: "1.5".
func hours(h float64) string { return core.FormatNumber(math.Round(h*100) / 100) }

// count writes a number with its noun.
func count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// share writes a share of 0 to 1 in per cent, to a tenth under ten.
func share(of float64) string {
	if of < .1 {
		return fmt.Sprintf("%.1f\u00a0%%", 100*of)
	}
	return percent(of)
}

// percent writes a share of 0 to 1 in whole per cent.
func percent(of float64) string { return fmt.Sprintf("%.0f\u00a0%%", 100*of) }

// minutes writes minutes, from a hundred on as hours.
func minutes(m float64) string {
	if m < 100 {
		return fmt.Sprintf("%.0f\u00a0min", m)
	}
	return core.FormatNumber(math.Round(m/6)/10) + "\u00a0h"
}

// weeks counts a part of a week as one.
func weeks(w float64) float64 { return math.Ceil(w - core.Slack) }

// signed writes money with its sign: "+120.00", "0".
func signed(m core.Money) string {
	switch n := core.Minor(m); {
	case n > 0:
		return "+" + amount(m)
	case n == 0:
		return "0"
	}
	return amount(m)
}
