package sdk

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// ReboreRule is how the bores of one block are rebored. All sizes are diameters in one unit, inches in the defaults.
// Common practice, no source.
type ReboreRule struct {
	Standard  float64   // low limit of the standard bore
	Allowance float64   // boring clean-up and honing stock, on diameter
	Steps     []float64 // oversizes, smallest first
	Pistons   []float64 // oversizes whose pistons are to be had; nil: not asked yet, all count
	LeastWall float64   // the thinnest wall that may be left
	Close     float64   // a margin under this is close
	Near      float64   // a bore whose smallest reading is at most this over a step may be at it already
	U         float64   // standard uncertainty of one reading
}

// BoresRule is the usual rule for bores of this standard size in inches: .0040 to clean up and hone, steps of .020 to
// .060, .125 of wall left, close under .0010 (common practice, no source).
func BoresRule(standard float64) ReboreRule {
	return ReboreRule{Standard: standard, Allowance: .0040, Steps: []float64{.020, .030, .040, .060}, LeastWall: .125, Close: .0010, Near: .0040}
}

// Pit is a rust pit or a score in a bore: its depth, and the bore's size beside it. Without that size it counts as
// beside the largest reading.
type Pit struct {
	Reading *float64
	Depth   float64
}

// Bore is one cylinder with what was read of it.
type Bore struct {
	Position string
	Planes   []Plane // under the ridge, middle, bottom of the ring travel; V across the thrust faces, H along the axis
	Pits     []Pit
	Wall     *float64 // thinnest wall before boring; nil: not measured
}

// BoreNeed is what one bore asks for. Sums over readings that were not taken are over those that were.
type BoreNeed struct {
	Position      string
	Min, Max      float64
	OutOfRound    float64
	Taper         float64 // top less bottom in the worse direction
	Wear          float64 // Max - Standard
	Required      float64 // Wear + OutOfRound + Allowance, or more for a pit
	RequiredU     float64 // its standard uncertainty
	Pitted        bool    // a pit sets Required
	Alone         float64 // the step it would take alone; 0 if beyond the largest
	NearStep      float64 // a step it may stand at already; 0 for none
	Taken, Needed int     // readings
	Wall          *float64
}

// need works out one bore (common practice, no source). A pit has to be bored away on its own side, which takes twice
// its depth on the diameter.
func (r ReboreRule) need(b Bore) BoreNeed {
	n := BoreNeed{Position: b.Position, Needed: 2 * len(b.Planes), Wall: b.Wall}
	xs := readings(b.Planes)
	if n.Taken = len(xs); n.Taken == 0 {
		return n
	}
	n.Min, n.Max = slices.Min(xs), slices.Max(xs)
	n.OutOfRound, _ = OutOfRound(b.Planes)
	n.Taper, _ = Taper([]Plane{b.Planes[0], b.Planes[len(b.Planes)-1]})
	n.Wear = n.Max - r.Standard
	n.Required = n.Wear + n.OutOfRound + r.Allowance
	n.RequiredU = r.requiredU(b.Planes)
	for _, p := range b.Pits {
		beside := n.Max
		if p.Reading != nil {
			beside = *p.Reading
		}
		if need := beside - r.Standard + 2*p.Depth + r.Allowance; p.Depth > 0 && need > n.Required {
			n.Required, n.Pitted = need, true
		}
	}
	n.Alone, _ = r.step(n.Required)
	for _, s := range r.Steps {
		if over := n.Min - r.Standard - s; core.LessOrEqual(over, r.Near) && core.LessOrEqual(-over, r.Near/4) {
			n.NearStep = s
		}
	}
	return n
}

// requiredU is the standard uncertainty of Wear + OutOfRound.
func (r ReboreRule) requiredU(planes []Plane) float64 {
	var in []Estimate
	for _, x := range readings(planes) {
		in = append(in, Estimate{Value: x, U: r.U})
	}
	return Combine(func(x []float64) float64 {
		moved, i := make([]Plane, len(planes)), 0
		for k, p := range planes {
			if p.V != nil {
				moved[k].V = &x[i]
				i++
			}
			if p.H != nil {
				moved[k].H = &x[i]
				i++
			}
		}
		oor, _ := OutOfRound(moved)
		return oor + slices.Max(x)
	}, in...).U
}

// step is the smallest step that cleans req up and has pistons; the steps that would have done but have none are skipped.
func (r ReboreRule) step(req float64) (step float64, skipped []float64) {
	for _, s := range r.Steps {
		switch {
		case !core.LessOrEqual(req, s):
		case r.Pistons != nil && !hasSize(r.Pistons, s):
			skipped = append(skipped, s)
		default:
			return s, skipped
		}
	}
	return 0, skipped
}

// WallAfter is the wall that is left when a bore goes from one oversize to another: half the difference comes off.
func WallAfter(wall, from, to float64) float64 { return wall - (to-from)/2 }

// Oversize writes a step as the trade does: "+.020". It is a size over standard, never a signed reading.
func Oversize(step float64) string {
	if step == 0 {
		return "standard"
	}
	return "+" + strings.TrimPrefix(Undersize(step), "-")
}

// thou writes a size to five decimals at most, without a leading zero: ".0232".
func thou(v float64) string {
	return strings.Replace(strconv.FormatFloat(math.Round(v*1e5)/1e5, 'f', -1, 64), "0.", ".", 1)
}
