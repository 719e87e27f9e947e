package frame

import (
	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

// countedWork is what is paid by the count. Three patches on the mean where outriggers and rails were not seen; the other
// usual counts are common practice, no source.
var countedWork = []sdk.CountedWork{
	{Part: "outrigger", Check: "corrosion", Remedy: "let-in", Operation: "let-in-plate", Usual: 3, Unseen: "let-in-plates-to-be-found", Count: sdk.OverClass},
	{Part: "outrigger", Check: "corrosion", Remedy: "new-outrigger", Operation: "replace-outrigger", Usual: 3, Unseen: "outriggers-to-be-found", Piece: true, Count: sdk.OverClass},
	{Part: "side-rail", Check: "wall-thickness", Remedy: "let-in", Operation: "let-in-plate", Usual: 3, Unseen: "let-in-plates-to-be-found", Count: underNew},
	{Part: "frame-perforations", Check: "perforations", Remedy: "let-in", Operation: "let-in-plate", Usual: 3, Unseen: "let-in-plates-to-be-found"},
	{Part: "frame-cracks", Check: "cracks", Remedy: "weld", Operation: "weld-crack", Usual: 2, Unseen: "cracks-to-be-found"},
	{Part: "frame-rivets", Check: "loose-rivets", Remedy: "re-rivet", Operation: "re-rivet", Usual: 6, Unseen: "rivets-to-be-found"},
	{Part: "frame-rivets", Check: "loose-rivets", Remedy: "fitted-bolts", Operation: "fit-bolt", Usual: 6, Unseen: "bolts-to-be-found"},
	{Part: "flange-holes", Check: "added-holes", Remedy: "weld-up", Operation: "weld-hole", Usual: 3, Unseen: "holes-to-be-found"},
	{Part: "old-repairs", Check: "welds", Remedy: "redo", Operation: "redo-repair", Usual: 2, Unseen: "repairs-to-be-found", Count: sdk.OverClass},
}

// underNew asks for a patch where a rail is nearer to its limit than to new: so thin it is not used again.
func underNew(v float64, l core.Limit) int {
	if l.WearLow != nil && l.NewLow != nil && v < *l.NewLow-sdk.NearShare*(*l.NewLow-*l.WearLow) {
		return 1
	}
	return 0
}
