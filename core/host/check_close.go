package host

import (
	"fmt"
	"slices"

	"github.com/fettle-tools/fettle/core"
)

// pastLimit is the trigger word of a no-reuse rule for any reading past its limit.
const pastLimit = "past limit"

// reuseChance is the chance of being past the limit from which even an ordinary part is not reused. Common practice,
// no source.
const reuseChance = .5

// close closes what a no-reuse rule or a grade closes and the plugin left open, and says so as a problem. The plugin's
// own word is never enough to reopen anything. A state left without a remedy is a fault.
func (c *answerCheck) close() {
	for i := range c.answer.Conditions {
		d := &c.answer.Conditions[i]
		c.closeByRules(d)
		c.closeByGrade(d)
		for _, s := range d.States {
			if !c.leaves(d.Target, s) {
				c.add("%s keeps no remedy if it is %s once the rules are applied", d.Target, s.Grade)
			}
		}
	}
}

// leaves reports whether a state has a remedy that may be chosen and not only pinned.
func (c *answerCheck) leaves(t core.Target, s core.State) bool {
	return slices.ContainsFunc(s.Remedies, func(id string) bool { return !c.remedy[remedyKey{t, id}].PinOnly })
}

// closeByRules works out the no-reuse rules from the findings.
func (c *answerCheck) closeByRules(d *core.Condition) {
	for _, rule := range c.sheet.rules {
		if rule.Part != d.Target.Part {
			continue
		}
		for i := range c.req.Findings {
			f := &c.req.Findings[i]
			if f.Target != d.Target || rule.Check != "" && rule.Check != f.Check || !c.fires(rule, f) {
				continue
			}
			why := core.Reason{Text: fmt.Sprintf("rule %s: %s is %s", rule.ID, f.Check, f.Value), FindingIDs: []string{f.ID},
				Check: f.Check, Rule: rule.ID, Source: rule.Source}
			c.shut(d, why, f.ID, allStates, func(k core.RemedyKind) bool { return !slices.Contains(rule.Allowed, k) })
		}
	}
}

// fires reports whether a finding triggers a rule: the trigger's value or worse.
func (c *answerCheck) fires(rule core.NoReuse, f *core.Finding) bool {
	t, v := rule.Trigger, f.Value
	if t.Kind == core.ValueWord && t.Word == pastLimit {
		check := c.sheet.check(f.Target.Part, f.Check)
		if check != nil && check.Kind == core.Derived && f.Station != "" {
			return false // the limit is the result's, not the station's
		}
		return check != nil && c.gradeOf(check, f) == core.PastLimit
	}
	if t.Kind != v.Kind {
		return false
	}
	switch t.Kind {
	case core.ValuePass:
		return v.Pass == t.Pass
	case core.ValueClass:
		return v.Class >= t.Class
	case core.ValueCount:
		return v.Count >= t.Count
	case core.ValueNotRead:
		return v.NotRead == t.NotRead
	case core.ValueWord:
		return v.Word == t.Word
	}
	return false
}

// closeByGrade closes reuse where the grade rules it out, for the part as it stands and for each state it may be in.
func (c *answerCheck) closeByGrade(d *core.Condition) {
	safety := c.sheet.parts[d.Target.Part].SafetyCritical
	reuse := func(k core.RemedyKind) bool { return k == core.Reuse }
	if d.Grade.ClosesReuse(safety) {
		which := noState // a part not seen, or to be measured again, may yet turn out well
		if len(d.States) == 1 && d.Grade != core.NotSeen && d.Grade != core.MeasureAgain {
			which = allStates
		}
		c.shut(d, core.Reason{Text: d.Grade.String() + ": not to be reused", Check: d.GoverningCheck}, "", which, reuse)
	}
	if d.Grade == core.MeasureAgain && !safety && d.PPast != nil && *d.PPast >= reuseChance {
		c.shut(d, core.Reason{Text: "more likely past its limit than not: not to be reused", Check: d.GoverningCheck}, "", noState, reuse)
	}
	for i := range d.States {
		if s := d.States[i]; s.Grade.ClosesReuse(safety) && s.Grade != core.NotSeen {
			c.shut(d, core.Reason{Text: "if it is " + s.Grade.String() + ": not to be reused", Check: d.GoverningCheck}, "", i, reuse)
		}
	}
}

// Which states shut closes a remedy in, beside the index of a single one.
const (
	allStates = -1
	noState   = -2
)

// shut closes a part's remedies of some kinds: as things stand and in all states, or in one state only. Nothing is
// said if the plugin had done so itself.
func (c *answerCheck) shut(d *core.Condition, why core.Reason, finding string, which int, closes func(core.RemedyKind) bool) {
	shut := false
	for i := range c.answer.Remedies {
		r := &c.answer.Remedies[i]
		if r.Target != d.Target || !closes(r.Kind) {
			continue
		}
		if which < 0 && r.Feasible {
			r.Feasible, r.Why, shut = false, append(r.Why, why), true
		}
		for j := range d.States {
			if which != allStates && which != j {
				continue
			}
			left := slices.DeleteFunc(slices.Clone(d.States[j].Remedies), func(id string) bool { return id == r.ID })
			shut = shut || len(left) < len(d.States[j].Remedies)
			d.States[j].Remedies = left
		}
	}
	if shut {
		c.answer.Problems = append(c.answer.Problems, core.Problem{
			Severity: core.SeverityWarning, Summary: "the host closed what the plugin had left open: " + why.Text,
			Next: "tell the plugin's author", FindingID: finding, Target: d.Target, Check: why.Check,
		})
	}
}
