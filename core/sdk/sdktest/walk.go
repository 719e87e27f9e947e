package sdktest

import (
	"fmt"
	"math"
	"slices"

	"github.com/fettle-tools/fettle/core"
)

// pace is one reading of a walk.
type pace struct {
	value core.Value
	wear  float64 // share of the wear allowed; over 1 past the limit
}

// checkWalks walks every check of the first and last position from new past its limit, everything else as new, and fails it.
func (k *kit) checkWalks() {
	base := k.asNew()
	n := 0
	k.eachEnd(func(p core.Part, t core.Target, c core.Check) {
		if n++; n%k.every != 0 {
			return
		}
		for _, w := range walksOf(c) {
			k.walk(base, t, c, w, t == p.Targets()[0])
		}
		for _, x := range beyondNew(c) {
			k.tooTight(base, t, c, x)
		}
		if c.Kind == core.Measured || c.Kind == core.Derived {
			for _, s := range sidesOf(c) {
				k.crossing(base, t, c, s)
			}
		}
		k.fail(base, t, c)
	})
}

// walksOf gives the walks of a check, one for each wear side.
func walksOf(c core.Check) [][]pace {
	switch c.Kind {
	case core.GoNoGo:
		return [][]pace{{{passes(true), 0}, {passes(false), 2}}}
	case core.Judged:
		if c.Limit.WorstClass == nil {
			return nil
		}
		var w []pace
		for n := range 4 {
			wear := 0.0
			if n > *c.Limit.WorstClass {
				wear = 2
			}
			w = append(w, pace{class(n), wear})
		}
		return [][]pace{w}
	}
	var ws [][]pace
	for _, s := range sidesOf(c) {
		ws = append(ws, sizeWalk(c, s))
	}
	return ws
}

// sizeWalk goes from new to twice the limit in tenths, with one pace just past it; where no wear is allowed, from new to past it.
func sizeWalk(c core.Check, s side) []pace {
	var w []pace
	add := func(x, wear float64) {
		if valid(c, x) {
			w = append(w, pace{sized(c, x), wear})
		}
	}
	if c.Kind == core.Counted {
		add(s.edge, 0)
		for n := int(math.Floor(s.room())); n >= 0; n-- {
			if n <= 20 {
				add(s.limit-s.sign*float64(n), 1)
			}
		}
		for n := 1; n <= 4; n++ {
			add(s.limit+s.sign*float64(n), 2)
		}
		return w
	}
	if s.room() == 0 {
		add(s.limit, 1)
		for i := 1; i <= 4; i++ {
			add(s.pastBy(c, float64(i)/4), 2)
		}
		return w
	}
	for i := 0; i <= 10; i++ {
		add(s.at(float64(i)/10), float64(i)/10)
	}
	add(s.at(1.001), 1.001)
	for i := 11; i <= 20; i++ {
		add(s.at(float64(i)/10), float64(i)/10)
	}
	return w
}

// walk wants grades that never improve and that pass the limit where the reading does. The first position is walked in
// full at the first station, the last at every third pace and those about the limit, at the last station.
func (k *kit) walk(base []core.Finding, t core.Target, c core.Check, paces []pace, first bool) {
	station := stationsOf(c)[0]
	if !first {
		station = stationsOf(c)[len(stationsOf(c))-1]
	}
	worst, at := core.GradeNone, core.Value{}
	condemned := slices.ContainsFunc(k.sheet.NoReuse, func(n core.NoReuse) bool { return n.Part == t.Part && n.Check == c.ID })
	for i, p := range paces {
		if !first && i%3 != 0 && p.wear != 1 && p.wear != 1.001 {
			continue
		}
		a, ok := k.assess(k.with(base, t, c, station, p.value))
		if !ok {
			return
		}
		g, ok := gradeOf(a, t)
		if !ok {
			return
		}
		if g < worst {
			k.fault(OnlyWorsens, t, c.ID, "graded %s at %s, but %s at %s", worst, at, g, p.value)
		}
		if g > worst {
			worst, at = g, p.value
		}
		switch {
		case p.wear > 1 && g < core.PastLimit:
			k.fault(Crosses, t, c.ID, "graded %s at %s, past its limit", g, p.value)
		case p.wear <= 1 && g > core.NearLimit && !condemned:
			k.fault(Crosses, t, c.ID, "graded %s at %s, within its limit", g, p.value)
		}
	}
}

// crossing reads with an instrument: two standard uncertainties either side of the limit are sure, the limit itself is not.
func (k *kit) crossing(base []core.Finding, t core.Target, c core.Check, s side) {
	if s.room() == 0 {
		return
	}
	bound := s.room() / 20
	u := bound / math.Sqrt(3)
	for _, try := range []struct {
		x        float64
		from, to core.Grade
	}{
		{s.limit - s.sign*2*u, core.WithinNew, core.NearLimit},
		{s.limit, core.MeasureAgain, core.MeasureAgain},
		{s.limit + s.sign*2*u, core.PastLimit, core.Failed},
	} {
		if !valid(c, try.x) {
			continue
		}
		v := quantity(c, try.x, bound)
		a, ok := k.assess(k.with(base, t, c, stationsOf(c)[0], v))
		if !ok {
			return
		}
		if g, ok := gradeOf(a, t); ok && (g < try.from || g > try.to) {
			k.fault(Crosses, t, c.ID, "graded %s at %s +/- %s, limit %s", g, v, core.FormatNumber(bound), core.FormatNumber(s.limit))
		}
	}
}

// tooTight reads beyond new on the side that has no wear limit.
func (k *kit) tooTight(base []core.Finding, t core.Target, c core.Check, x float64) {
	v := sized(c, x)
	a, ok := k.assess(k.with(base, t, c, stationsOf(c)[0], v))
	if !ok {
		return
	}
	if g, ok := gradeOf(a, t); ok && g < core.TooTight {
		k.fault(Crosses, t, c.ID, "two-sided, and graded %s at %s, beyond new", g, v)
	}
}

// fail wants the check's worst value to close reuse, with another remedy open, alone and beside a reading as new.
func (k *kit) fail(base []core.Finding, t core.Target, c core.Check) {
	v, ok := worstValue(c)
	if !ok {
		return // Told of the sheet.
	}
	bad := k.with(base, t, c, stationsOf(c)[0], v)
	a, ok := k.assess(bad)
	if !ok {
		return
	}
	g, ok := gradeOf(a, t)
	if !ok {
		return
	}
	if !g.ClosesReuse(false) || reuseOpen(a, t) {
		k.fault(CanFail, t, c.ID, "at %s it is graded %s and reuse is not ruled out", v, g)
	}
	k.wayOut(a, t, c.ID, fmt.Sprintf("at %s", v))
	second := k.finding(t, c.ID, stationsOf(c)[0], v)
	second.ID += " again"
	both, ok := k.assess(append(slices.Clone(base), second))
	if !ok {
		return
	}
	if h, ok := gradeOf(both, t); ok && h < g {
		k.fault(WorseGoverns, t, c.ID, "graded %s at %s alone, but %s beside a reading as new", g, v, h)
	}
}

// wayOut wants a feasible remedy other than reuse that the host may choose.
func (k *kit) wayOut(a core.Assessment, t core.Target, check, what string) {
	open := slices.ContainsFunc(feasible(a, t), func(r core.Remedy) bool { return r.Kind != core.Reuse && !r.PinOnly })
	if !open {
		k.fault(Answered, t, check, "%s no remedy is open", what)
	}
}
