package sdk

import (
	"fmt"
	"math"

	"github.com/fettle-tools/fettle/core"
)

// springSteel is Young's modulus of spring steel in psi, the usual figure of handbooks (from memory).
const springSteel = 30e6

// LeafSpring is a semi-elliptic pack of leaves of one thickness. Lengths are inches.
type LeafSpring struct {
	Leaves    int
	Width     float64
	Thickness float64 // of one leaf
	Length    float64 // eye to eye, laid flat
	Modulus   float64 // psi; 0: 30 000 000
}

// Rate is the load for an inch at the centre band, in lbf/in: k = 8 E n b t^3 / (3 L^3), leaves of equal strength
// (common practice, no source). 0 for a spring of no length.
func (s LeafSpring) Rate() float64 {
	if !(s.Length > 0) {
		return 0
	}
	e := s.Modulus
	if e == 0 {
		e = springSteel
	}
	return 8 * e * float64(s.Leaves) * s.Width * math.Pow(s.Thickness, 3) / (3 * math.Pow(s.Length, 3))
}

// SpringRate is the rate by two loads on the press: (f2 - f1) / (d2 - d1), in the units given. An error of code Invalid
// tells readings that no spring gives: the heavier load must press it down further.
func SpringRate(f1, d1, f2, d2 float64) (float64, error) {
	k := (f2 - f1) / (d2 - d1)
	if !(k > 0) || math.IsInf(k, 0) {
		return 0, core.Errorf(core.Invalid, "read both deflections again, from the same zero, the lighter load first",
			"%s at %s and %s at %s are no spring", core.FormatNumber(f1), core.FormatNumber(d1), core.FormatNumber(f2), core.FormatNumber(d2))
	}
	return k, nil
}

// SpringHold is how a spring is held at its middle.
type SpringHold string

// The ways a spring is held.
const (
	BandHold  SpringHold = "band"    // a shrunk band: its length does not work
	UBoltHold SpringHold = "U-bolts" // between U-bolts two thirds of the seat do not work
)

// WorkingLength is the length of a spring that bends, from its length eye to eye and the length of its seat, in one unit: the
// whole seat is dead under a band, two thirds of it under U-bolts (works' rule, read in a secondary source).
func WorkingLength(eyes, seat float64, hold SpringHold) float64 {
	if hold == BandHold {
		return eyes - seat
	}
	return eyes - seat*2/3
}

// SpringPair is two springs of one axle by free camber, in one unit.
type SpringPair struct {
	Left, Right, Standard float64
}

// Difference is how much the two cambers differ.
func (p SpringPair) Difference() float64 { return math.Abs(p.Left - p.Right) }

// Ratios are the cambers as shares of the standard.
func (p SpringPair) Ratios() (left, right float64) { return p.Left / p.Standard, p.Right / p.Standard }

// LeafEffect is what a change of the leaves does to the rate.
type LeafEffect struct {
	Rate  float64 // lbf/in
	Share float64 // of the rate before; -.10 is a tenth less
}

// With gives the rate with other leaves: thinner by wear, or fewer where one is broken.
func (s LeafSpring) With(leaves int, thickness float64) LeafEffect {
	before := s.Rate()
	s.Leaves, s.Thickness = leaves, thickness
	k := s.Rate()
	return LeafEffect{Rate: k, Share: k/before - 1}
}

// Words tells the effect.
func (e LeafEffect) Words() string {
	return fmt.Sprintf("rate %.1f lbf/in, %+.1f %% against sound leaves", e.Rate, 100*e.Share)
}
