package sdktest

import (
	"math"

	"github.com/fettle-tools/fettle/core"
)

// side is one wear side of a limit of a measured, derived or counted check.
type side struct {
	edge  float64 // where the walk starts: the edge of new, or a reading as new
	limit float64
	sign  float64 // +1 if larger is worse
}

// room is the wear allowed; 0 if none is.
func (s side) room() float64 { return math.Max(0, (s.limit-s.edge)*s.sign) }

// at gives the reading at a share of the wear allowed; exactly the limit at 1.
func (s side) at(w float64) float64 {
	if w == 1 {
		return s.limit
	}
	return s.edge + w*(s.limit-s.edge)
}

// sidesOf lists the wear sides of a check.
func sidesOf(c core.Check) []side {
	var ss []side
	add := func(limit, edge *float64, sign float64) {
		if limit == nil {
			return
		}
		s := side{limit: *limit, edge: newSize(c), sign: sign}
		if edge != nil {
			s.edge = *edge
		}
		ss = append(ss, s)
	}
	add(c.Limit.WearLow, c.Limit.NewLow, -1)
	add(c.Limit.WearHigh, c.Limit.NewHigh, +1)
	return ss
}

// newSize is a reading as new: the middle of the new range, the one edge there is, or within the wear limits.
func newSize(c core.Check) float64 {
	l := c.Limit
	switch {
	case l.NewLow != nil && l.NewHigh != nil:
		return (*l.NewLow + *l.NewHigh) / 2
	case l.NewLow != nil:
		return *l.NewLow
	case l.NewHigh != nil:
		return *l.NewHigh
	case l.WearLow != nil && l.WearHigh != nil:
		return (*l.WearLow + *l.WearHigh) / 2
	case l.WearLow != nil && c.PlausibleHigh != nil:
		return (*l.WearLow + *c.PlausibleHigh) / 2
	case l.WearHigh != nil && c.PlausibleLow != nil:
		return (*l.WearHigh + *c.PlausibleLow) / 2
	case l.WearLow != nil:
		return *l.WearLow
	case l.WearHigh != nil:
		return *l.WearHigh
	}
	return 0
}

// plausible reports whether a reading may be typed at all.
func plausible(c core.Check, x float64) bool {
	return (c.PlausibleLow == nil || core.LessOrEqual(*c.PlausibleLow, x)) && (c.PlausibleHigh == nil || core.LessOrEqual(x, *c.PlausibleHigh))
}

func quantity(c core.Check, x, bound float64) core.Value {
	return core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: x, Unit: c.Unit, Bound: bound}}
}

// sized is a value of a check's own kind: a count for a counted check, else a quantity without uncertainty.
func sized(c core.Check, x float64) core.Value {
	if c.Kind == core.Counted {
		return core.Value{Kind: core.ValueCount, Count: int(math.Round(x))}
	}
	return quantity(c, x, 0)
}

func class(n int) core.Value    { return core.Value{Kind: core.ValueClass, Class: n} }
func passes(ok bool) core.Value { return core.Value{Kind: core.ValuePass, Pass: ok} }
func notRead(n core.NotRead) core.Value {
	return core.Value{Kind: core.ValueNotRead, NotRead: n}
}

// newValue is the value of a check on a part as new.
func newValue(c core.Check) core.Value {
	switch c.Kind {
	case core.Judged:
		return class(0)
	case core.GoNoGo:
		return passes(true)
	case core.Counted:
		if c.Limit.WearLow != nil && c.Limit.NewLow != nil {
			return sized(c, *c.Limit.NewLow)
		}
		if c.Limit.NewHigh != nil {
			return sized(c, *c.Limit.NewHigh)
		}
	}
	return sized(c, newSize(c))
}

// worstValue is a value well past what is allowed. ok is false if the sheet leaves no such value.
func worstValue(c core.Check) (core.Value, bool) {
	switch c.Kind {
	case core.Judged:
		return class(3), c.Limit.WorstClass != nil && *c.Limit.WorstClass < 3
	case core.GoNoGo:
		return passes(false), true
	case core.Measured, core.Derived, core.Counted:
		for _, s := range sidesOf(c) {
			for i := 20; i > 10; i-- {
				if x := s.pastBy(c, float64(i-10)/10); valid(c, x) {
					return sized(c, x), true
				}
			}
		}
		for _, x := range beyondNew(c) {
			return sized(c, x), true
		}
	}
	return core.Value{}, false
}

// valid reports whether a value of a check can be recorded: plausible, and no negative count.
func valid(c core.Check, x float64) bool {
	return plausible(c, x) && (c.Kind != core.Counted || math.Round(x) >= 0)
}

// pastBy gives a reading past the limit by a share of the wear allowed; where none is allowed, by a share of something
// of the check's own size. Counts are past it by one at least.
func (s side) pastBy(c core.Check, share float64) float64 {
	by := share * s.room()
	if s.room() == 0 {
		by = share * scale(c, s.limit)
	}
	if c.Kind == core.Counted {
		by = math.Max(1, math.Round(by))
	}
	return s.limit + s.sign*by
}

// scale is a length of the order of a check's readings.
func scale(c core.Check, limit float64) float64 {
	if c.PlausibleLow != nil && c.PlausibleHigh != nil && *c.PlausibleHigh > *c.PlausibleLow {
		return (*c.PlausibleHigh - *c.PlausibleLow) / 10
	}
	if limit != 0 {
		return math.Abs(limit) / 10
	}
	return 1
}

// beyondNew lists readings beyond new on the sides of a two-sided check that have no wear limit.
func beyondNew(c core.Check) []float64 {
	l := c.Limit
	if !c.TwoSided || c.Kind == core.Judged || c.Kind == core.GoNoGo || c.Kind == core.OneUse {
		return nil
	}
	by := scale(c, newSize(c))
	if l.NewLow != nil && l.NewHigh != nil && *l.NewHigh > *l.NewLow {
		by = (*l.NewHigh - *l.NewLow) / 4
	}
	if c.Kind == core.Counted {
		by = math.Max(1, by)
	}
	var xs []float64
	if l.NewLow != nil && l.WearLow == nil {
		xs = append(xs, *l.NewLow-by)
	}
	if l.NewHigh != nil && l.WearHigh == nil {
		xs = append(xs, *l.NewHigh+by)
	}
	var ok []float64
	for _, x := range xs {
		if valid(c, x) {
			ok = append(ok, x)
		}
	}
	return ok
}
