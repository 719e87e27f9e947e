package hubswheels

import (
	"math"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

// tyreSpread works the spread of the rolled circumferences out from the four road tyres, where nobody wrote it down for the set.
func tyreSpread(p *sdk.Prepare) {
	set := core.Target{Part: "tyre-set"}
	for _, station := range []string{"", "longest", "shortest"} {
		if _, _, written := p.Reading(set, "circumference-spread", station); written {
			return
		}
	}
	var rolled []float64
	var ids []string
	bound := 0.0
	for _, position := range corners {
		q, id, ok := p.Reading(core.Target{Part: "tyre", Position: position}, "rolled-circumference", "")
		if !ok {
			return
		}
		rolled, ids, bound = append(rolled, q.Value), append(ids, id), math.Max(bound, q.Bound)
	}
	match, err := sdk.TyreSpread(rolled...)
	if err != nil {
		return // a tyre of no size is told by its own check
	}
	p.Supply(set, "circumference-spread", core.Quantity{Value: 100 * match.Spread, Unit: "%", Bound: 100 * math.Sqrt2 * bound / match.Mean}, ids...)
}
