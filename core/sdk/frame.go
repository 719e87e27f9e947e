package sdk

import (
	"math"

	"github.com/fettle-tools/fettle/core"
)

// FramePoint is a reference point of a frame as read: where it lies along and across the frame, and its height over
// level strings. One unit for along and across, one for the height; they need not be the same.
type FramePoint struct {
	Name                  string
	Along, Across, Height float64
}

// FramePlane is the plane that lies best between the points of a frame: Height + AlongSlope (along - Along) +
// AcrossSlope (across - Across), the slopes in unit of height by unit of length.
type FramePlane struct {
	Along, Across, Height   float64 // middle of the points
	AlongSlope, AcrossSlope float64
	Spread                  float64 // standard deviation of the points about the plane, n - 3 degrees of freedom; 0 for three points
}

// BestPlane lays a plane through the points of a frame by least squares of the heights (normal equations about the
// middle of the points: a package for linear algebra would cost every idle plugin 1.3 MB, as measured). It wants three points or more that do not stand in one line; anything else is an Invalid error.
func BestPlane(points []FramePoint) (FramePlane, error) {
	n := float64(len(points))
	if n < 3 {
		return FramePlane{}, core.Errorf(core.Invalid, "read at least three points", "a plane needs three points, and there are %d", len(points))
	}
	var p FramePlane
	for _, x := range points {
		p.Along += x.Along / n
		p.Across += x.Across / n
		p.Height += x.Height / n
	}
	var aa, ac, cc, ah, ch float64
	for _, x := range points {
		a, c, h := x.Along-p.Along, x.Across-p.Across, x.Height-p.Height
		aa, ac, cc, ah, ch = aa+a*a, ac+a*c, cc+c*c, ah+a*h, ch+c*h
	}
	d := aa*cc - ac*ac
	if !(d > 1e-12*aa*cc) || math.IsInf(d, 0) {
		return FramePlane{}, core.Errorf(core.Invalid, "read points on both rails", "the points stand in one line: no plane can be laid through them")
	}
	p.AlongSlope, p.AcrossSlope = (ah*cc-ch*ac)/d, (ch*aa-ah*ac)/d
	if n > 3 {
		var squares float64
		for _, x := range points {
			off := p.Off(x)
			squares += off * off
		}
		p.Spread = math.Sqrt(squares / (n - 3))
	}
	return p, nil
}

// At is the height of the plane at a place, in the unit of the heights.
func (p FramePlane) At(along, across float64) float64 {
	return p.Height + p.AlongSlope*(along-p.Along) + p.AcrossSlope*(across-p.Across)
}

// Off is how far a point stands over the plane, in the unit of the heights; negative is under it.
func (p FramePlane) Off(x FramePoint) float64 { return x.Height - p.At(x.Along, x.Across) }

// Furthest is the point that stands furthest off the plane, and by how much; the first of those that are equal.
func (p FramePlane) Furthest(points []FramePoint) (x FramePoint, off float64) {
	for i, y := range points {
		if o := p.Off(y); i == 0 || math.Abs(o) > math.Abs(off)+1e-12 {
			x, off = y, o
		}
	}
	return x, off
}

// FrameTwist is how far the fourth corner of a frame stands off the plane of the other three, from the heights of its
// corners in one unit: what a feeler would find on the fourth of four level stands. Positive: the left front and the
// right rear stand high.
func FrameTwist(leftFront, rightFront, leftRear, rightRear float64) float64 {
	return leftFront - rightFront - leftRear + rightRear
}

// FloorPoint is a point of the frame dropped to the floor with a plumb bob, in one unit.
type FloorPoint struct{ Along, Across float64 }

// Diagonals are the two diagonals of a panel of a frame from its corners on the floor, left front to right rear and
// right front to left rear.
func Diagonals(leftFront, rightFront, leftRear, rightRear FloorPoint) (a, b float64) {
	return leftFront.to(rightRear), rightFront.to(leftRear)
}

func (p FloorPoint) to(q FloorPoint) float64 { return math.Hypot(p.Along-q.Along, p.Across-q.Across) }

// RailLead is how far one rail of a panel has slid ahead of the other, from the panel's diagonals and its length, in one
// unit: (a^2 - b^2) / 4 length, of a parallelogram. Positive: the left rail leads, as a is the diagonal from the left
// front. A length of nothing gives NaN.
func RailLead(a, b, length float64) float64 {
	if length <= 0 {
		return math.NaN()
	}
	return (a - b) * (a + b) / (4 * length)
}
