package sdk

import (
	"fmt"
	"math"

	"github.com/fettle-tools/fettle/core"
)

// The bands of a grade. Between PastSure and 1 - PastSure the reading cannot tell on which side of the limit the
// part is. Common practice, no source.
const (
	PastSure  = .95 // chance of being past the limit from which it counts as past
	NearShare = .5  // share of the wear allowed from which a part is near its limit
)

// Judgement is what one reading says of one check.
type Judgement struct {
	Grade core.Grade
	Wear  *float64 // share of the wear allowed that is used: 0 new, 1 at the limit, more past it; nil where it has none
	WearU *float64 // standard uncertainty of Wear
	PPast *float64 // chance that the true value is past the wear limit; nil where there is no such limit
	Words string   // the reading, the limit and the verdict in one sentence
}

// Judge grades one reading against its limit. x is the reading and u its standard uncertainty, both in l.Unit
// (an instrument's +/- is a bound: u = StandardUncertainty(bound)). For counted checks x is the count, for judged
// ones the class 0-3, for go/no-go 1 for pass and 0 for fails, with u = 0. With u = 0 the limit is a step, with the
// relative slack core.Slack: a reading exactly at it is not past it.
//
// w = (x - H) / (W - H), with H the edge of new next to the wear limit W. Where W = H no wear is allowed and w is nil.
// A check with both wear limits takes the worse side. twoSided: beyond new on the side without a wear limit is too
// tight; otherwise beyond new on that side cannot be, and the reading is to be checked. A new limit that is nil
// bounds nothing. The chance of being past the limit follows JCGM 106:2012 7 (normal distribution).
func Judge(x, u float64, l core.Limit, kind core.CheckKind, twoSided bool) Judgement {
	if kind == core.OneUse {
		return Judgement{Grade: core.WornFit, Words: "one-use: always new"}
	}
	if math.IsNaN(x) || math.IsInf(x, 0) || math.IsNaN(u) || math.IsInf(u, 0) || u < 0 {
		return Judgement{Grade: core.MeasureAgain, Words: "no number: measure again"}
	}
	switch kind {
	case core.GoNoGo:
		return judgePass(x)
	case core.Judged:
		return judgeClass(x, l)
	}
	j := judgeSize(x, u, l, twoSided)
	if kind == core.Counted {
		j.Wear, j.WearU = nil, nil
	}
	return j
}

func judgePass(x float64) Judgement {
	if x >= .5 {
		return Judgement{Grade: core.WithinNew, PPast: new(0.0), Words: "pass"}
	}
	return Judgement{Grade: core.Failed, PPast: new(1.0), Words: "fails"}
}

// judgeClass grades a damage class: 0 (or up to NewHigh, where given) is as new, up to the worst allowed is worn but
// fit, beyond it has failed.
func judgeClass(x float64, l core.Limit) Judgement {
	if l.WorstClass == nil {
		return Judgement{Grade: core.MeasureAgain, Words: fmt.Sprintf("class %s: no worst class to judge it by", core.FormatNumber(x))}
	}
	worst, asNew := float64(*l.WorstClass), 0.0
	if l.NewHigh != nil {
		asNew = *l.NewHigh
	}
	words := fmt.Sprintf("class %s, worst allowed class %d", core.FormatNumber(x), *l.WorstClass)
	switch {
	case x < 0 || x > 3:
		return Judgement{Grade: core.MeasureAgain, Words: fmt.Sprintf("class %s: classes run from 0 to 3", core.FormatNumber(x))}
	case x > worst:
		return Judgement{Grade: core.Failed, PPast: new(1.0), Words: words + ": " + core.Failed.String()}
	case x > asNew:
		return Judgement{Grade: core.WornFit, PPast: new(0.0), Words: words + ": " + core.WornFit.String()}
	}
	return Judgement{Grade: core.WithinNew, PPast: new(0.0), Words: words + ": " + core.WithinNew.String()}
}

// judgeSize grades a measured, derived or counted value.
func judgeSize(x, u float64, l core.Limit, twoSided bool) Judgement {
	sides := wearSides(l)
	if onlyOneValue(l) {
		u = 0
	}
	if len(sides) == 0 && l.NewLow == nil && l.NewHigh == nil {
		return Judgement{Grade: core.MeasureAgain, Words: fmt.Sprintf("%s: no limit to judge it by: give the nominal or the limit", sizeWords(x, l.Unit))}
	}
	var j Judgement
	for _, s := range sides {
		j = j.worse(s.judge(x, u))
	}
	if j.PPast != nil && len(sides) == 2 {
		*j.PPast = math.Min(1, sides[0].past(x, u)+sides[1].past(x, u))
		j.Grade = max(j.Grade, gradeOfChance(*j.PPast))
	}
	note := ""
	if j.Grade == core.MeasureAgain {
		note = fmt.Sprintf(", the chance of being past the limit is %.0f %%: use a better instrument", 100**j.PPast)
	}
	if g, why := beyondNew(x, u, l, twoSided); g > j.Grade {
		j.Grade, note = g, why
	}
	j.Words = fmt.Sprintf("%s, %s: %s%s", sizeWords(x, l.Unit), LimitWords(l), j.Grade, note)
	return j
}

// onlyOneValue reports whether a limit allows one value alone, new and worn. No reading could ever be proven to be it:
// it is taken as read.
func onlyOneValue(l core.Limit) bool {
	if l.NewLow == nil || l.NewHigh == nil || *l.NewLow != *l.NewHigh || l.WearLow == nil && l.WearHigh == nil {
		return false
	}
	return (l.WearLow == nil || *l.WearLow == *l.NewLow) && (l.WearHigh == nil || *l.WearHigh == *l.NewLow)
}

// worse joins the judgements of the two sides of one limit.
func (j Judgement) worse(o Judgement) Judgement {
	if j.Grade > o.Grade || j.Grade == o.Grade && j.Wear != nil && (o.Wear == nil || *j.Wear > *o.Wear) {
		return j
	}
	return o
}
