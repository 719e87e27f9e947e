package budget

import (
	"math"
	"sync"
)

// curve is a quantile function over the normal score z: for each cell of z, evenly from -zSpan to zSpan, the line through the quantiles at
// the chances Phi of its ends. A copula that works in normal scores reads it without ever forming a chance.
type curve [zCells]struct{ at, slope float64 }

const (
	zSpan  = 6.0 // 2e-9 of the draws lie beyond: they count as at the end
	zCells = 512
	zLast  = zSpan - 1e-9
	zWidth = 2 * zSpan / zCells
)

// at reads the curve at a normal score.
func (c *curve) at(z float64) float64 {
	if z < -zSpan {
		z = -zSpan
	}
	if z > zLast {
		z = zLast
	}
	cell := &c[int(z*(1/zWidth)+zCells/2)&(zCells-1)]
	return cell.at + cell.slope*z
}

// scoreChances are the chances at the ends of the cells.
var scoreChances = sync.OnceValue(func() *[zCells + 1]float64 {
	var c [zCells + 1]float64
	for k := range c {
		c[k] = normalCDF(float64(k)*zWidth - zSpan)
	}
	return &c
})

// newCurve takes the quantiles at the ends of the cells.
func newCurve(ends *[zCells + 1]float64) *curve {
	var c curve
	for k := range c {
		c[k].slope = (ends[k+1] - ends[k]) / zWidth
		c[k].at = ends[k] - c[k].slope*(float64(k)*zWidth-zSpan)
	}
	return &c
}

// invert turns a density, given up to a factor at evenly spaced nodes of s from 0 to 1, into a curve of value(s). The density is taken as
// straight between nodes, whose integral is inverted exactly.
func invert(density []float64, value func(s float64) float64) *curve {
	n := len(density) - 1
	below := make([]float64, n+1)
	for i := range n {
		below[i+1] = below[i] + (density[i]+density[i+1])/2
	}
	var ends [zCells + 1]float64
	i := 0
	for k, p := range scoreChances() {
		target := p * below[n]
		for i < n-1 && below[i+1] < target {
			i++
		}
		ends[k] = value((float64(i) + withinCell(density[i], density[i+1], target-below[i])) / float64(n))
	}
	return newCurve(&ends)
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

// shapes keeps the curves made, by mean: most lines of a job have the shape they had when it was last looked at.
var shapes = curves{}

// curves makes each curve once, until there are too many to keep. It may be used by several at once.
type curves struct {
	mu   sync.Mutex
	made map[float64]*curve
}

const keptCurves = 2_000 // 8 kB each

func (c *curves) of(x float64) *curve {
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.made == nil || len(c.made) >= keptCurves {
		c.made = map[float64]*curve{}
	}
	if c.made[x] == nil {
		c.made[x] = betaCurve(x)
	}
	return c.made[x]
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
