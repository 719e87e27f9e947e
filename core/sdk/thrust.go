package sdk

import (
	"fmt"
	"math"
	"slices"

	"github.com/fettle-tools/fettle/core"
)

// ThrustFloat is an end float set by two thrust washers, one on each side; one unit for all. Each washer thicker than
// the one taken out takes its difference off the float.
type ThrustFloat struct {
	Found     float64    // end float with the old washers
	Old       [2]float64 // the old washers as measured, front and rear
	Sizes     []float64  // thicknesses to be had, standard and oversize
	Low, High float64    // end float wanted
}

// ThrustPair is a pair of washers and the float it gives.
type ThrustPair struct {
	Thin, Thick float64 // the same size twice, or two
	Float       float64
	Fits        bool // within the float wanted
}

// Words tells what the pair gives.
func (p ThrustPair) Words() string {
	verdict := "does not fit"
	if p.Fits {
		verdict = "fits"
	}
	return fmt.Sprintf("washers %s and %s leave end float %s: %s", core.FormatNumber(p.Thin), core.FormatNumber(p.Thick),
		core.FormatNumber(round5(p.Float)), verdict)
}

// Pairs lists every pair of the sizes to be had, the one nearest the middle of what is wanted first; among equals the
// thinner. ok is false if none fits: then the thrust face is worn, and no pack helps before it is machined.
func (f ThrustFloat) Pairs() (pairs []ThrustPair, ok bool) {
	sizes := slices.Clone(f.Sizes)
	slices.Sort(sizes)
	sizes = slices.Compact(sizes)
	for i, thin := range sizes {
		for _, thick := range sizes[i:] {
			left := f.Found - (thin - f.Old[0]) - (thick - f.Old[1])
			fits := core.LessOrEqual(f.Low, left) && core.LessOrEqual(left, f.High)
			pairs = append(pairs, ThrustPair{thin, thick, left, fits})
			ok = ok || fits
		}
	}
	middle := (f.Low + f.High) / 2
	slices.SortStableFunc(pairs, func(a, b ThrustPair) int {
		da, db := math.Abs(a.Float-middle), math.Abs(b.Float-middle)
		switch {
		case da < db-core.Slack:
			return -1
		case db < da-core.Slack:
			return +1
		}
		return 0
	})
	return pairs, ok
}
