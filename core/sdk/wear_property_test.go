package sdk

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/fettle-tools/fettle/core"
)

// drawLimit gives a limit in inches with room for wear upwards, for readings of thousandths to inches.
func drawLimit(t *rapid.T) core.Limit {
	low := rapid.Float64Range(0, 4).Draw(t, "low")
	high := low + rapid.Float64Range(0, .01).Draw(t, "width")
	return maxLimit(low, high, high+rapid.Float64Range(.0005, .05).Draw(t, "room"))
}

// More wear is never a better grade, whatever the instrument.
func TestJudgeOnlyWorsens(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawLimit(t)
		u := rapid.Float64Range(0, .01).Draw(t, "u")
		a := *l.NewHigh + rapid.Float64Range(0, .1).Draw(t, "a")
		b := a + rapid.Float64Range(0, .1).Draw(t, "more")
		twoSided := rapid.Bool().Draw(t, "two-sided")
		less, more := Judge(a, u, l, core.Measured, twoSided), Judge(b, u, l, core.Measured, twoSided)
		require.LessOrEqual(t, less.Grade, more.Grade)
		require.LessOrEqual(t, *less.Wear, *more.Wear)
		require.LessOrEqual(t, *less.PPast, *more.PPast)
	})
}

// What wears upwards and its mirror that wears downwards are judged alike.
func TestJudgeMirrored(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawLimit(t)
		u := rapid.SampledFrom([]float64{0, .0001, .003}).Draw(t, "u")
		x := *l.NewLow + rapid.Float64Range(-.05, .1).Draw(t, "x")
		twoSided := rapid.Bool().Draw(t, "two-sided")
		mirror := minLimit(-*l.NewHigh, -*l.NewLow, -*l.WearHigh)
		a, b := Judge(x, u, l, core.Measured, twoSided), Judge(-x, u, mirror, core.Measured, twoSided)
		require.Equal(t, a.Grade, b.Grade)
		require.InDelta(t, *a.Wear, *b.Wear, 1e-9)
		require.InDelta(t, *a.PPast, *b.PPast, 1e-9)
	})
}

// Inches or millimetres: the same verdict, edges included.
func TestJudgeInAnotherUnit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawLimit(t)
		bound := rapid.SampledFrom([]float64{0, .0001, .003}).Draw(t, "bound")
		x := rapid.SampledFrom([]float64{*l.NewLow, *l.NewHigh, *l.WearHigh, *l.WearHigh + .001, *l.NewLow - .001}).Draw(t, "x")
		mm := maxLimit(*l.NewLow*25.4, *l.NewHigh*25.4, *l.WearHigh*25.4)
		a := Judge(x, StandardUncertainty(bound), l, core.Measured, true)
		b := Judge(x*25.4, StandardUncertainty(bound*25.4), mm, core.Measured, true)
		require.Equal(t, a.Grade, b.Grade, "%s; %s", a.Words, b.Words)
		require.InDelta(t, *a.PPast, *b.PPast, 1e-9)
	})
}

// The grade follows from the wear and the chance that are told with it.
func TestJudgeGradeFollows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawLimit(t)
		x := *l.NewHigh + rapid.Float64Range(-.002, .1).Draw(t, "x")
		j := Judge(x, rapid.Float64Range(0, .01).Draw(t, "u"), l, core.Measured, true)
		switch p := *j.PPast; {
		case p >= .95:
			require.Equal(t, core.PastLimit, j.Grade)
		case math.Abs(x-*l.NewLow) < 1e-6: // the slack of the edge decides
		case x < *l.NewLow:
			require.GreaterOrEqual(t, j.Grade, core.MeasureAgain)
		case p > .05:
			require.Equal(t, core.MeasureAgain, j.Grade)
		case *j.Wear > .5+1e-6:
			require.Equal(t, core.NearLimit, j.Grade)
		case *j.Wear > 1e-6 && *j.Wear < .5-1e-6:
			require.Equal(t, core.WornFit, j.Grade)
		case *j.Wear < -1e-6:
			require.Equal(t, core.WithinNew, j.Grade)
		}
		require.False(t, math.IsNaN(*j.Wear))
	})
}

func BenchmarkJudge(b *testing.B) {
	l, u := minLimit(2.4995, 2.5, 2.4985), StandardUncertainty(.0001)
	for b.Loop() {
		Judge(2.4986, u, l, core.Measured, false)
	}
}
