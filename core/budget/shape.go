package budget

import (
	"math"
	"sync"
)

// curve is a quantile function over the normal score: node k is the quantile at the chance Phi(z_k), z_k evenly from
// -zSpan to zSpan. A copula that works in normal scores reads it without ever forming a chance.
type curve [zCells + 1]float64

const (
	zSpan  = 6.0 // 1e-9 of the draws lie beyond: they count as at the end
	zCells = 512
)

// at reads the curve at a normal score, straight between nodes.
func (c *curve) at(z float64) float64 {
	y := (z + zSpan) * (zCells / (2 * zSpan))
	if y < 0 {
		y = 0
	}
	if y >= zCells {
		return c[zCells]
	}
	i := int(y) & (zCells - 1)
	return c[i] + (y-float64(i))*(c[i+1]-c[i])
}

// scoreChances are Phi(z_k).
var scoreChances = sync.OnceValue(func() *curve {
	var c curve
	for k := range c {
		c[k] = normalCDF(-zSpan + float64(k)*2*zSpan/zCells)
	}
	return &c
})

// invert turns a density, given up to a factor at evenly spaced nodes of s from 0 to 1, into a curve of value(s). The density is taken as
// straight between nodes, whose integral is inverted exactly.
func invert(density []float64, value func(s float64) float64) *curve {
	n := len(density) - 1
	below := make([]float64, n+1)
	for i := range n {
		below[i+1] = below[i] + (density[i]+density[i+1])/2
	}
	var c curve
	i := 0
	for k, p := range scoreChances() {
		target := p * below[n]
		for i < n-1 && below[i+1] < target {
			i++
		}
		c[k] = value((float64(i) + withinCell(density[i], density[i+1], target-below[i])) / float64(n))
	}
	return &c
}

// withinCell is the share of a cell of width 1 at which a density that runs straight from f0 to f1 has the integral d.
func withinCell(f0, f1, d float64) float64 {
	root := f0 + math.Sqrt(math.Max(0, f0*f0+2*(f1-f0)*d))
	if root == 0 {
		return 0
	}
	return math.Min(1, math.Max(0, 2*d/root))
}

// betaParameters gives alpha and beta of the beta distribution on [0, 1] with mean x and standard deviation 1/6, which is
// the three-point practice for low, likely and high (mean (a + 4m + b)/6, sd (b - a)/6). The textbook beta-PERT has another
// variance. With low <= likely <= high, x lies in [1/6, 5/6], alpha + beta in [4, 8] and neither is below 2/3: there is no
// degenerate shape but low = high, which is a constant. Rounding past the ends is clamped.
func betaParameters(x float64) (alpha, beta float64) {
	x = math.Min(5.0/6, math.Max(1.0/6, x))
	sum := 36*x*(1-x) - 1
	return x * sum, (1 - x) * sum
}

// betaCells is the number of cells of the integration. The variable s is stretched at both ends by x = s^3 (10 - 15 s + 6 s^2), so
// that a density that is infinite at an end (alpha < 1) is zero there.
const betaCells = 1024

type betaGrid struct{ logX, logRest, logSlope [betaCells + 1]float64 }

func smoothstep(s float64) float64 { return s * s * s * (10 + s*(-15+6*s)) }

var betaNodes = sync.OnceValue(func() *betaGrid {
	var g betaGrid
	for i := range g.logX {
		s := float64(i) / betaCells
		g.logX[i] = math.Log(smoothstep(s))
		g.logRest[i] = math.Log(smoothstep(1 - s))
		g.logSlope[i] = math.Log(30 * s * s * (1 - s) * (1 - s))
	}
	return &g
})

// betaCurve gives the position between low and high, 0 to 1, by normal score, for a range whose mean lies at x.
func betaCurve(x float64) *curve {
	alpha, beta := betaParameters(x)
	g := betaNodes()
	density := make([]float64, betaCells+1)
	for i := 1; i < betaCells; i++ {
		density[i] = math.Exp((alpha-1)*g.logX[i] + (beta-1)*g.logRest[i] + g.logSlope[i])
	}
	return invert(density, smoothstep)
}
