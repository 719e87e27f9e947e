package sdk

import (
	"math"

	"github.com/fettle-tools/fettle/core"
)

// side is one wear side: edge is the edge of new next to the limit, nil if it is not known; sign is +1 where larger is worse.
type side struct {
	edge  *float64
	limit float64
	sign  float64
}

func wearSides(l core.Limit) []side {
	var ss []side
	if l.WearLow != nil {
		ss = append(ss, side{l.NewLow, *l.WearLow, -1})
	}
	if l.WearHigh != nil {
		ss = append(ss, side{l.NewHigh, *l.WearHigh, +1})
	}
	return ss
}

func (s side) judge(x, u float64) Judgement {
	p := s.past(x, u)
	j := Judgement{Grade: gradeOfChance(p), PPast: &p}
	if s.edge == nil {
		j.Grade = max(j.Grade, core.WornFit)
		return j
	}
	room := (s.limit - *s.edge) * s.sign
	if room <= core.Slack*math.Max(math.Abs(s.limit), math.Abs(*s.edge)) {
		j.Grade = max(j.Grade, core.WithinNew)
		return j
	}
	w := (x - *s.edge) * s.sign / room
	wu := u / room
	j.Wear, j.WearU = &w, &wu
	j.Grade = max(j.Grade, gradeOfWear(w))
	return j
}

// past is the chance that the true value is past the limit; a step with the relative slack where u = 0.
func (s side) past(x, u float64) float64 {
	if u > 0 {
		return normal((x - s.limit) * s.sign / u)
	}
	if core.LessOrEqual(x*s.sign, s.limit*s.sign) {
		return 0
	}
	return 1
}

func gradeOfChance(p float64) core.Grade {
	switch {
	case p >= PastSure:
		return core.PastLimit
	case p > 1-PastSure:
		return core.MeasureAgain
	}
	return core.GradeNone
}

func gradeOfWear(w float64) core.Grade {
	switch {
	case w <= core.Slack:
		return core.WithinNew
	case w <= NearShare+core.Slack:
		return core.WornFit
	}
	return core.NearLimit
}

// beyondNew looks at the sides that have no wear limit of their own.
func beyondNew(x, u float64, l core.Limit, twoSided bool) (core.Grade, string) {
	var under, over bool
	if l.NewLow != nil && l.WearLow == nil {
		under = beyond(x, u, side{nil, *l.NewLow, -1}, twoSided)
	}
	if l.NewHigh != nil && l.WearHigh == nil {
		over = beyond(x, u, side{nil, *l.NewHigh, +1}, twoSided)
	}
	switch {
	case !under && !over:
		return core.WithinNew, ""
	case twoSided && under:
		return core.TooTight, ", under the new range"
	case twoSided:
		return core.TooTight, ", over the new range"
	case l.WearLow == nil && l.WearHigh == nil:
		return core.MeasureAgain, ", outside the new range and no wear limit is known"
	}
	return core.MeasureAgain, ", better than new: check the reading, the part, the nominal"
}

// beyond reports whether x lies past the edge of new: on a two-sided check by the reading itself, elsewhere only when
// the instrument's uncertainty does not explain it.
func beyond(x, u float64, s side, twoSided bool) bool {
	if twoSided {
		u = 0
	}
	return s.past(x, u) >= PastSure
}
