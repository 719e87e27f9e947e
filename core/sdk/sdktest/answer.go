package sdktest

import (
	"math"
	"slices"
	"strconv"

	"github.com/fettle-tools/fettle/core"
)

// checkAnswer holds one assessment to what every answer must keep, whatever was asked.
func (k *kit) checkAnswer(findings []core.Finding, a core.Assessment) {
	for _, p := range k.sheet.Parts {
		for _, t := range p.Targets() {
			if n := count(a.Conditions, func(c core.Condition) bool { return c.Target == t }); n != 1 {
				k.fault(Resolves, t, "", "it has %d conditions in the answer", n)
			}
		}
	}
	for i := range a.Conditions {
		k.checkCondition(&a.Conditions[i], a)
	}
	known := map[core.RemedyRef]int{}
	for _, r := range a.Remedies {
		known[core.RemedyRef{Target: r.Target, Remedy: r.ID}]++
	}
	for i := range a.Remedies {
		k.checkRemedy(&a.Remedies[i], a, known)
	}
	uniqueIDs(k, core.Target{}, "operation of the answer", a.Operations, func(o core.Operation) string { return o.ID })
	for _, o := range a.Operations {
		k.checkOperation(o, func(id string) bool {
			return hasOperation(a, id) || hasOperation(core.Assessment{Operations: k.sheet.Operations}, id)
		})
	}
	k.checkUsed(findings, a)
}

func (k *kit) checkCondition(c *core.Condition, a core.Assessment) {
	p := k.sheet.Part(c.Target.Part)
	if p == nil || !slices.Contains(p.Targets(), c.Target) {
		k.fault(Resolves, c.Target, "", "a condition of what is not in the sheet")
		return
	}
	if c.Grade < core.WithinNew || c.Grade > core.Failed {
		k.fault(Sane, c.Target, "", "its grade is %v", c.Grade)
	}
	if c.GoverningCheck != "" && p.Check(c.GoverningCheck) == nil {
		k.fault(Resolves, c.Target, c.GoverningCheck, "no such check governs it")
	}
	for _, v := range []*float64{c.Wear, c.WearU, c.PPast} {
		if v != nil && (math.IsNaN(*v) || math.IsInf(*v, 0)) {
			k.fault(Sane, c.Target, c.GoverningCheck, "a figure is %v", *v)
		}
	}
	if len(c.States) == 0 {
		k.fault(Answered, c.Target, "", "it has no state")
	} else {
		k.checkChances(c.Target, c.States)
	}
	for _, s := range c.States {
		if len(s.Remedies) == 0 {
			k.fault(Answered, c.Target, c.GoverningCheck, "a state of %s has no remedy", s.Grade)
		}
		for _, id := range s.Remedies {
			if remedyOf(a, c.Target, id) == nil {
				k.fault(Resolves, c.Target, "", "a state names remedy %q", id)
			}
		}
		if s.RegisterID != "" && !slices.ContainsFunc(k.sheet.Hidden, func(h core.Hidden) bool { return h.ID == s.RegisterID }) {
			k.fault(Resolves, c.Target, "", "a state names register entry %q", s.RegisterID)
		}
	}
	for _, id := range c.ChecksNotRead {
		if p.Check(id) == nil {
			k.fault(Resolves, c.Target, id, "it is not read, and there is no such check")
		}
	}
	k.checkStates(c)
	k.checkExplained(p, c)
	k.checkClosed(p, c, a)
}

// checkStates wants one state of a part that was seen, and of one that straddles its limit the chance of being past it. A
// part condemned with a check still unread may have more: what is read yet may close a lesser remedy too.
func (k *kit) checkStates(c *core.Condition) {
	switch {
	case c.Grade == core.NotSeen || len(c.States) == 0:
	case c.Grade >= core.TooTight && len(c.ChecksNotRead) > 0:
	case c.Grade != core.MeasureAgain:
		if len(c.States) != 1 || c.States[0].Grade != c.Grade {
			k.fault(StatesFit, c.Target, c.GoverningCheck, "graded %s, it has %d states, the first of %s", c.Grade, len(c.States), c.States[0].Grade)
		}
	case c.PPast != nil && *c.PPast > .05 && *c.PPast < .95:
		past := 0.0
		for _, s := range c.States {
			if s.Grade >= core.PastLimit {
				past += s.Chance
			}
		}
		if len(c.States) != 2 || math.Abs(past-*c.PPast) > 1e-6 {
			k.fault(StatesFit, c.Target, c.GoverningCheck, "past its limit with a chance of %.3f, and its %d states say %.3f", *c.PPast, len(c.States), past)
		}
	}
}

// checkExplained wants a reason for every grade; where a reading gave it, one of the governing check with its source.
func (k *kit) checkExplained(p *core.Part, c *core.Condition) {
	if len(c.Reasons) == 0 || slices.ContainsFunc(c.Reasons, func(r core.Reason) bool { return r.Text == "" }) {
		k.fault(Explained, c.Target, c.GoverningCheck, "graded %s without a reason, or with an empty one", c.Grade)
	}
	if p.OneUse || c.Grade == core.NotSeen || c.Grade == core.Missing {
		return
	}
	told := slices.ContainsFunc(c.Reasons, func(r core.Reason) bool { return r.Check == c.GoverningCheck && r.Source != "" })
	if c.GoverningCheck == "" || !told {
		k.fault(Explained, c.Target, c.GoverningCheck, "graded %s, and no reason of its governing check has a source", c.Grade)
	}
}

// checkClosed wants reuse closed where the grade, or the chance of being past the limit, rules it out.
func (k *kit) checkClosed(p *core.Part, c *core.Condition, a core.Assessment) {
	if c.PPast != nil {
		switch pp := *c.PPast; {
		case pp >= .95 && c.Grade < core.PastLimit, pp > .05 && c.Grade < core.MeasureAgain:
			k.fault(GradeCloses, c.Target, c.GoverningCheck, "graded %s with a chance of %.3f of being past its limit", c.Grade, pp)
		}
	}
	for _, s := range c.States {
		if c.Grade < core.TooTight && !s.Grade.ClosesReuse(false) {
			continue
		}
		for _, id := range s.Remedies {
			if r := remedyOf(a, c.Target, id); r != nil && r.Kind == core.Reuse {
				k.fault(GradeCloses, c.Target, c.GoverningCheck, "graded %s, and a state of %s keeps reuse", c.Grade, s.Grade)
			}
		}
	}
	closed := c.Grade.ClosesReuse(p.SafetyCritical) || p.OneUse ||
		c.Grade == core.MeasureAgain && c.PPast != nil && *c.PPast >= .5
	if closed && reuseOpen(a, c.Target) {
		k.fault(GradeCloses, c.Target, c.GoverningCheck, "graded %s, and reuse is open", c.Grade)
	}
}

// checkRemedy follows a remedy to what it names; known counts the remedies of the answer by name.
func (k *kit) checkRemedy(r *core.Remedy, a core.Assessment, known map[core.RemedyRef]int) {
	p := k.sheet.Part(r.Target.Part)
	if p == nil || !slices.Contains(p.Targets(), r.Target) {
		k.fault(Resolves, r.Target, "", "remedy %q of what is not in the sheet", r.ID)
		return
	}
	if n := known[core.RemedyRef{Target: r.Target, Remedy: r.ID}]; n != 1 || r.ID == "" {
		k.fault(Resolves, r.Target, "", "%d remedies are called %q", n, r.ID)
	}
	if p.OneUse && r.Feasible && r.Kind != core.Replace {
		k.fault(OneUseIsNew, r.Target, "", "remedy %q, a %s, is open", r.ID, r.Kind)
	}
	if !r.Feasible && len(r.Why) == 0 {
		k.fault(Explained, r.Target, "", "remedy %q is closed, and nothing says why", r.ID)
	}
	if r.Kind != core.Reuse && r.Kind != core.Rebuild && r.Kind != core.Replace {
		k.fault(Sane, r.Target, "", "remedy %q is of kind %q", r.ID, r.Kind)
	}
	if !(r.ResidualChance >= 0 && r.ResidualChance <= 1) || r.WearAfter != nil && (math.IsNaN(*r.WearAfter) || math.IsInf(*r.WearAfter, 0)) {
		k.fault(Sane, r.Target, "", "remedy %q has a residual chance of %v", r.ID, r.ResidualChance)
	}
	for _, id := range slices.Concat(r.Operations, r.CollateralOperations) {
		if !hasOperation(a, id) {
			k.fault(Resolves, r.Target, "", "remedy %q takes operation %q, which is not in the answer", r.ID, id)
		}
	}
	for _, id := range r.Steps {
		k.ownStep(r.Target, id)
	}
	for _, o := range slices.Concat(r.Requires, r.Excludes) {
		if known[o] == 0 {
			k.fault(Resolves, r.Target, "", "remedy %q names %s#%s", r.ID, o.Target, o.Remedy)
		}
		if o.Target == r.Target && o.Remedy == r.ID {
			k.fault(Sane, r.Target, "", "remedy %q requires or excludes itself", r.ID)
		}
	}
}

// checkUsed wants every finding in some reason or problem, and nothing there that was not given.
func (k *kit) checkUsed(findings []core.Finding, a core.Assessment) {
	used := map[string]bool{}
	for _, c := range a.Conditions {
		noteUsed(used, c.Reasons)
	}
	for _, r := range a.Remedies {
		noteUsed(used, r.Why)
	}
	for _, p := range a.Problems {
		used[p.FindingID] = true
	}
	given := map[string]bool{"": true}
	for _, f := range findings {
		given[f.ID] = true
		if !used[f.ID] {
			k.fault(UsedOrNamed, f.Target, f.Check, "the finding %q is in no reason and no problem", f.Value)
		}
	}
	for _, c := range a.Conditions {
		for _, r := range c.Reasons {
			for _, id := range r.FindingIDs {
				if !given[id] {
					k.fault(Resolves, c.Target, r.Check, "a reason names finding %q, which was not given", id)
				}
			}
		}
	}
	for _, p := range a.Problems {
		if !given[p.FindingID] {
			k.fault(Resolves, p.Target, p.Check, "a problem names finding %q, which was not given", p.FindingID)
		}
	}
}

func noteUsed(used map[string]bool, rs []core.Reason) {
	for _, r := range rs {
		for _, id := range r.FindingIDs {
			used[id] = true
		}
	}
}

func (k *kit) checkChances(t core.Target, states []core.State) {
	sum := 0.0
	for _, s := range states {
		if !(s.Chance >= 0 && s.Chance <= 1) {
			k.fault(Chances, t, "", "a state has a chance of %v", s.Chance)
		}
		sum += s.Chance
	}
	if !(math.Abs(sum-1) <= core.Slack) {
		k.fault(Chances, t, "", "they sum to %v", sum)
	}
}

func hasOperation(a core.Assessment, id string) bool {
	return slices.ContainsFunc(a.Operations, func(o core.Operation) bool { return o.ID == id })
}

func remedyOf(a core.Assessment, t core.Target, id string) *core.Remedy {
	for i := range a.Remedies {
		if a.Remedies[i].Target == t && a.Remedies[i].ID == id {
			return &a.Remedies[i]
		}
	}
	return nil
}

func count[T any](xs []T, is func(T) bool) int {
	n := 0
	for _, x := range xs {
		if is(x) {
			n++
		}
	}
	return n
}

// orderedMoney wants no price, or three decimals in order and not negative, of a currency.
func orderedMoney(m core.Money3) bool {
	if m == (core.Money3{}) {
		return true
	}
	low, errL := strconv.ParseFloat(m.Low, 64)
	likely, errM := strconv.ParseFloat(m.Likely, 64)
	high, errH := strconv.ParseFloat(m.High, 64)
	return errL == nil && errM == nil && errH == nil && len(m.Currency) == 3 && ordered(core.Range3{Low: low, Likely: likely, High: high})
}
