package core

import "math"

// share is k of n as a share of all such, with the bounds that hold it with a chance of at least 95 in 100.
type share struct{ k, n int }

// notSure is the chance that the bounds of a share do not hold it, half of it at each end.
const notSure = .05

// bounds gives the exact interval of Clopper and Pearson (The use of confidence or fiducial limits illustrated in the case of the binomial,
// Biometrika 26, 1934): each bound is the share at which so many, or so few, would come about with a chance of 2.5 in 100. Of none it is 0 to 1.
func (s share) bounds() (low, high float64) {
	low, high = 0, 1
	if s.k > 0 {
		low = solve(func(p float64) bool { return 1-atMost(s.k-1, s.n, p) > notSure/2 })
	}
	if s.k < s.n {
		high = solve(func(p float64) bool { return atMost(s.k, s.n, p) < notSure/2 })
	}
	return low, high
}

// solve finds where a condition on a share between 0 and 1 begins to hold.
func solve(holds func(p float64) bool) float64 {
	low, high := 0.0, 1.0
	for range 60 {
		if mid := (low + high) / 2; holds(mid) {
			high = mid
		} else {
			low = mid
		}
	}
	return (low + high) / 2
}

// atMost is the chance of k or fewer of n at a chance of p each, 0 < p < 1.
func atMost(k, n int, p float64) float64 {
	sum := 0.0
	all, _ := math.Lgamma(float64(n + 1))
	for i := range k + 1 {
		in, _ := math.Lgamma(float64(i + 1))
		out, _ := math.Lgamma(float64(n - i + 1))
		sum += math.Exp(all - in - out + float64(i)*math.Log(p) + float64(n-i)*math.Log1p(-p))
	}
	return sum
}
