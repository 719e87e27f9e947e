package sdk

import (
	"fmt"
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// verdict is what a look comes to: every check graded, and what follows for the part.
type verdict struct {
	*look
	checks   []judged // in the order of the sheet
	byWorst  []judged // those that say something, worst first
	gone     bool     // recorded missing
	goneRule *noReuseDoc
	allowed  []core.RemedyKind // by the no-reuse rules that fired; nil: any
	close    closing
}

// closing lists, as check ids, what stands against using the part again.
type closing struct {
	condemned []string // past limit, failed, too tight; on a safety-critical part near limit too
	straddle  []string // may be past the limit
	doubtful  []string // better than new, or no wear limit known: to be measured again
	unread    []string // needed for reuse and not read
	pastNow   float64  // chance that one of straddle is past
}

// verdict grades all checks of a look.
func (l *look) verdict() *verdict {
	v := &verdict{look: l, gone: len(l.missing) > 0}
	for c := range l.part.Checks {
		j := l.grade(c)
		v.checks = append(v.checks, j)
		if j.read || j.partly || len(j.findings) > 0 || l.part.Checks[c].NeededForReuse {
			v.byWorst = append(v.byWorst, j)
		}
		if j.rule != nil {
			v.allow(j.rule.allowed)
		}
	}
	slices.SortStableFunc(v.byWorst, func(a, b judged) int {
		switch {
		case a.worseThan(b):
			return -1
		case b.worseThan(a):
			return 1
		}
		return 0
	})
	for i := range l.r.doc.noReuse {
		n := &l.r.doc.noReuse[i]
		if v.gone && n.part.text == l.doc.id.text && n.trigger.Kind == core.ValueNotRead {
			v.goneRule = n
			v.allow(n.allowed)
		}
	}
	for c := range l.part.Checks {
		if l.part.Checks[c].NeededForReuse && !v.checks[c].read && l.lostForGood(c) {
			l.r.problem(core.Problem{Severity: core.SeverityNote, Target: l.target, Check: l.part.Checks[c].ID,
				Summary: fmt.Sprintf("%s: %s was lost when it came apart, and is judged without it", l.name(), l.part.Checks[c].Name), Next: "look at it again when it is built up"})
		}
	}
	v.close = v.closes()
	return v
}

// lostForGood reports that a reading which exists only before strip-down was recorded as lost: nothing can bring it back, so an ordinary part is
// judged by its other checks. A safety-critical one stays not seen.
func (l *look) lostForGood(check int) bool {
	if !l.part.Checks[check].BeforeStrip || l.part.SafetyCritical {
		return false
	}
	for _, slot := range l.slots[check] {
		for _, r := range slot {
			if r.notRead == core.Lost {
				return true
			}
		}
	}
	return false
}

// allow narrows the kinds allowed to those of one more rule.
func (v *verdict) allow(kinds []core.RemedyKind) {
	if v.allowed == nil {
		v.allowed = slices.Clone(kinds)
		return
	}
	v.allowed = slices.DeleteFunc(v.allowed, func(k core.RemedyKind) bool { return !slices.Contains(kinds, k) })
}

// closes sorts the checks by what they say against reuse.
func (v *verdict) closes() closing {
	var c closing
	sound := 1.0
	for _, j := range v.checks {
		id := v.part.Checks[j.check].ID
		switch {
		case j.Grade == core.Failed, j.Grade == core.PastLimit, j.Grade == core.TooTight, j.Grade == core.NearLimit && v.part.SafetyCritical:
			c.condemned = append(c.condemned, id)
		case straddles(j):
			c.straddle = append(c.straddle, id)
			sound *= 1 - *j.PPast
		case j.Grade == core.MeasureAgain:
			c.doubtful = append(c.doubtful, id)
		}
		if v.part.Checks[j.check].NeededForReuse && !j.read && j.Grade < core.TooTight && !v.lostForGood(j.check) {
			c.unread = append(c.unread, id)
		}
	}
	c.pastNow = tidy(1 - sound) // as the answer has it: at the half both ends decide alike
	return c
}

// condemning reports that no more readings are needed: one finding has settled it.
func (v *verdict) condemning() bool {
	return slices.ContainsFunc(v.checks, func(j judged) bool { return j.Grade >= core.TooTight })
}

// condition puts the verdict into words and figures.
func (v *verdict) condition() core.Condition {
	c := core.Condition{Target: v.target, Reasons: []core.Reason{}, States: []core.State{}}
	v.countReadings(&c)
	v.facts(&c)
	switch {
	case v.part.OneUse && !v.gone:
		v.oneUse(&c)
	case v.gone && v.goneRule != nil:
		c.Grade, c.GoverningCheck = core.Failed, v.goneCheck()
	case v.gone && !v.failed():
		c.Grade, c.GoverningCheck = core.Missing, v.goneCheck()
	default:
		v.worst(&c)
	}
	if v.gone {
		c.Reasons = append(c.Reasons, v.goneReason())
	}
	if c.Grade == core.NotSeen {
		c.Reasons = append(c.Reasons, v.notSeen(&c))
	}
	for _, j := range v.byWorst {
		if j.blank {
			continue
		}
		c.Reasons = append(c.Reasons, v.reason(j))
	}
	c.States = v.states(&c)
	return c
}

// notSeen counts what is read and names what is still to be read.
func (v *verdict) notSeen(c *core.Condition) core.Reason {
	var names []string
	for _, id := range c.ChecksNotRead {
		check := v.part.Check(id)
		if names = append(names, check.Name); check.BeforeStrip {
			names[len(names)-1] += " (only before it comes apart)"
		}
	}
	text := fmt.Sprintf("not seen: %d of %d readings taken", c.ReadingsTaken, c.ReadingsNeeded)
	if c.ReadingsNeeded == 1 {
		text = fmt.Sprintf("not seen: %d of 1 reading taken", c.ReadingsTaken)
	}
	if len(names) > 0 {
		text += "; still to read: " + strings.Join(names, ", ")
	}
	return core.Reason{Text: text, Check: c.GoverningCheck}
}

func (v *verdict) failed() bool {
	return slices.ContainsFunc(v.checks, func(j judged) bool { return j.Grade == core.Failed })
}

// worst gives the part the grade of its worst check; with a needed reading wanting it is not seen, unless something
// already condemns it or asks to be measured again.
func (v *verdict) worst(c *core.Condition) {
	var governs *judged
	for i := range v.byWorst {
		if j := &v.byWorst[i]; j.Grade != core.GradeNone {
			governs = j
			break
		}
	}
	unseen := len(v.close.unread) > 0 || governs == nil
	if unseen && (governs == nil || governs.Grade < core.NotSeen) {
		c.Grade, c.GoverningCheck = core.NotSeen, v.part.Checks[0].ID
		if len(v.close.unread) > 0 {
			c.GoverningCheck = v.close.unread[0]
		}
		return
	}
	c.Grade, c.GoverningCheck = governs.Grade, v.part.Checks[governs.check].ID
	c.Wear, c.WearU, c.PPast = tidied(governs.Wear), tidied(governs.WearU), tidied(governs.PPast)
}

func (v *verdict) oneUse(c *core.Condition) {
	c.Grade = core.WornFit
	i := slices.IndexFunc(v.part.Checks, func(k core.Check) bool { return k.Kind == core.OneUse })
	check := v.part.Checks[i]
	c.GoverningCheck = check.ID
	c.Reasons = append(c.Reasons, core.Reason{Text: fmt.Sprintf("one-use: always new (%s)", check.Limit.Source), Check: check.ID, Source: check.Limit.Source})
}

// goneCheck is the check that said the part is missing, or the first needed one.
func (v *verdict) goneCheck() string {
	for _, f := range v.missing {
		if f.Check != "" {
			return f.Check
		}
	}
	for _, c := range v.part.Checks {
		if c.NeededForReuse {
			return c.ID
		}
	}
	return v.part.Checks[0].ID
}

func (v *verdict) goneReason() core.Reason {
	r := core.Reason{Text: v.name() + " is missing", Check: v.goneCheck()}
	for _, f := range v.missing {
		r.FindingIDs = append(r.FindingIDs, f.ID)
	}
	r.FindingIDs = sortedIDs(r.FindingIDs)
	if v.goneRule != nil {
		r.Text += "; " + ruleWords(v.goneRule)
		r.Rule, r.Source = v.goneRule.id.text, v.goneRule.source
	}
	return r
}

// countReadings counts the readings needed for reuse and those taken: "3 of 4".
func (v *verdict) countReadings(c *core.Condition) {
	var needed []slot
	for i, check := range v.part.Checks {
		if !check.NeededForReuse || check.Kind == core.OneUse || v.lostForGood(i) {
			continue
		}
		if !v.checks[i].read {
			c.ChecksNotRead = append(c.ChecksNotRead, check.ID)
		}
		slots := []slot{{i, v.direct(i)}}
		_, supplied := v.supplied[i]
		switch {
		case check.Kind == core.Derived && !supplied && len(v.numbers(i, v.direct(i))) == 0:
			slots = v.origin(i)
		case check.Kind != core.Derived:
			slots = nil
			for _, s := range v.wanted(i) {
				slots = append(slots, slot{i, s})
			}
		}
		for _, s := range slots {
			if !slices.Contains(needed, s) {
				needed = append(needed, s)
				if supplied || len(v.numbers(s.check, s.station)) > 0 {
					c.ReadingsTaken++
				}
			}
		}
	}
	c.ReadingsNeeded = len(needed)
}

// facts keeps what was worked out on the way.
func (v *verdict) facts(c *core.Condition) {
	for _, j := range v.checks {
		if j.worked && j.read {
			check := v.part.Checks[j.check]
			source := "worked out"
			if check.Formula != "" {
				source += ": " + strings.TrimSpace(check.Formula)
			}
			q := core.Quantity{Value: tidy(j.q.Value), Unit: j.q.Unit, Bound: tidy(j.q.Bound)}
			c.Facts = append(c.Facts, core.Fact{Name: check.ID, Value: core.Value{Kind: core.ValueQuantity, Quantity: q}, Source: source})
		}
	}
}
