package sdk

import (
	"fmt"
	"math"

	"github.com/fettle-tools/fettle/core"
)

// HubNut is the nut that sets a hub's end float, and the positions in which it can be locked. One unit of length for all.
type HubNut struct {
	Threads   float64 // in one unit of length: 16 to the inch
	LockStep  float64 // degrees from one lock position to the next
	Low, High float64 // end float wanted
	Want      float64 // the float to aim at; 0: the middle of what is wanted
}

// HubNutTurn is one lock position of the nut, turned in from where the float was found.
type HubNutTurn struct {
	Degrees float64 // inwards; below nothing is outwards
	Float   float64 // left at that position
	Fits    bool
}

// HubNutSetting is how far to turn a hub's nut.
type HubNutSetting struct {
	Exact  float64      // degrees to the float aimed at, inwards
	Turns  []HubNutTurn // the lock positions on both sides of it, the smaller turn first; more where more fit
	Chosen *HubNutTurn  // the one to lock at; nil if none lands within what is wanted
}

// Set works out how far to turn the nut for a float found, with the nut locked in some position now. Where no lock position
// lands within what is wanted the lock washer is changed or the face of the nut dressed: the nut is never backed off to fit
// the pin (common practice, no source). An error of code Invalid tells a nut that cannot be worked with.
func (n HubNut) Set(found float64) (HubNutSetting, error) {
	if !(n.Threads > 0) || !(n.LockStep > 0) || !(n.High >= n.Low) {
		return HubNutSetting{}, core.Errorf(core.Invalid, "give threads to the inch, degrees between lock positions, and the float wanted from low to high",
			"a nut of %s threads, locked every %s degrees, cannot be set", core.FormatNumber(n.Threads), core.FormatNumber(n.LockStep))
	}
	want := n.Want
	if want == 0 {
		want = (n.Low + n.High) / 2
	}
	perDegree := 1 / n.Threads / 360
	s := HubNutSetting{Exact: (found - want) / perDegree}
	first := math.Min(math.Floor(s.Exact/n.LockStep), math.Ceil((found-n.High)/perDegree/n.LockStep-core.Slack))
	last := math.Max(math.Ceil(s.Exact/n.LockStep), math.Floor((found-n.Low)/perDegree/n.LockStep+core.Slack))
	for k := first; k <= last; k++ {
		left := found - k*n.LockStep*perDegree
		s.Turns = append(s.Turns, HubNutTurn{k * n.LockStep, left, core.LessOrEqual(n.Low, left) && core.LessOrEqual(left, n.High)})
	}
	for i := range s.Turns {
		t := &s.Turns[i]
		if t.Fits && (s.Chosen == nil || math.Abs(t.Float-want) < math.Abs(s.Chosen.Float-want)) {
			s.Chosen = t
		}
	}
	return s, nil
}

// Words tells the setting in a sentence.
func (s HubNutSetting) Words() string {
	if s.Chosen == nil {
		return fmt.Sprintf("%.1f degrees would be right, and no lock position is: change the lock washer or dress the nut's face, never back it off", s.Exact)
	}
	way := "in"
	if s.Chosen.Degrees < 0 {
		way = "out"
	}
	return fmt.Sprintf("%.1f degrees by the sum; lock it at %.0f degrees %s, which leaves %s", s.Exact, math.Abs(s.Chosen.Degrees), way, core.FormatNumber(round4(s.Chosen.Float)))
}

func round4(v float64) float64 { return math.Round(v*1e4) / 1e4 }
