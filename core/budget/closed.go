package budget

import (
	"math"

	"github.com/fettle-tools/fettle/core"
)

// Hidden is damage not yet seen: a chance between 0 and 1, and what it costs if it is there.
type Hidden struct {
	Name   string
	Chance float64
	Cost   float64
}

// Closed is a budget worked by hand, in the unit of the ranges given: independent hidden damage, equally correlated lines, a normal total.
type Closed struct {
	SumOfLikelies float64
	LinesMean     float64 // sum of the three-point means
	LinesSD       float64 // with the correlation given
	SDIndependent float64 // with correlation 0
	SDTogether    float64 // with correlation 1: the plain sum
	Reserve       float64 // expected cost of the hidden damage
	ReserveSD     float64
	Mean, SD      float64 // of lines and hidden damage together
	P50, P80, P90 float64
	OverLikelies  float64 // P80 less the sum of likelies
}

// ClosedForm works a budget from three-point means (a + 4m + b)/6 and standard deviations (b - a)/6, common practice, with one correlation
// rho between any two lines: var = (1 - rho) sum s^2 + rho (sum s)^2. It knows no shared operations, no labour ratio and no skew; the
// simulation does. It is there to check one against the other.
func ClosedForm(lines []core.Range3, rho float64, hidden []Hidden) Closed {
	var c Closed
	var squares, variance float64
	for _, l := range lines {
		sd := (l.High - l.Low) / 6
		c.SumOfLikelies += l.Likely
		c.LinesMean += l.Mean()
		c.SDTogether += sd
		squares += sd * sd
	}
	for _, h := range hidden {
		c.Reserve += h.Chance * h.Cost
		variance += h.Chance * (1 - h.Chance) * h.Cost * h.Cost
	}
	c.SDIndependent = math.Sqrt(squares)
	c.LinesSD = math.Sqrt((1-rho)*squares + rho*c.SDTogether*c.SDTogether)
	c.ReserveSD = math.Sqrt(variance)
	c.Mean = c.LinesMean + c.Reserve
	c.SD = math.Hypot(c.LinesSD, c.ReserveSD)
	c.P50 = c.Mean
	c.P80 = c.Mean + normalQuantile(.8)*c.SD
	c.P90 = c.Mean + normalQuantile(.9)*c.SD
	c.OverLikelies = c.P80 - c.SumOfLikelies
	return c
}
