package sdk

import (
	"fmt"
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// judged is what all that was said of one check comes to.
type judged struct {
	Judgement
	check    int
	read     bool          // judged, from all the readings it needs
	partly   bool          // judged from some of them
	q        core.Quantity // in the check's unit
	from     core.Quantity // as read
	station  string
	worked   bool     // by the formula
	findings []string // all live findings of the check
	wanting  string   // why it is not judged or not read
	blank    bool     // nothing at all was said, and nothing but readings is wanting
	rule     *noReuseDoc
	order    int // of the check in the sheet
}

// worseThan compares by grade, then by how far worn, then by the chance of being past.
func (j judged) worseThan(o judged) bool {
	if j.Grade != o.Grade {
		return j.Grade > o.Grade
	}
	if a, b := value(j.Wear), value(o.Wear); !same(a, b) { // the last digit of a converted reading decides nothing
		return a > b
	}
	a, b := value(j.PPast), value(o.PPast)
	return a > b && !same(a, b)
}

// value is how far a figure speaks against the part: none, and better than new, count as nothing.
func value(p *float64) float64 {
	if p == nil {
		return 0
	}
	return max(0, *p)
}

// judge grades one value of a check.
func (l *look) judge(check int, q core.Quantity, station string, findings []string) judged {
	c := &l.part.Checks[check]
	j := judged{check: check, order: check, q: q, station: station, findings: findings, read: true}
	j.Judgement = Judge(q.Value, StandardUncertainty(q.Bound), l.limits[check], c.Kind, c.TwoSided)
	return j
}

// noLimit reports that a check cannot be judged for want of a figure.
func (l *look) noLimit(check int) bool {
	m := l.limits[check]
	switch l.part.Checks[check].Kind {
	case core.Measured, core.Derived, core.Counted:
		return m.NewLow == nil && m.NewHigh == nil && m.WearLow == nil && m.WearHigh == nil
	case core.Judged:
		return m.WorstClass == nil
	}
	return false
}

// grade judges one check from all its live readings: the worst reading of the worst station.
func (l *look) grade(check int) judged {
	j := judged{check: check, order: check}
	switch s, ok := l.supplied[check]; {
	case ok:
		j = l.judge(check, s.q, "", s.findings)
		j.worked = true
	case l.part.Checks[check].Kind == core.Derived:
		j = l.gradeDerived(check)
	default:
		j = l.gradeRead(check)
	}
	j.findings = sortedIDs(append(j.findings, l.said(check)...))
	if l.noLimit(check) && (j.read || j.partly) {
		j.wanting, j.read, j.partly, j.Judgement = "there is no limit to judge it by", false, false, Judgement{}
	}
	j.blank = !j.read && !j.partly && len(j.findings) == 0 && !l.noLimit(check) && len(l.unknownFacts(check)) == 0
	l.applyRules(&j)
	return j
}

// unknownFacts lists the facts that a check's formula waits for.
func (l *look) unknownFacts(check int) []string {
	var ws []string
	for _, in := range l.doc.checks[check].inputs {
		if _, ok := l.r.known[in.name]; in.check < 0 && !ok {
			ws = append(ws, in.name+" is not known")
		}
	}
	return ws
}

// said lists every finding of a check.
func (l *look) said(check int) []string {
	var ids []string
	for _, slot := range l.slots[check] {
		for _, r := range slot {
			ids = append(ids, r.finding.ID)
		}
	}
	return ids
}

func (l *look) gradeDerived(check int) judged {
	if rs := l.numbers(check, l.direct(check)); len(rs) > 0 {
		return l.worstOf(check, rs, "")
	}
	if j, ok := l.worked(check); ok {
		return j
	}
	return judged{check: check, order: check, wanting: l.unread(check)}
}

func (l *look) gradeRead(check int) judged {
	best, taken, wanted := judged{check: check, order: check}, 0, l.wanted(check)
	for _, s := range wanted {
		rs := l.numbers(check, s)
		if len(rs) == 0 {
			continue
		}
		j := l.worstOf(check, rs, l.stationName(check, s))
		if taken++; taken == 1 || j.worseThan(best) {
			best = j
		}
	}
	best.read, best.partly = taken == len(wanted), taken > 0
	if !best.read {
		best.wanting = l.unread(check)
	}
	return best
}

func (l *look) worstOf(check int, rs []reading, station string) judged {
	var best judged
	for i, r := range rs {
		j := l.judge(check, r.q, station, nil)
		j.from = r.finding.Value.Quantity
		if i == 0 || j.worseThan(best) {
			best = j
		}
	}
	return best
}

func (l *look) stationName(check, s int) string {
	if ss := l.part.Checks[check].Stations; s < len(ss) {
		return ss[s]
	}
	return ""
}

// unread says in words what of a check is not read: "FV: could not reach; RV: no reading".
func (l *look) unread(check int) string {
	var ws []string
	slots := []slot{}
	if l.part.Checks[check].Kind == core.Derived {
		if ws = append(ws, l.reasons(slot{check, l.direct(check)})...); len(ws) > 0 {
			return strings.Join(ws, ", ")
		}
		slots = l.origin(check)
	} else {
		for _, s := range l.wanted(check) {
			slots = append(slots, slot{check, s})
		}
	}
	for _, s := range slots {
		if len(l.numbers(s.check, s.station)) > 0 {
			continue
		}
		why := "no reading"
		if rs := l.reasons(s); len(rs) > 0 {
			why = strings.Join(rs, ", ")
		}
		name := l.stationName(s.check, s.station)
		if s.check != check {
			name = strings.TrimSpace(l.part.Checks[s.check].Name + " " + name)
		}
		if name != "" {
			why = name + ": " + why
		}
		ws = append(ws, why)
	}
	ws = append(ws, l.unknownFacts(check)...)
	if len(ws) == 0 {
		return "its formula gives no finite figure"
	}
	return strings.Join(ws, "; ")
}

// reasons lists why a slot has no number, each once.
func (l *look) reasons(s slot) []string {
	var ws []string
	for _, r := range l.slots[s.check][s.station] {
		if r.notRead != "" && !slices.Contains(ws, string(r.notRead)) {
			ws = append(ws, string(r.notRead))
		}
	}
	return ws
}

// applyRules raises the grade to failed where a no-reuse rule fires.
func (l *look) applyRules(j *judged) {
	for i := range l.r.doc.noReuse {
		n := &l.r.doc.noReuse[i]
		if n.part.text != l.doc.id.text || n.check.text != l.doc.checks[j.check].id.text || !l.fires(n, j) {
			continue
		}
		j.Grade = core.Failed
		if j.rule == nil {
			j.rule = n
		}
	}
}

// fires reports whether some live reading of the rule's check is its trigger, or worse.
func (l *look) fires(n *noReuseDoc, j *judged) bool {
	if n.trigger.Kind == core.ValueWord {
		return j.Grade == core.PastLimit || j.Grade == core.Failed
	}
	for s := range l.slots[j.check] {
		for _, r := range l.numbers(j.check, s) {
			switch n.trigger.Kind {
			case core.ValuePass:
				if r.q.Value < .5 {
					return true
				}
			case core.ValueClass:
				if r.q.Value >= float64(n.trigger.Class) {
					return true
				}
			case core.ValueCount:
				if r.q.Value >= float64(n.trigger.Count) {
					return true
				}
			}
		}
	}
	return false
}

// disagreements notes readings of one check and station that do not agree.
func (l *look) disagreements() {
	for c := range l.slots {
		for s := range l.slots[c] {
			rs := l.numbers(c, s)
			if len(rs) > 0 && len(rs) < len(l.slots[c][s]) {
				l.mixedNote(c, s, rs)
			}
			if !slices.ContainsFunc(rs, func(r reading) bool { return !same(r.q.Value, rs[0].q.Value) }) {
				continue
			}
			var words, ids []string
			for _, r := range rs {
				words = append(words, readingWords(&l.part.Checks[c], r.q))
				ids = append(ids, r.finding.ID)
			}
			l.r.problem(core.Problem{Severity: core.SeverityNote, FindingID: rs[0].finding.ID, Target: l.target, Check: l.part.Checks[c].ID,
				Summary: fmt.Sprintf("%s, %s: the readings disagree: %s", l.name(), l.checkAt(c, s), strings.Join(words, " and ")),
				Detail:  "the worse governs; findings " + strings.Join(ids, ", "),
				Next:    "read it again, and put that in their place"})
		}
	}
}

// mixedNote tells of a station that was read and is also said not to be.
func (l *look) mixedNote(c, s int, rs []reading) {
	for _, r := range l.slots[c][s] {
		if r.notRead != "" {
			l.r.problem(core.Problem{Severity: core.SeverityNote, FindingID: r.finding.ID, Target: l.target, Check: l.part.Checks[c].ID,
				Summary: fmt.Sprintf("%s, %s: %s and %q are both recorded", l.name(), l.checkAt(c, s), readingWords(&l.part.Checks[c], rs[0].q), r.notRead),
				Detail:  "the reading counts", Next: "supersede the one that is out of date"})
		}
	}
}

func (l *look) checkAt(c, s int) string {
	return strings.TrimSpace(l.part.Checks[c].Name + " " + l.stationName(c, s))
}

func same(a, b float64) bool { return core.LessOrEqual(a, b) && core.LessOrEqual(b, a) }
