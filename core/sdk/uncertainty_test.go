package sdk

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat/distuv"
)

// endGauge is example H.1 of JCGM 100:2008: the calibration of an end gauge. Lengths in mm, temperatures in K.
func endGauge() Combined {
	const nm = 1e-6
	return Combine(func(x []float64) float64 {
		ls, d, alpha, theta, dAlpha, dTheta := x[0], x[1], x[2], x[3], x[4], x[5]
		return ls + d - ls*(dAlpha*theta+alpha*dTheta)
	},
		Estimate{50.000623, 25 * nm, 18},
		Estimate{215 * nm, 9.7 * nm, 25.6},
		Estimate{11.5e-6, 1.2e-6, 0},
		Estimate{-.1, .41, 0},
		Estimate{0, .58e-6, 50},
		Estimate{0, .029, 2})
}

// JCGM 100:2008 H.1.
func TestEndGauge(t *testing.T) {
	const nm = 1e-6
	c := endGauge()
	require.InDelta(t, 50.000838, c.Value, 5e-7)
	require.InDelta(t, 31.71*nm, c.U, .05*nm)
	for i, want := range []float64{25, 9.7, 0, 0, 2.9, 16.6} {
		require.InDelta(t, want*nm, c.Contributions[i], .1*nm, "contribution %d", i)
	}
	require.InDelta(t, 16.7, c.DF, .05)
	require.InDelta(t, 2.92, CoverageFactor(c.DF, .99), .005)
	require.InDelta(t, 93*nm, c.Expanded(.99), .5*nm)
}

// JCGM 100:2008 table G.2, 16 degrees of freedom; the last line is the normal distribution of table G.1.
func TestCoverageFactor(t *testing.T) {
	require.InDelta(t, 2.12, CoverageFactor(16, .95), .005)
	require.InDelta(t, 2.17, CoverageFactor(16, .9545), .005)
	require.InDelta(t, 2.92, CoverageFactor(16, .99), .005)
	require.InDelta(t, 2.12, CoverageFactor(16.66, .95), .005, "degrees of freedom are cut, not rounded")
	require.InDelta(t, 1.960, CoverageFactor(math.Inf(1), .95), .0005)
	for _, df := range []float64{1, 2, 5, 30, 200} {
		for _, p := range []float64{.5, .6827, .95, .9973} {
			require.InEpsilon(t, distuv.StudentsT{Sigma: 1, Nu: df}.Quantile((1+p)/2), CoverageFactor(df, p), 1e-9, "computed: %v degrees, p %v", df, p)
		}
	}
}

// The corners of abs and max keep their uncertainty, where a central difference would lose it.
func TestCombineAtACorner(t *testing.T) {
	outOfRound := func(x []float64) float64 { return math.Abs(x[0] - x[1]) }
	c := Combine(outOfRound, Estimate{2.5, .0001, 0}, Estimate{2.5, .0001, 0})
	require.InDelta(t, RootSumSquare(.0001, .0001), c.U, 1e-12)
}

// NIST StRD, univariate summary statistics: NumAcc1, NumAcc3, Michelso. The lag-1 autocorrelation is here only to
// prove that the last set stands in its order.
func TestNISTSummaryStatistics(t *testing.T) {
	numAcc1 := []float64{10000001, 10000003, 10000002}
	require.InDelta(t, 10000002, Mean(numAcc1), 1e-12)
	require.InDelta(t, 1, StandardDeviation(numAcc1), 1e-12)

	numAcc3 := []float64{1000000.2}
	for range 500 {
		numAcc3 = append(numAcc3, 1000000.1, 1000000.3)
	}
	require.InDelta(t, 1000000.2, Mean(numAcc3), 1e-9)
	require.InEpsilon(t, .1, StandardDeviation(numAcc3), 1e-8)

	speed := make([]float64, len(michelson))
	for i, v := range michelson {
		speed[i] = 299 + float64(v)/1000
	}
	require.InDelta(t, 299.8524, Mean(speed), 1e-12)
	require.InDelta(t, .0790105478190518, StandardDeviation(speed), 1e-12)
	require.InDelta(t, .535199668621283, lagOne(speed), 1e-12)
}

func lagOne(xs []float64) float64 {
	m := Mean(xs)
	var top, bottom float64
	for i, x := range xs {
		bottom += (x - m) * (x - m)
		if i > 0 {
			top += (x - m) * (xs[i-1] - m)
		}
	}
	return top / bottom
}

// michelson holds the 100 readings of the speed of light of 1879, in km/s less 299,000.
var michelson = [...]int{
	850, 740, 900, 1070, 930, 850, 950, 980, 980, 880, 1000, 980, 930, 650, 760, 810, 1000, 1000, 960, 960,
	960, 940, 960, 940, 880, 800, 850, 880, 900, 840, 830, 790, 810, 880, 880, 830, 800, 790, 760, 800,
	880, 880, 880, 860, 720, 720, 620, 860, 970, 950, 880, 910, 850, 870, 840, 840, 850, 840, 840, 840,
	890, 810, 810, 820, 800, 770, 760, 740, 750, 760, 910, 920, 890, 860, 880, 720, 840, 850, 850, 780,
	890, 840, 780, 810, 760, 810, 790, 810, 820, 850, 870, 870, 810, 740, 810, 940, 950, 800, 810, 870,
}

func TestRepeatedReadings(t *testing.T) {
	e := Repeated([]float64{1.2501, 1.2503, 1.2502})
	require.InDelta(t, 1.2502, e.Value, 1e-12)
	require.InDelta(t, .0001/math.Sqrt(3), e.U, 1e-12)
	require.Equal(t, 2.0, e.DF)
	require.True(t, math.IsNaN(Repeated([]float64{1.25}).U))
}
