package sdk

import (
	"fmt"
	"math"

	"github.com/fettle-tools/fettle/core"
)

// BacklashFactor is the change of crown wheel backlash per length moved across the side shims. It depends on the tooth
// angles: verify by dial (common practice, no source).
const BacklashFactor = .75

// CrownWheelShims are the two side packs of a crown wheel, in one unit with the backlash. Their sum stays: what one
// side gains the other loses (TM 9-2320-289-34).
type CrownWheelShims struct {
	BackSide  float64 // behind the crown wheel's back
	ToothSide float64
}

// SetBacklash moves the shims that bring the backlash found to the one aimed at; factor 0 is BacklashFactor. shift is
// what moves from the tooth side to the back side; negative the other way. Conflict if a side would have less than nothing.
// An old pair that goes back in is set to its backlash as found (TM 10-3930-660-34, TM 9-2320-283-34-2).
func (c CrownWheelShims) SetBacklash(found, aim, factor float64) (set CrownWheelShims, shift float64, err error) {
	if factor == 0 {
		factor = BacklashFactor
	}
	shift = (found - aim) / factor
	set = CrownWheelShims{BackSide: c.BackSide + shift, ToothSide: c.ToothSide - shift}
	if math.IsNaN(shift) || set.BackSide < -core.Slack || set.ToothSide < -core.Slack {
		return c, shift, core.Errorf(core.Conflict, "check the backlash, the packs and the bearings",
			"%s would have to move, more than is there", core.FormatNumber(round5(math.Abs(shift))))
	}
	return set, shift, nil
}

// Words tells what to do and how to prove it.
func (c CrownWheelShims) Words() string {
	return fmt.Sprintf("back side %s, tooth side %s, together %s as before; prove it by dial at 4 places, variation under .002",
		core.FormatNumber(round5(c.BackSide)), core.FormatNumber(round5(c.ToothSide)), core.FormatNumber(round5(c.BackSide+c.ToothSide)))
}

// PinionMark says what the depth mark etched on a pinion means. It is stored with the axle: makers differ.
type PinionMark string

// The conventions of pinion marks, as deviations of the mounting distance.
const (
	MinusSitsCloser PinionMark = "minus: the pinion sits closer to the crown wheel's centre"
	PlusSitsCloser  PinionMark = "plus: the pinion sits closer to the crown wheel's centre"
)

// PinionPack is the pack behind a new pinion's head, from the old pack and the marks of both pinions, in one unit. A thicker pack
// brings the pinion closer to the crown wheel's centre (common practice, no source). The convention must be known.
func PinionPack(pack, oldMark, newMark float64, mark PinionMark) (float64, error) {
	switch mark {
	case MinusSitsCloser:
		return pack + oldMark - newMark, nil
	case PlusSitsCloser:
		return pack + newMark - oldMark, nil
	}
	return 0, core.Errorf(core.Invalid, fmt.Sprintf("store %q or %q with the axle", MinusSitsCloser, PlusSitsCloser),
		"it is not known what the pinion's mark means")
}
