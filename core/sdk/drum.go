package sdk

import (
	"fmt"
	"math"

	"github.com/fettle-tools/fettle/core"
)

// DrumRule is how brake drums are turned. All sizes are diameters in one unit, inches in the rules here.
type DrumRule struct {
	Nominal   float64
	Turn      float64 // the largest a drum may be when it comes back from turning
	Discard   float64 // over it a drum is thrown away; a size cast on the drum counts instead
	Allowance float64 // clean-up, on diameter
	Across    float64 // the most the two drums of an axle may differ
}

// LightDrum is the usual rule for drums of this nominal size in inches: turned to .060 over, thrown away over .090, as one
// 4x4 of 11.150 in has them (TM 9-2320-289-34 table 7-1); .004 to clean up and .010 across an axle are common practice.
func LightDrum(nominal float64) DrumRule {
	return DrumRule{Nominal: nominal, Turn: nominal + .060, Discard: nominal + .090, Allowance: .004, Across: .010}
}

// HeavyDrum is the rule for heavy truck drums: turned to .080 over, thrown away over .120 (TM 9-2330-326-14&P).
func HeavyDrum(nominal float64) DrumRule {
	r := LightDrum(nominal)
	r.Turn, r.Discard = nominal+.080, nominal+.120
	return r
}

// Drum is one drum as found.
type Drum struct {
	Position string
	Max      float64 // largest reading
	Score    float64 // depth of the deepest score
}

// DrumTurned is what a drum comes to.
type DrumTurned struct {
	Position string
	To       float64 // largest reading + twice the score + allowance
	Reserve  float64 // left to the discard size after turning
	Fits     bool    // no larger than may be turned
}

// Turned is what a drum cleans up at: it is cut by the depth of its deepest score on both sides, and a little more
// (common practice, no source). The turning limit binds this result, not the drum as found.
func (r DrumRule) Turned(d Drum) DrumTurned {
	to := d.Max + 2*d.Score + r.Allowance
	return DrumTurned{d.Position, to, r.Discard - to, core.LessOrEqual(to, r.Turn)}
}

// DrumPair is what the two drums of an axle come to.
type DrumPair struct {
	Drums      [2]DrumTurned
	Difference float64 // between them once turned, each to its own size
	Match      bool    // they would differ by too much: the smaller is cut to the larger
	To         float64 // the largest diameter that comes of it
	Turn       bool    // false: the pair is replaced
}

// Pair works the two drums of an axle out together: turned if both may be, and to one size where they would differ by more
// than the rule allows (common practice, no source).
func (r DrumRule) Pair(left, right Drum) DrumPair {
	p := DrumPair{Drums: [2]DrumTurned{r.Turned(left), r.Turned(right)}}
	p.Difference = math.Abs(p.Drums[0].To - p.Drums[1].To)
	p.Match = !core.LessOrEqual(p.Difference, r.Across)
	p.To = math.Max(p.Drums[0].To, p.Drums[1].To)
	p.Turn = p.Drums[0].Fits && p.Drums[1].Fits
	return p
}

// Words tells what the pair comes to.
func (p DrumPair) Words() string {
	s := fmt.Sprintf("%s cleans up at %.4f in, %s at %.4f in", p.Drums[0].Position, p.Drums[0].To, p.Drums[1].Position, p.Drums[1].To)
	switch {
	case !p.Turn:
		return s + ": past what may be turned, the pair is replaced"
	case p.Match:
		return s + fmt.Sprintf(": they would differ by %.4f in, both are cut to %.4f in", p.Difference, p.To)
	}
	return s + ": turned"
}

// LiningGrowth is how much thicker linings have to be for a drum of this diameter: half of what it is over nominal. Linings
// are ordered so, or the shoes radiused to the drum (common practice, no source).
func (r DrumRule) LiningGrowth(diameter float64) float64 {
	return math.Max(0, (diameter-r.Nominal)/2)
}
