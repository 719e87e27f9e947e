package cylinders

import (
	"fmt"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

// ringTaper is the taper up to which new rings alone are worth their money, as a share of the bore: .005 in on a bore
// of 3.4 in (common practice, no source).
const ringTaper = .0015

// rings closes new rings in a bore with too much taper, and new pistons of the present size in a bore that would leave
// them loose.
func rings(b *sdk.Bench) {
	standard, ok := size(b, "B")
	if !ok {
		return
	}
	for _, t := range targets(b.Sheet, "bore") {
		taper, read := b.Derived(t, "taper")
		if read && !core.LessOrEqual(taper.Value, ringTaper*standard) {
			gap := sdk.RingGapBand(standard).Low
			why := core.Reason{Check: "taper", FindingIDs: tapered(b, t), Source: "common practice, no source; the change of the gap also TM 5-3825-229-14&P",
				Text: fmt.Sprintf("new rings at %s in the bottom would gape %s at the top, with %s of taper: no rings alone over %s", inches(gap),
					inches(sdk.RingGapAtTop(gap, taper.Value)), inches(taper.Value), inches(ringTaper*standard))}
			shut(b, t, "reuse", why)
			shut(b, t, "hone", why)
		}
		loosePiston(b, t)
	}
}

// tapered lists what the taper was read from.
func tapered(b *sdk.Bench, t core.Target) []string {
	if _, id, ok := b.Reading(t, "taper", ""); ok {
		return []string{id}
	}
	return found(b, t)
}

// loosePiston closes a new piston of the present size where the bore at skirt height would leave it past the limit
// (common practice, no source). Half way down stands for the height of the skirt.
func loosePiston(b *sdk.Bench, t core.Target) {
	middle, id, ok := b.Reading(t, "over-standard", "MT")
	bore, limited := b.Limit(t, "over-standard")
	p := at("piston", t)
	fit, known := b.Limit(p, "skirt-clearance")
	standard, sized := size(b, "B")
	if !ok || !limited || !known || !sized || bore.NewLow == nil || fit.NewLow == nil || fit.WearHigh == nil {
		return
	}
	clearance := middle.Value - standard - *bore.NewLow + *fit.NewLow
	if core.LessOrEqual(clearance, *fit.WearHigh) {
		return
	}
	shut(b, p, "new-set", core.Reason{Text: fmt.Sprintf("a new piston of the present size would have %s in this bore, over %s", inches(clearance), inches(*fit.WearHigh)),
		FindingIDs: []string{id}, Check: "skirt-clearance", Source: common})
}
