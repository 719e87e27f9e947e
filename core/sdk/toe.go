package sdk

import "math"

// Toe is the front wheels' toe from two measurements between spun lines at hub height. All lengths in one unit.
type Toe struct {
	Rear, Front float64 // between the lines behind and before the axle
	Tyre        float64 // diameter at the lines
}

// ToeLimit is the most toe allowed for the top of a maker's range: one and a half times it (49 CFR 570.7(d), 570.60(d)).
func ToeLimit(top float64) float64 { return 1.5 * top }

// In is the toe-in; negative is toe-out.
func (t Toe) In() float64 { return t.Rear - t.Front }

// Degrees is the whole angle between the wheels.
func (t Toe) Degrees() float64 { return math.Asin(t.In()/t.Tyre) * 180 / math.Pi }

// SideSlip is how far the pair slips sideways, in feet a mile.
func (t Toe) SideSlip() float64 { return t.In() / t.Tyre * 5280 }

// RodChange is by how much a track rod's length changes to change the toe by this much, with swivel arms of this length
// (common practice, no source). Toe is read across the tyre's diameter, the rod works at the arm's.
func RodChange(toe, arm, tyre float64) float64 { return toe * arm / tyre }

// RodTurns is the turns that change a track rod's length by this much, for a thread of so many to the unit: one end
// turned, or a sleeve with a right-hand and a left-hand thread, which moves both.
func RodTurns(change, threads float64, sleeve bool) float64 {
	if sleeve {
		return change * threads / 2
	}
	return change * threads
}
