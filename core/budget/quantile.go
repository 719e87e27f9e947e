package budget

import (
	"math"
	"slices"

	"github.com/fettle-tools/fettle/core"
)

// figures are the percentiles told with a standard error.
var figures = [4]float64{.1, .5, .8, .9}

func (d *draws) spread() core.Spread {
	s := core.Spread{Trials: d.trials, Seed: d.forecast.Seed, Curve: make([]float64, 101)}
	s.Mean, s.SD = moments(d.total)
	sorted := slices.Clone(d.total)
	slices.Sort(sorted)
	for i := range s.Curve {
		s.Curve[i] = quantile(sorted, float64(i)/100)
	}
	s.P10, s.P50, s.P80, s.P90 = s.Curve[10], s.Curve[50], s.Curve[80], s.Curve[90]
	for i, p := range figures {
		s.SE[i] = d.quantileError(sorted, p)
	}
	s.Widest = d.widest(s.Mean, s.SD)
	return s
}

// moments are taken about the first value, so that equal values have no spread.
func moments(v []float64) (mean, sd float64) {
	var sum, squares float64
	for _, x := range v {
		sum += x - v[0]
	}
	mean = v[0] + sum/float64(len(v))
	for _, x := range v {
		squares += (x - mean) * (x - mean)
	}
	return mean, math.Sqrt(squares / float64(len(v)))
}

// quantile of sorted values, straight between order statistics: type 7 of Hyndman and Fan (The American Statistician, 1996).
func quantile(sorted []float64, p float64) float64 {
	at := p * float64(len(sorted)-1)
	i := int(at)
	if i >= len(sorted)-1 {
		return sorted[len(sorted)-1]
	}
	return sorted[i] + (at-float64(i))*(sorted[i+1]-sorted[i])
}

// quantileError is the standard error of the quantile p. The standard error s of the share of trials at or below it comes from the
// differences between neighbours of one stratum (successive differences; Wolter, Introduction to Variance Estimation, 1985, chapter 7),
// which errs on the large side; it is carried over to money by reading the quantiles at p - 2 s and p + 2 s (Woodruff, JASA 1952).
func (d *draws) quantileError(sorted []float64, p float64) float64 {
	s := d.shareError(quantile(sorted, p))
	lo, hi := math.Max(0, p-2*s), math.Min(1, p+2*s)
	return (quantile(sorted, hi) - quantile(sorted, lo)) / 4
}

// shareError is the standard error of the share of trials at or below a value.
func (d *draws) shareError(value float64) float64 {
	var variance float64
	for first := 0; first < d.trials; {
		_, next := rowOf(first, d.trials, d.rows)
		changes := 0
		for t := first + 1; t < next; t++ {
			if (d.total[t] <= value) != (d.total[t-1] <= value) {
				changes++
			}
		}
		variance += float64(changes) / 2 * float64(next-first) / float64(next-first-1)
		first = next
	}
	return math.Sqrt(variance) / float64(d.trials)
}
