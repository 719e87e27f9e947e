package sdk

import "math"

// normal is the distribution function of the standard normal distribution.
func normal(z float64) float64 { return .5 * math.Erfc(-z/math.Sqrt2) }

// Conformance is the chance that a true value lies within [low, high], of a normal distribution about y with standard
// uncertainty u (JCGM 106:2012 7.3 and 7.4). A nil bound is no bound; u = 0 is a step that includes the bounds.
func Conformance(y, u float64, low, high *float64) float64 {
	p := 1.0
	if low != nil {
		p -= side{limit: *low, sign: -1}.past(y, u)
	}
	if high != nil {
		p -= side{limit: *high, sign: +1}.past(y, u)
	}
	return math.Max(0, p)
}

// Verdict is what a guarded decision may say.
type Verdict string

// The verdicts of a guarded decision.
const (
	Conforms  Verdict = "conforms"
	NotProven Verdict = "not proven"
	Fails     Verdict = "does not conform"
)

// Guarded decides with a guard band of the expanded uncertainty on both sides of each limit: a reading conforms if it
// lies within [low + U, high - U], fails if it lies beyond a limit by more than U, and otherwise nothing is proven
// (ISO 14253-1; ILAC-G8:09/2019). With U = 0 it is simple acceptance. A nil bound is no bound.
func Guarded(x, expanded float64, low, high *float64) Verdict {
	v := Conforms
	for _, s := range []struct {
		limit *float64
		sign  float64
	}{{low, -1}, {high, +1}} {
		if s.limit == nil {
			continue
		}
		switch {
		case side{limit: *s.limit + s.sign*expanded, sign: s.sign}.past(x, 0) > 0:
			return Fails
		case side{limit: *s.limit - s.sign*expanded, sign: s.sign}.past(x, 0) > 0:
			v = NotProven
		}
	}
	return v
}
