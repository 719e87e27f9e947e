package core

import (
	"fmt"
	"sort"
)

// Enough is the chance, 0 to 1, that a sum before tax is enough for what the job comes to: read off the curve of its
// quantiles, in between in proportion. Below the least that was drawn it is 0, above the most 1; a Budget without a curve
// gives 0.
func (b Budget) Enough(sum Money) float64 {
	n := len(b.Curve) - 1
	if n < 1 {
		return 0
	}
	x := Minor(sum)
	// The first quantile above the sum: what is drawn as often as not at one figure counts in full.
	k := sort.Search(n+1, func(i int) bool { return Minor(b.Curve[i]) > x })
	switch {
	case k == 0:
		return 0
	case k > n:
		return 1
	}
	low, high := Minor(b.Curve[k-1]), Minor(b.Curve[k])
	return (float64(k-1) + float64(x-low)/float64(high-low)) / float64(n)
}

// SayEnough says how likely a sum is to be enough, from its chance, 0 to 1.
func SayEnough(chance float64) string {
	switch {
	case chance == 0:
		return "no trial came to so little: it is not enough"
	case chance < .005:
		return "hardly ever enough"
	case chance < .995:
		return fmt.Sprintf("enough in %.0f of 100 such jobs, too little in %.0f", 100*chance, 100-100*chance)
	}
	return "it is nearly sure to be enough"
}
