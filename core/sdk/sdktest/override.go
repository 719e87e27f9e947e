package sdktest

import "github.com/fettle-tools/fettle/core"

// checkOverrides moves the limits of every measured and derived check so that what read as new is past them: at the first
// position by name, at the last by an override that speaks of every position.
func (k *kit) checkOverrides() {
	base := k.asNew()
	k.eachEnd(func(p core.Part, t core.Target, c core.Check) {
		if c.Kind != core.Measured && c.Kind != core.Derived {
			return
		}
		for _, s := range sidesOf(c) {
			o := core.Override{Target: t, Check: c.ID, Limit: moved(c, s)}
			if t != p.Targets()[0] {
				o.Target.Position = ""
			}
			a, ok := k.assess(base, o)
			if !ok {
				return
			}
			if g, ok := gradeOf(a, t); ok && g < core.PastLimit {
				k.fault(Overridden, t, c.ID, "reads %s as new, the limit is overridden with %s, and it is graded %s",
					newValue(c), core.FormatNumber(s.limit-s.sign*moveBy(c, s)), g)
			}
		}
	})
}

// moveBy is far enough to put a reading as new past its limit.
func moveBy(c core.Check, s side) float64 {
	return (s.limit-newSize(c))*s.sign + s.room() + scale(c, s.limit)
}

// moved is a check's limit moved towards better, with its other wear limit left out.
func moved(c core.Check, s side) core.Limit {
	by := -s.sign * moveBy(c, s)
	shift := func(v *float64) *float64 {
		if v == nil {
			return nil
		}
		return new(*v + by)
	}
	l := c.Limit
	l.NewLow, l.NewHigh, l.WearLow, l.WearHigh = shift(l.NewLow), shift(l.NewHigh), nil, nil
	if s.sign < 0 {
		l.WearLow = new(s.limit + by)
	} else {
		l.WearHigh = new(s.limit + by)
	}
	l.Source, l.Origin = "override of the conformance kit", "job"
	return l
}
