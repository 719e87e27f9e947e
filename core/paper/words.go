package paper

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/fettle-tools/fettle/core"
)

// checkedLocally follows every term: law and custom differ by place.
const checkedLocally = "(have them checked locally)"

// gradeWords say a grade to somebody who does not measure for a living.
var gradeWords = map[core.Grade]string{
	core.WithinNew:    "within the new limit",
	core.WornFit:      "worn, fit for use",
	core.NearLimit:    "near the wear limit",
	core.NotSeen:      "not seen",
	core.MeasureAgain: "to be measured again: the reading may lie on either side of the limit",
	core.TooTight:     "too tight: beyond the new limit on the tight side",
	core.PastLimit:    "worn past the limit",
	core.Missing:      "missing",
	core.Failed:       "failed",
}

// found says in plain words how a part was found.
func found(c core.UnitCondition) string {
	switch {
	case c.Grade == core.GradeNone:
		return "used once, always renewed"
	case c.Grade == core.NotSeen && c.ReadingsNeeded > 0:
		return fmt.Sprintf("not seen (%d of %s)", c.ReadingsTaken, count(c.ReadingsNeeded, "reading"))
	}
	if w, ok := gradeWords[c.Grade]; ok {
		return w
	}
	return c.Grade.String()
}

// kindWords are what becomes of a part, as printed.
var kindWords = map[core.RemedyKind]string{
	core.Reuse:     "Reuse",
	core.Rebuild:   "Rebuild",
	core.Replace:   "Replace",
	core.LeftAsIs:  "Left: not done",
	core.Undecided: "Not yet decided",
}

// originalityWords are the four levels in words (common practice, no source).
var originalityWords = []string{"", "usable: safe and sound, parts need not be original",
	"period-correct look: what can be seen is right", "correct type and dates, plating and marks",
	"keep the material it was made with wherever it is sound"}

// lower starts a text with a small letter.
func lower(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 {
		return s
	}
	return string(unicode.ToLower(r)) + s[n:]
}

// sentence gives a text a capital and a full stop.
func sentence(s string) string {
	s = core.Capital(strings.TrimSpace(s))
	if s == "" || strings.HasSuffix(s, ".") || strings.HasSuffix(s, ":") {
		return s
	}
	return s + "."
}

// plural of a part's name; a name that is a plural or a phrase stays as it is.
func plural(name string) string {
	switch {
	case name == "" || strings.HasSuffix(name, "s") || strings.HasSuffix(name, "teeth") || strings.ContainsAny(name, ",()0123456789"):
		return name
	case phrase(name):
		return name
	case strings.HasSuffix(name, "x") || strings.HasSuffix(name, "sh") || strings.HasSuffix(name, "ch"):
		return name + "es"
	case strings.HasSuffix(name, "y") && !strings.HasSuffix(name, "ay") && !strings.HasSuffix(name, "ey"):
		return name[:len(name)-1] + "ies"
	}
	return name + "s"
}

// phrase says that the noun of a name is not its last word: "bore in the case".
func phrase(name string) bool {
	for _, w := range strings.Fields(name) {
		switch w {
		case "of", "in", "with", "to", "for", "and", "its", "at", "on":
			return true
		}
	}
	return false
}

// positions gathers runs: P1 P2 P3 P4 gives "P1–P4", LF RF gives "LF, RF".
func positions(ps []string) string {
	var out []string
	for i := 0; i < len(ps); {
		j := i
		for j+1 < len(ps) && follows(ps[j], ps[j+1]) {
			j++
		}
		switch {
		case j > i+1:
			out = append(out, ps[i]+"–"+ps[j])
		case j == i+1:
			out = append(out, ps[i], ps[j])
		case ps[i] != "":
			out = append(out, ps[i])
		}
		i = j + 1
	}
	return strings.Join(out, ", ")
}

// follows says that b is the next number after a, with the same letters before it.
func follows(a, b string) bool {
	ta, na, okA := cutNumber(a)
	tb, nb, okB := cutNumber(b)
	return okA && okB && ta == tb && nb == na+1
}

func cutNumber(s string) (string, int, bool) {
	t := strings.TrimRight(s, "0123456789")
	n, err := strconv.Atoi(s[len(t):])
	return t, n, err == nil
}

// named is a part's name with its position: "Crankpin P2", "Gear pair (third)".
func named(name, at string) string { return core.Capital(name) + position(at) }

// position follows a part's name; a position that is a word, not a mark, stands in brackets.
func position(p string) string {
	switch {
	case p == "":
		return ""
	case strings.ContainsAny(p, "0123456789") || len(p) < 4:
		return " " + p
	}
	return " (" + p + ")"
}

// and joins with commas and a last "and".
func and(ss []string) string {
	switch len(ss) {
	case 0:
		return ""
	case 1:
		return ss[0]
	}
	return strings.Join(ss[:len(ss)-1], ", ") + " and " + ss[len(ss)-1]
}

// unique drops repeats and blanks; the first of each stays in its place.
func unique(ss []string) []string {
	var out []string
	seen := map[string]bool{}
	for _, s := range ss {
		if s != "" && !seen[s] {
			seen[s] = true
			out = append(out, s)
		}
	}
	return out
}

// number writes a figure with at most d decimals and no idle zeros.
func number(v float64, d int) string {
	s := strconv.FormatFloat(v, 'f', d, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		return "0"
	}
	return s
}

// thousands writes a whole number with separators.
func thousands(v float64) string {
	s := strconv.FormatFloat(v, 'f', 0, 64)
	for i := len(s) - 3; i > 0 && s[i-1] != '-'; i -= 3 {
		s = s[:i] + "," + s[i:]
	}
	return s
}

// hours writes an expected number of hours to a tenth.
func hours(r core.Range3) string {
	if r == (core.Range3{}) {
		return ""
	}
	return strconv.FormatFloat(r.Mean(), 'f', 1, 64)
}

// weeks writes a lead time, likely and its range.
func weeks(r core.Range3) string {
	if r == (core.Range3{}) {
		return ""
	}
	s := number(r.Likely, 1) + " weeks"
	if s == "1 weeks" {
		s = "1 week"
	}
	if r.Low == r.High {
		return s
	}
	return fmt.Sprintf("%s (%s to %s)", s, number(r.Low, 1), number(r.High, 1))
}

// count writes "1 line", "3 lines".
func count(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return strconv.Itoa(n) + " " + plural(noun)
}
