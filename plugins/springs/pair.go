package springs

import (
	"math"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

// pairs works the difference of camber out from the two springs' own readings, where nobody wrote it down for the pair.
func pairs(p *sdk.Prepare) {
	for _, a := range axles {
		pair := core.Target{Part: "spring-pair", Position: a.name}
		written := false
		for _, station := range []string{"", "left", "right"} {
			_, _, ok := p.Reading(pair, "camber-difference", station)
			written = written || ok
		}
		left, leftID, ok1 := p.Reading(core.Target{Part: "spring", Position: a.left}, "free-camber", "")
		right, rightID, ok2 := p.Reading(core.Target{Part: "spring", Position: a.right}, "free-camber", "")
		if written || !ok1 || !ok2 {
			continue
		}
		difference := sdk.SpringPair{Left: left.Value, Right: right.Value}.Difference()
		p.Supply(pair, "camber-difference", core.Quantity{Value: difference, Unit: left.Unit, Bound: math.Hypot(left.Bound, right.Bound)}, leftID, rightID)
	}
}
