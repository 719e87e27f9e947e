package clutch

import (
	"fmt"
	"math"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

// leastCut is what a grinder takes off a flywheel's face at the least, in inches (common practice, no source).
const leastCut = .005

// deepFacing is the chance that a face ground past the limit gives trouble within the horizon: the step is short, the
// cover's springs sit low (common practice, no source).
const deepFacing = .10

var flywheel = core.Target{Part: "flywheel"}

// facing works out how much metal is gone once the face is ground true: what has gone already, and the runout or the
// least cut, whichever is more. Past the limit grinding stays open, at a greater risk (common practice, no source).
func facing(b *sdk.Bench) {
	gone, ok := b.Derived(flywheel, "metal-removed")
	l, known := b.Limit(flywheel, "metal-removed")
	r := b.Remedy(flywheel, "face")
	if !ok || !known || l.WearHigh == nil || r == nil {
		return
	}
	cut := leastCut
	var ids []string
	if q, id, ok := b.Reading(flywheel, "face-runout", ""); ok {
		cut, ids = math.Max(cut, q.Value), append(ids, id)
	}
	total := gone.Value + cut
	why := core.Reason{Text: fmt.Sprintf("%s is gone from the face and about %s has to come off: %s together, limit %s", inches(gone.Value), inches(cut), inches(total), inches(*l.WearHigh)),
		FindingIDs: ids, Check: "metal-removed", Source: common}
	r.Why = append(r.Why, why)
	if !core.LessOrEqual(total, *l.WearHigh) {
		r.ResidualChance = math.Max(r.ResidualChance, deepFacing)
	}
}

// inches writes a size to the tenth of a thousandth.
func inches(x float64) string { return core.FormatNumber(math.Round(x*1e4)/1e4) + " in" }
