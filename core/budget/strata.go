package budget

import "math"

// The two draws that every line shares, the common factor and the labour ratio, are stratified: the trials fill a grid of about
// sqrt(n) rows of the first by sqrt(n) columns of the second, one trial a cell (Cochran, Sampling Techniques, 1977, 5A.8). Trials of a
// row are neighbours in number; the standard errors rely on it.

// rowOf gives the row of trial t of n, and the first trial of that row and of the next.
func rowOf(t, n, rows int) (first, next int) {
	row := ((t+1)*rows - 1) / n
	return row * n / rows, (row + 1) * n / rows
}

// shared draws the common factor (a standard normal) and the labour ratio of trial t.
func (m *model) shared(t int) (factor, ratio float64) {
	first, next := rowOf(t, m.trials, m.rows)
	wide := float64(next - first)
	factor = normalQuantile((float64(first) + wide*m.factor.uniform(t)) / float64(m.trials))
	if m.logSD == 0 {
		return factor, m.median
	}
	z := normalQuantile((float64(t-first) + m.ratio.uniform(t)) / wide)
	return factor, m.median * math.Exp(m.logSD*z)
}
