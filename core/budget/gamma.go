package budget

import "math"

const gammaCells = 1024

// gammaCurve gives a gamma variate of this shape and rate, both positive, by normal score. It is integrated over a power of the variate that is
// nearly normal (the cube root; Wilson and Hilferty, PNAS 1931), or for shapes under 1/3 a smaller power whose density stays finite.
func gammaCurve(shape, rate float64) *curve {
	power := math.Min(1.0/3, shape)
	lo, hi := 0.0, math.Pow(60, power)
	if shape >= 1.0/3 {
		root, sd := math.Cbrt(shape), 1/(3*math.Sqrt(shape))
		lo, hi = root*math.Max(0, 1-10*sd), root*(1+10*sd)
	}
	value := func(s float64) float64 { return math.Pow(lo+(hi-lo)*s, 1/power) }
	logs := make([]float64, gammaCells+1)
	most := math.Inf(-1)
	for i := range logs {
		s := float64(i) / gammaCells
		logs[i] = -value(s)
		if k := shape/power - 1; k > 0 {
			logs[i] += k * math.Log(lo+(hi-lo)*s)
		}
		most = math.Max(most, logs[i])
	}
	for i := range logs {
		logs[i] = math.Exp(logs[i] - most)
	}
	return invert(logs, func(s float64) float64 { return value(s) / rate })
}

// chanceCap is the most that a multiplier raises a chance to.
const chanceCap = .95

// raised is a chance under the multiplier m of its subsystem: min(.95, p m). A chance that was above .95 already is not lowered by
// the cap, and what is certain stays certain: the multiplier learns about what is not known.
func raised(p, m float64) float64 {
	if p >= 1 {
		return 1
	}
	return min(max(chanceCap, p), p*m)
}
