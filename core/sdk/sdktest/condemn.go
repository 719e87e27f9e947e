package sdktest

import (
	"fmt"
	"slices"

	"github.com/fettle-tools/fettle/core"
)

// checkNoReuse fires every no-reuse rule: on a unit as new, and as the only finding there is.
func (k *kit) checkNoReuse() {
	base := k.asNew()
	for _, n := range k.sheet.NoReuse {
		p := k.sheet.Part(n.Part)
		if p == nil {
			continue // Told of the sheet.
		}
		for _, t := range ends(*p) {
			fires := k.triggers(n, *p, t)
			if len(fires) == 0 {
				k.fault(NoReuse, t, n.Check, "nothing fires rule %s", n.ID)
			}
			for _, f := range fires {
				rest := without(base, of(t, f.Check, f.Station))
				if f.Value.NotRead == core.PartMissing {
					rest = without(base, func(o core.Finding) bool { return o.Target == t })
				}
				k.condemned(append(rest, f), n, t, f, "beside readings as new")
				k.condemned([]core.Finding{f}, n, t, f, "as the only finding")
			}
		}
	}
}

// triggers lists the findings that fire a rule: its value, and the worse ones.
func (k *kit) triggers(n core.NoReuse, p core.Part, t core.Target) []core.Finding {
	c := p.Check(n.Check)
	if c == nil {
		if c = firstCheck(p); c == nil && len(p.Checks) > 0 {
			c = &p.Checks[0] // of a one-use part, which can be missing all the same
		}
		if c != nil && n.Trigger.Kind == core.ValueNotRead {
			return []core.Finding{k.finding(t, c.ID, stationsOf(*c)[0], n.Trigger)}
		}
		return nil
	}
	var vs []core.Value
	switch n.Trigger.Kind {
	case core.ValueClass:
		for worse := n.Trigger.Class; worse <= 3; worse++ {
			vs = append(vs, class(worse))
		}
	case core.ValueCount:
		vs = append(vs, n.Trigger, core.Value{Kind: core.ValueCount, Count: n.Trigger.Count + 1})
	case core.ValueWord:
		if v, ok := worstValue(*c); ok {
			vs = append(vs, v)
		}
	default:
		vs = append(vs, n.Trigger)
	}
	var fs []core.Finding
	for _, v := range vs {
		fs = append(fs, k.finding(t, c.ID, stationsOf(*c)[0], v))
	}
	return fs
}

// condemned wants reuse closed in the condition and in every state, and only the kinds that the rule allows.
func (k *kit) condemned(findings []core.Finding, n core.NoReuse, t core.Target, f core.Finding, how string) {
	a, ok := k.assess(findings)
	if !ok {
		return
	}
	what := fmt.Sprintf("%s %s (rule %s)", f.Value, how, n.ID)
	c := conditionOf(a, t)
	if c == nil {
		return
	}
	if p := k.sheet.Part(t.Part); !p.OneUse && !c.Grade.ClosesReuse(false) {
		k.fault(NoReuse, t, f.Check, "%s, and it is graded %s", what, c.Grade)
	}
	for _, r := range feasible(a, t) {
		if !slices.Contains(n.Allowed, r.Kind) {
			k.fault(NoReuse, t, f.Check, "%s, and remedy %q, a %s, is open", what, r.ID, r.Kind)
		}
	}
	for _, s := range c.States {
		for _, id := range s.Remedies {
			if r := remedyOf(a, t, id); r != nil && !slices.Contains(n.Allowed, r.Kind) {
				k.fault(NoReuse, t, f.Check, "%s, and a state of %s keeps remedy %q, a %s", what, s.Grade, id, r.Kind)
			}
		}
	}
	k.wayOut(a, t, f.Check, what+":")
}

// checkMissing records each part as missing.
func (k *kit) checkMissing() {
	base := k.asNew()
	for _, p := range k.sheet.Parts {
		c := firstCheck(p)
		if p.OneUse || c == nil {
			continue
		}
		for _, t := range ends(p) {
			rest := without(base, func(f core.Finding) bool { return f.Target == t })
			a, ok := k.assess(append(rest, k.finding(t, c.ID, stationsOf(*c)[0], notRead(core.PartMissing))))
			if !ok {
				return
			}
			if g, ok := gradeOf(a, t); ok && g < core.Missing {
				k.fault(MissingIsNew, t, "", "recorded as missing, and graded %s", g)
			}
			for _, r := range feasible(a, t) {
				if r.Kind != core.Replace {
					k.fault(MissingIsNew, t, "", "recorded as missing, and remedy %q, a %s, is open", r.ID, r.Kind)
				}
			}
			k.wayOut(a, t, "", "recorded as missing,")
		}
	}
}

// firstCheck is the first check of a part that is read, or nil.
func firstCheck(p core.Part) *core.Check {
	for i := range p.Checks {
		if p.Checks[i].Kind != core.OneUse {
			return &p.Checks[i]
		}
	}
	return nil
}
