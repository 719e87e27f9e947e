package sdk

import (
	"math"

	"gonum.org/v1/gonum/mathext"
)

// StandardUncertainty turns an instrument's +/- bound into a standard uncertainty in the same unit:
// u = a / sqrt(3), a rectangular distribution (JCGM 100:2008 4.3.7).
func StandardUncertainty(bound float64) float64 { return math.Abs(bound) / math.Sqrt(3) }

// Estimate is a value, its standard uncertainty in the same unit and the degrees of freedom behind it.
type Estimate struct {
	Value float64
	U     float64
	DF    float64 // 0 or math.Inf(1): the uncertainty is known, not estimated
}

// Combined is a result worked out from several estimates.
type Combined struct {
	Estimate
	Contributions []float64 // what each input adds to U, in the result's unit, never negative
}

// Combine works out f of independent estimates by the law of propagation (JCGM 100:2008 5.1.2), with each
// contribution taken numerically over one standard uncertainty (note to 5.1.3): the larger of the two one-sided steps,
// which is the same for sums and differences and errs on the safe side at the corners of abs, min and max. Degrees of
// freedom follow Welch and Satterthwaite (G.4.1). f must not keep the slice it is given.
func Combine(f func(x []float64) float64, in ...Estimate) Combined {
	x := make([]float64, len(in))
	for i, e := range in {
		x[i] = e.Value
	}
	c := Combined{Estimate: Estimate{Value: f(x)}, Contributions: make([]float64, len(in))}
	var squares, fourths float64
	for i, e := range in {
		x[i] = e.Value + e.U
		up := f(x)
		x[i] = e.Value - e.U
		down := f(x)
		x[i] = e.Value
		ui := math.Max(math.Abs(up-c.Value), math.Abs(c.Value-down))
		c.Contributions[i] = ui
		squares += ui * ui
		if e.DF > 0 && !math.IsInf(e.DF, 1) {
			fourths += ui * ui * ui * ui / e.DF
		}
	}
	c.U = math.Sqrt(squares)
	c.DF = math.Inf(1)
	if fourths > 0 {
		c.DF = squares * squares / fourths
	}
	return c
}

// RootSumSquare is the uncertainty of a sum or a difference of independent values (JCGM 100:2008 5.1.2).
func RootSumSquare(us ...float64) float64 {
	var s float64
	for _, u := range us {
		s = math.Hypot(s, u)
	}
	return s
}

// Repeated turns repeated readings of one size into an estimate: their mean and its standard uncertainty s / sqrt(n),
// with n - 1 degrees of freedom (JCGM 100:2008 4.2.3). One reading alone says nothing of its uncertainty: U is NaN.
func Repeated(readings []float64) Estimate {
	n := float64(len(readings))
	return Estimate{Value: Mean(readings), U: StandardDeviation(readings) / math.Sqrt(n), DF: n - 1}
}

// Mean is the arithmetic mean, summed in two passes so that large offsets lose no digits; NaN for no values.
func Mean(xs []float64) float64 {
	n := float64(len(xs))
	var sum, rest float64
	for _, x := range xs {
		sum += x
	}
	m := sum / n
	for _, x := range xs {
		rest += x - m
	}
	return m + rest/n
}

// StandardDeviation is the sample standard deviation (n - 1), by the corrected two-pass sum; NaN for fewer than two values.
func StandardDeviation(xs []float64) float64 {
	n := float64(len(xs))
	if n < 2 {
		return math.NaN()
	}
	m := Mean(xs)
	var squares, rest float64
	for _, x := range xs {
		squares += (x - m) * (x - m)
		rest += x - m
	}
	return math.Sqrt((squares - rest*rest/n) / (n - 1))
}

// CoverageFactor is k of U = k u for a two-sided coverage probability p, from Student's t with the degrees of freedom
// cut to a whole number; 0 or infinite degrees use the normal distribution (JCGM 100:2008 G.3, G.4.1).
func CoverageFactor(df, p float64) float64 {
	if df <= 0 || math.IsInf(df, 1) || df > 1e6 {
		return mathext.NormalQuantile((1 + p) / 2)
	}
	nu := math.Max(1, math.Floor(df))
	x := mathext.InvRegIncBeta(nu/2, .5, 1-p) // the square of Student's t has a beta distribution
	return math.Sqrt(nu * (1 - x) / x)
}

// Expanded is U = k u for a two-sided coverage probability p.
func (e Estimate) Expanded(p float64) float64 { return CoverageFactor(e.DF, p) * e.U }
