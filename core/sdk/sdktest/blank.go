package sdktest

import "github.com/fettle-tools/fettle/core"

// checkBlank leaves out everything, then one needed reading at a time: as a blank, as not read, as the wrong sort of value.
func (k *kit) checkBlank() {
	k.checkNothing()
	base := k.asNew()
	k.eachEnd(func(p core.Part, t core.Target, c core.Check) {
		if !c.NeededForReuse || c.Kind == core.Derived && c.Formula != "" {
			return // A derived value may be worked out from the others.
		}
		station := stationsOf(c)[len(stationsOf(c))-1]
		k.expectNotSeen(without(base, of(t, c.ID, station)), p, t, c, "left out")
		for _, try := range []struct {
			v    core.Value
			what string
		}{
			{core.Value{}, "blank"},
			{notRead(core.NotMeasured), "recorded as not measured"},
			{notRead(core.CouldNotReach), "recorded as could not reach"},
			{wrongKind(c), "given a value of another kind"},
		} {
			k.expectNotSeen(k.with(base, t, c, station, try.v), p, t, c, try.what)
		}
	})
}

// checkNothing assesses a unit of which nothing was read.
func (k *kit) checkNothing() {
	a, ok := k.assess(nil)
	if !ok {
		return
	}
	for _, p := range k.sheet.Parts {
		needed := count(p.Checks, func(c core.Check) bool { return c.NeededForReuse && c.Kind != core.OneUse }) > 0
		for _, t := range p.Targets() {
			g, ok := gradeOf(a, t)
			switch {
			case !ok || p.OneUse:
			case g == core.WithinNew:
				k.fault(BlankNoPass, t, "", "nothing was read, and it is graded %s", g)
			case (needed || p.SafetyCritical) && g < core.NotSeen:
				k.fault(BlankNoPass, t, "", "nothing was read, and it is graded %s", g)
			case p.SafetyCritical && reuseOpen(a, t):
				k.fault(BlankNoPass, t, "", "nothing was read of a safety-critical part, and reuse is open")
			}
		}
	}
}

func (k *kit) expectNotSeen(findings []core.Finding, p core.Part, t core.Target, c core.Check, what string) {
	a, ok := k.assess(findings)
	if !ok {
		return
	}
	if g, ok := gradeOf(a, t); ok && g < core.NotSeen {
		k.fault(BlankNoPass, t, c.ID, "%s, and the part is graded %s", what, g)
	}
	if p.SafetyCritical && reuseOpen(a, t) {
		k.fault(BlankNoPass, t, c.ID, "%s on a safety-critical part, and reuse is open", what)
	}
}

// wrongKind is a value that no check of this kind takes.
func wrongKind(c core.Check) core.Value {
	if c.Kind == core.GoNoGo {
		return class(0)
	}
	return passes(true)
}

// checkNew assesses a unit that reads as new throughout.
func (k *kit) checkNew() {
	a, ok := k.assess(k.asNew())
	if !ok {
		return
	}
	for _, p := range k.sheet.Parts {
		for _, t := range p.Targets() {
			if c := conditionOf(a, t); c != nil && !p.OneUse && c.Grade > core.WornFit {
				k.fault(NewIsFit, t, c.GoverningCheck, "every check reads as new, and it is graded %s", c.Grade)
			}
		}
	}
}
