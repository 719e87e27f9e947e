package core

import "math"

// Wear to come and redoing (model 5).

// Chances of failure within the horizon where no life is given, by grade (common practice, no source).
func gradeChance(g Grade) (q float64, ok bool) {
	switch g {
	case WithinNew:
		return .03, true
	case WornFit:
		return .10, true
	case NearLimit:
		return .30, true
	}
	return 0, false
}

// failChance is q: the chance that a part with wear w fails within the brief's horizon.
func failChance(b Brief, life *Life, w *float64, g Grade, isNew bool) float64 {
	if life == nil || life.Typical <= 0 || w == nil {
		if isNew {
			return 0
		}
		if q, ok := gradeChance(g); ok {
			return q
		}
		return 1
	}
	horizon, service := b.HorizonKM, b.ServiceKM
	if life.Unit == "a" {
		horizon, service = b.HorizonYears, b.AgeYears
	}
	wear := math.Max(*w, 0)
	if wear >= 1 {
		return 1
	}
	if horizon <= 0 {
		return 0
	}
	pace := 1 / life.Typical
	if service != nil && !isNew {
		pace = (wear + .5) / (*service + life.Typical/2)
	}
	x := math.Log(horizon * pace / (1 - wear))
	if life.Sigma <= 0 {
		if x >= 0 {
			return 1
		}
		return 0
	}
	return normalCDF(x / life.Sigma)
}

func normalCDF(z float64) float64 { return .5 * math.Erfc(-z/math.Sqrt2) }

// remedyChance is q of a remedy: the wear it leaves, and its own residual chance beside it.
func remedyChance(b Brief, life *Life, c Condition, r Remedy) float64 {
	w, isNew := c.Wear, false
	switch {
	case r.WearAfter != nil:
		w, isNew = r.WearAfter, r.Kind != Reuse
	case r.Kind != Reuse:
		zero := 0.0
		w, isNew = &zero, true
	}
	q := failChance(b, life, w, c.Grade, isNew)
	if r.Kind != Reuse && life == nil {
		q = 0
	}
	return 1 - (1-q)*(1-r.ResidualChance)
}
