package sdk

import (
	"math"
	"slices"
)

// Plane is one plane of a journal or one height of a bore: two readings a quarter turn apart. A nil reading was not taken.
type Plane struct {
	V *float64 // vertical, or across the thrust faces of a bore
	H *float64 // horizontal, or along the axis of a bore
}

// OutOfRound is the largest difference of the two readings of one plane. ok is false if no plane has both.
func OutOfRound(planes []Plane) (oor float64, ok bool) {
	for _, p := range planes {
		if p.V != nil && p.H != nil {
			oor, ok = math.Max(oor, math.Abs(*p.V-*p.H)), true
		}
	}
	return oor, ok
}

// Taper is the largest difference of the readings in one direction along the length: taper proper, or with a middle
// plane also barrel and belling. ok is false if no direction has two readings.
func Taper(planes []Plane) (taper float64, ok bool) {
	for _, of := range []func(Plane) *float64{func(p Plane) *float64 { return p.V }, func(p Plane) *float64 { return p.H }} {
		var along []float64
		for _, p := range planes {
			if v := of(p); v != nil {
				along = append(along, *v)
			}
		}
		if len(along) > 1 {
			taper, ok = math.Max(taper, Spread(along)), true
		}
	}
	return taper, ok
}

// Spread is the largest less the smallest; 0 for no values.
func Spread(xs []float64) float64 {
	if len(xs) == 0 {
		return 0
	}
	return slices.Max(xs) - slices.Min(xs)
}

// readings lists what was taken, plane by plane, vertical first.
func readings(planes []Plane) []float64 {
	var xs []float64
	for _, p := range planes {
		for _, v := range []*float64{p.V, p.H} {
			if v != nil {
				xs = append(xs, *v)
			}
		}
	}
	return xs
}
