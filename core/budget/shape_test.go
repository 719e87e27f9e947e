package budget

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat/distuv"
)

// Shapes over the whole range that low <= likely <= high allows, ends included.
func TestBetaCurve(t *testing.T) {
	for _, x := range []float64{1.0 / 6, .2, .3, .41, .5, .63, .77, 5.0 / 6} {
		alpha, beta := betaParameters(x)
		ref := distuv.Beta{Alpha: alpha, Beta: beta}
		require.InDelta(t, x, ref.Mean(), 1e-12)
		require.InDelta(t, 1.0/6, ref.StdDev(), 1e-12)
		require.GreaterOrEqual(t, math.Min(alpha, beta), 2.0/3-1e-12)

		c := betaCurve(x)
		mean, sd := curveMoments(c)
		require.InDelta(t, x, mean, 1e-5, "mean at %g", x)
		require.InDelta(t, 1.0/6, sd, 1e-5, "sd at %g", x)
		for _, p := range []float64{1e-6, .001, .01, .1, .25, .5, .75, .9, .99, .999, 1 - 1e-6} {
			require.InDelta(t, ref.Quantile(p), c.at(normalQuantile(p)), 1e-4, "x %g p %g", x, p)
		}
	}
}

// curveMoments integrates a curve over the standard normal by the trapezoid rule.
func curveMoments(c *curve) (mean, sd float64) {
	var second float64
	const steps = 20_000
	for i := range steps {
		z := -zSpan + (float64(i)+.5)*2*zSpan/steps
		w := math.Exp(-z*z/2) / math.Sqrt(2*math.Pi) * 2 * zSpan / steps
		mean += w * c.at(z)
		second += w * c.at(z) * c.at(z)
	}
	return mean, math.Sqrt(second - mean*mean)
}

// Rounding past the ends is clamped, and never gives a shape that does not exist.
func TestBetaParametersClamped(t *testing.T) {
	for _, x := range []float64{0, .1, .9, 1} {
		alpha, beta := betaParameters(x)
		require.Greater(t, alpha, .6)
		require.Greater(t, beta, .6)
	}
}

func TestGammaCurve(t *testing.T) {
	for _, shape := range []float64{.2, 1.0 / 3, .7, 1, 4, 7.5, 40, 3000} {
		rate := shape * 1.3
		c, ref := gammaCurve(shape, rate), distuv.Gamma{Alpha: shape, Beta: rate}
		mean, sd := curveMoments(c)
		require.InEpsilon(t, ref.Mean(), mean, 2e-3, "mean of shape %g", shape)
		require.InEpsilon(t, ref.StdDev(), sd, 5e-3, "sd of shape %g", shape)
		for _, p := range []float64{.001, .1, .5, .9, .999} {
			require.InDelta(t, ref.Quantile(p), c.at(normalQuantile(p)), 3e-3*ref.StdDev(), "shape %g p %g", shape, p)
		}
	}
}

func TestNormalDraws(t *testing.T) {
	table, s := normals(), newStream(7, "test", "normal", 0)
	const n = 400_000
	var sum, squares, beyond float64
	for i := range n {
		z := table.at(s.bits(i))
		sum += z
		squares += z * z
		if z > 2 {
			beyond++
		}
	}
	require.InDelta(t, 0, sum/n, 4/math.Sqrt(n))
	require.InDelta(t, 1, squares/n, 4*math.Sqrt(2.0/n))
	require.InDelta(t, 1-normalCDF(2), beyond/n, 4*math.Sqrt(.0228/n))
	require.InDelta(t, 0, table.at(^uint64(0)), 1e-12, "the largest draw is the median")
	require.InDelta(t, normalQuantile(0x1p-33), table.at(0), 1e-6, "the least is the end of the table")
	ref := distuv.UnitNormal
	for _, p := range []float64{1e-8, 1e-4, .0123, .2, .3999, .49} {
		b := uint64(p*0x1p54) << 11
		require.InDelta(t, ref.Quantile(p), table.at(b), 1e-4, "p %g", p)
		require.Equal(t, -table.at(b), table.at(b|1))
	}
}

// Streams of different lines, kinds, repeats and seeds are uncorrelated and uniform.
func TestStreams(t *testing.T) {
	all := []stream{newStream(1, "cost", "a", 0), newStream(1, "cost", "a", 1), newStream(1, "cost", "b", 0), newStream(1, "event", "a", 0), newStream(2, "cost", "a", 0)}
	const n = 50_000
	for i, a := range all {
		var tenths [10]int
		for t := range n {
			tenths[int(a.uniform(t)*10)]++
		}
		for _, k := range tenths {
			require.InDelta(t, n/10, k, 4.5*math.Sqrt(n*.09))
		}
		for _, b := range all[:i] {
			var r float64
			for t := range n {
				r += (a.uniform(t) - .5) * (b.uniform(t) - .5) * 12
			}
			require.InDelta(t, 0, r/n, 4.5/math.Sqrt(n))
		}
	}
}
