package budget

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// Published case table of three-point activity estimates (mean (a + 4m + b)/6, variance ((b - a)/6)^2), tolerance .01. The range 100, 150, 320 and the
// sum of the first two activities, independent, are computed from the formula, tolerance .001 on the mean and the standard deviation.
func TestClosedFormThreePoint(t *testing.T) {
	for _, c := range []struct {
		name           string
		lines          []core.Range3
		mean, variance float64
	}{
		{"20 30 40", []core.Range3{{Low: 20, Likely: 30, High: 40}}, 30, 11.11},
		{"20 65 80", []core.Range3{{Low: 20, Likely: 65, High: 80}}, 60, 100},
		{"50 60 100", []core.Range3{{Low: 50, Likely: 60, High: 100}}, 65, 69.44},
		{"30 50 100", []core.Range3{{Low: 30, Likely: 50, High: 100}}, 55, 136.11},
		{"20 25 60", []core.Range3{{Low: 20, Likely: 25, High: 60}}, 30, 44.44},
		{"100 150 320", []core.Range3{{Low: 100, Likely: 150, High: 320}}, 170, 1344.444},
		{"the first two, independent", []core.Range3{{Low: 20, Likely: 30, High: 40}, {Low: 20, Likely: 65, High: 80}}, 90, 111.11},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := ClosedForm(c.lines, 0, nil)
			require.InDelta(t, c.mean, got.Mean, .01)
			require.InDelta(t, c.variance, got.SD*got.SD, .01)
		})
	}
	skewed := ClosedForm([]core.Range3{{Low: 100, Likely: 150, High: 320}}, 0, nil)
	require.InDelta(t, 170, skewed.Mean, 1e-3)
	require.InDelta(t, 1344.444, skewed.SD*skewed.SD, 1e-3)
	two := ClosedForm([]core.Range3{{Low: 20, Likely: 30, High: 40}, {Low: 20, Likely: 65, High: 80}}, 0, nil)
	require.InDelta(t, 90, two.Mean, 1e-3)
	require.InDelta(t, 10.541, two.SD, 1e-3)
}

// The trade's worked example: six lines at 85 an hour and five pieces of hidden damage, in USD, computed by hand.
var (
	exampleLines = []core.Range3{
		{Low: 740, Likely: 1090, High: 1665},  // crank regrind and shells
		{Low: 970, Likely: 1380, High: 2220},  // rebore and pistons
		{Low: 765, Likely: 1175, High: 1945},  // head
		{Low: 985, Likely: 1525, High: 2600},  // gearbox
		{Low: 1040, Likely: 1575, High: 2540}, // front swivels
		{Low: 1560, Likely: 2160, High: 3320}, // brakes
	}
	exampleHidden = []Hidden{
		{"block sleeve", .15, 260}, {"crank replaced", .08, 1100}, {"ball replated", .35, 480},
		{"first-motion shaft", .20, 340}, {"drum pair", .12, 420},
	}
)

func TestClosedFormWorkedExample(t *testing.T) {
	got := ClosedForm(exampleLines, DefaultRho, exampleHidden)
	for _, c := range []struct {
		what           string
		want, got, tol float64
	}{
		{"sum of likelies", 8905, got.SumOfLikelies, 1e-9},
		{"sum of means", 9328.3, got.LinesMean, .05},
		{"sd, independent", 571.7, got.SDIndependent, .05},
		{"sd, correlated", 890.6, got.LinesSD, .05},
		{"sd, all together", 1371.7, got.SDTogether, .05},
		{"reserve", 413.4, got.Reserve, .05},
		{"sd of the reserve", 432.7, got.ReserveSD, .05},
		{"mean", 9742, got.Mean, 1},
		{"sd", 990, got.SD, 1},
		{"P50", 9742, got.P50, 1},
		{"P80", 10575, got.P80, 1},
		{"P90", 11011, got.P90, 1},
		{"over likelies", 1670, got.OverLikelies, 1},
	} {
		require.InDelta(t, c.want, c.got, c.tol, c.what)
	}
}

// With correlation 1 standard deviations add; with 0 their squares do.
func TestClosedFormLimits(t *testing.T) {
	none, full := ClosedForm(exampleLines, 0, nil), ClosedForm(exampleLines, 1, nil)
	require.InDelta(t, none.SDIndependent, none.SD, 1e-9)
	require.InDelta(t, full.SDTogether, full.SD, 1e-9)
	require.Equal(t, none.Mean, full.Mean)
	require.False(t, math.IsNaN(ClosedForm(nil, .3, nil).P80))
}
