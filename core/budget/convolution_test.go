package budget

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat/distuv"

	"github.com/fettle-tools/fettle/core"
)

// convolve gives the distribution of the sum of independent lines on a grid of this step: each line's exact beta probabilities, put
// together by direct convolution. Entry k is the chance of k steps above the sum of the lows.
func convolve(lines []core.Range3, step float64) []float64 {
	sum := []float64{1}
	for _, r := range lines {
		alpha, beta := betaParameters((r.Mean() - r.Low) / (r.High - r.Low))
		ref := distuv.Beta{Alpha: alpha, Beta: beta}
		cells := int(math.Ceil((r.High - r.Low) / step))
		mass := make([]float64, cells+1)
		cdf := func(k float64) float64 { return ref.CDF(math.Min(1, math.Max(0, k*step/(r.High-r.Low)))) }
		for k := range mass {
			mass[k] = cdf(float64(k)+.5) - cdf(float64(k)-.5)
		}
		next := make([]float64, len(sum)+cells)
		for i, p := range sum {
			for k, q := range mass {
				next[i+k] += p * q
			}
		}
		sum = next
	}
	return sum
}

// Independent lines against the exact convolution of the same betas: every percentile within four standard errors, and the whole
// curve within the Kolmogorov bound for this many trials.
func TestBudgetAgainstConvolution(t *testing.T) {
	const step = 1.0
	f := base(0, exampleLines...)
	f.Trials = 100_000
	s := budget(t, f)
	mass := convolve(exampleLines, step)
	low := 0.0
	for _, r := range exampleLines {
		low += r.Low
	}
	exact := func(p float64) float64 {
		var below float64
		for k, q := range mass {
			if below+q >= p {
				return low + (float64(k)-.5+(p-below)/q)*step
			}
			below += q
		}
		return math.NaN()
	}
	for i, got := range []float64{s.P10, s.P50, s.P80, s.P90} {
		require.InDelta(t, exact(figures[i]), got, 4*s.SE[i], "%g", figures[i])
		require.InEpsilon(t, exact(figures[i]), got, .001)
	}
	bound := 1.63 / math.Sqrt(float64(f.Trials)) // Kolmogorov, 1 %
	for p := 2; p <= 98; p++ {
		q := float64(p) / 100
		require.GreaterOrEqual(t, s.Curve[p], exact(q-bound))
		require.LessOrEqual(t, s.Curve[p], exact(q+bound))
	}
}
