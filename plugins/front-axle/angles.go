package frontaxle

import (
	"math"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

var sides = []string{"LF", "RF"}

// differences gives the differences of camber and castor from the angles of both wheels, unless they were written directly.
func differences(p *sdk.Prepare) {
	alignment := core.Target{Part: "axle-alignment"}
	for _, angle := range []string{"camber", "castor"} {
		difference := angle + "-difference"
		left, leftID, ok1 := p.Reading(core.Target{Part: "wheel-angles", Position: "LF"}, angle, "")
		right, rightID, ok2 := p.Reading(core.Target{Part: "wheel-angles", Position: "RF"}, angle, "")
		if !ok1 || !ok2 || written(p, alignment, difference) {
			continue
		}
		p.Supply(alignment, difference, core.Quantity{Value: math.Abs(left.Value - right.Value), Unit: left.Unit, Bound: math.Hypot(left.Bound, right.Bound)}, leftID, rightID)
	}
}

func written(p *sdk.Prepare, t core.Target, check string) bool {
	for _, station := range []string{"", "left", "right"} {
		if _, _, ok := p.Reading(t, check, station); ok {
			return true
		}
	}
	return false
}
