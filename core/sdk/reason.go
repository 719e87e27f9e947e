package sdk

import (
	"fmt"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// reason puts a judged check into one sentence: the figure, the limit and where it comes from.
func (l *look) reason(j judged) core.Reason {
	c, m := &l.part.Checks[j.check], l.limits[j.check]
	r := core.Reason{FindingIDs: j.findings, Check: c.ID, Source: m.Source}
	if !j.read && !j.partly {
		r.Text, r.Source = fmt.Sprintf("%s: %s", c.Name, l.notRead(j)), ""
		if j.rule != nil {
			r.Text += "; " + ruleWords(j.rule)
			r.Rule, r.Source = j.rule.id.text, j.rule.source
		}
		return r
	}
	at := ""
	if j.station != "" {
		at = " at " + j.station
	}
	colon := ""
	if c.Kind == core.Judged || c.Kind == core.GoNoGo {
		colon = ":"
	}
	r.Text = fmt.Sprintf("%s%s %s%s%s%s (%s): %s%s", c.Name, colon, readingWords(c, j.q), asRead(c, j), at,
		limitWords(c, m, j), sourceWords(m), j.Grade, l.aside(j))
	if j.rule != nil {
		r.Text += "; " + ruleWords(j.rule)
		r.Rule, r.Source = j.rule.id.text, j.rule.source
	}
	if j.partly && !j.read {
		r.Text += "; not all of it is read: " + j.wanting
	}
	return r
}

// notRead says why a check is not judged.
func (l *look) notRead(j judged) string {
	if n := l.numbersOf(j.check); len(n) > 0 && l.noLimit(j.check) {
		return strings.Join(n, ", ") + ", not judged: " + j.wanting
	}
	if j.wanting == "" {
		return "not read"
	}
	return "not read: " + j.wanting
}

// numbersOf writes the live readings of a check.
func (l *look) numbersOf(check int) []string {
	var ws []string
	for s := range l.slots[check] {
		for _, r := range l.numbers(check, s) {
			ws = append(ws, strings.TrimSpace(readingWords(&l.part.Checks[check], r.q)+" "+l.stationName(check, s)))
		}
	}
	return ws
}

// aside adds what a grade alone does not say.
func (l *look) aside(j judged) string {
	m := l.limits[j.check]
	switch {
	case j.Grade == core.MeasureAgain && straddles(j):
		return fmt.Sprintf(" with a better instrument; the chance that it is past the limit is %.0f in 100", *j.PPast*100)
	case j.Grade == core.MeasureAgain && m.WearLow == nil && m.WearHigh == nil:
		return ": it is outside the new range and no wear limit is known"
	case j.Grade == core.MeasureAgain:
		return ": it is better than new; check the reading, the part, the nominal"
	}
	return ""
}

// asRead adds the reading as it was taken, where that was in another unit.
func asRead(c *core.Check, j judged) string {
	if j.from.Unit == "" || j.from.Unit == c.Unit {
		return ""
	}
	return " (" + figure(j.from) + " as read)"
}

// ruleWords says what a no-reuse rule leaves.
func ruleWords(n *noReuseDoc) string {
	kinds := make([]string, len(n.allowed))
	for i, k := range n.allowed {
		kinds[i] = string(k)
	}
	return fmt.Sprintf("not to be used again as it is: %s (rule %s, %s)", strings.Join(kinds, " or "), n.id.text, n.source)
}

// straddles reports that a reading cannot tell on which side of the limit the part is.
func straddles(j judged) bool {
	return j.Grade == core.MeasureAgain && j.PPast != nil && *j.PPast > 1-PastSure && *j.PPast < PastSure
}
