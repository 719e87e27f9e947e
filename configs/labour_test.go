package configs_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// The strip plan against a published maintenance allocation chart, man-hours to take off and put back: TM 5-4210-224-14&P, page B-21. The chart is
// a later truck's: it gives the order of size, so its figure must lie between two thirds of our low and our high.
func TestStripHoursAgainstALabourChart(t *testing.T) {
	plan := strip(t)
	both := func(step string) core.Range3 {
		s := plan.Step(step)
		require.NotNil(t, s, step)
		return s.StripHours.Add(s.Refit())
	}
	sum := core.Range3{}
	chart := 0.0
	for _, c := range []struct {
		what  string
		step  string
		hours float64
		whole bool // of the chart's own sum, 8.50 h
	}{
		{"leaf springs and bushings replaced", "spring-off/LF", 3.0, true},
		{"rear axle replaced", "rear-axle-off", 2.75, true},
		{"front axle replaced", "front-axle-off", 2.75, true},
		{"axle shaft replaced", "half-shaft-out/LR", 1.0, false},
		{"hub and drum replaced", "hub-off/LF", .75, false},
		{"manual locking hub replaced, which sits at the end of the hub", "hub-off/LF", 2.0, false},
	} {
		r := both(c.step)
		require.GreaterOrEqual(t, c.hours, r.Low*2/3, c.what)
		require.LessOrEqual(t, c.hours, r.High, c.what)
		if c.whole {
			sum, chart = sum.Add(r), chart+c.hours
		}
	}
	require.Equal(t, 8.5, chart)
	require.GreaterOrEqual(t, chart, sum.Low*2/3)
	require.LessOrEqual(t, chart, sum.High)
}
