package steering

import (
	"fmt"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

// heavyChecks are where the play of a truck over 10 000 lb gross is written, by its rim.
var heavyChecks = []struct {
	check     string
	over, top float64 // rim diameter in inches
}{
	{"tread-play-heavy-18", 16, 18},
	{"tread-play-heavy-over-18", 18, 1e9},
}

// heavy gives a truck over 10 000 lb gross the limit of its rim (49 CFR 570.60 table 3), and takes its play from the check
// where it was written. On a lighter vehicle, or one whose weight is not known, such a reading is told of: its limit is too
// easy.
func heavy(p *sdk.Prepare) {
	gross, known := size(p.Fact("gross"))("lb")
	rim, hasRim := size(p.Fact("rim"))("in")
	truck := known && hasRim && gross > 10000
	for _, t := range p.Sheet.Part("front-wheel").Targets() {
		if truck {
			limit, _ := p.Limit(t, "tread-play")
			most := sdk.LinkagePlayLimit(rim, gross)
			limit.WearHigh, limit.Source = &most, "49 CFR 570.60 table 3"
			p.SetLimit(t, "tread-play", limit)
		}
		for _, h := range heavyChecks {
			q, id, ok := p.Reading(t, h.check, "")
			switch {
			case !ok:
			case truck && rim > h.over && rim <= h.top:
				p.Supply(t, "tread-play", q, id)
			default:
				p.Problem(core.Problem{Severity: core.SeverityWarning, Target: t, Check: h.check, FindingID: id,
					Summary: fmt.Sprintf("the play of the front wheel %s is written for a heavier truck or another rim: %s", t.Position, q),
					Detail:  "that limit holds over 10 000 lb gross only, and for its own rim",
					Next:    "give the gross weight and the rim (facts gross and rim), or write the play as tread-play"})
			}
		}
	}
}

// size reads a fact as a size in a unit.
func size(v core.Value, ok bool) func(unit string) (float64, bool) {
	return func(unit string) (float64, bool) {
		if ok && v.Kind == core.ValueCount && unit == "1" {
			return float64(v.Count), v.Count > 0
		}
		if !ok || v.Kind != core.ValueQuantity {
			return 0, false
		}
		q, err := v.Quantity.In(unit)
		return q.Value, err == nil && q.Value > 0
	}
}
