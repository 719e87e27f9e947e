package frame

import (
	"fmt"
	"slices"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

// patchShare is the share of a rail's thickness as made under which it is no longer patched: the length is renewed (common
// practice, no source).
const patchShare = .65

// thinRails closes patching of a rail that is too thin anywhere to carry the weld of a plate.
func thinRails(b *sdk.Bench) {
	made, ok := b.Fact("t")
	if !ok {
		return
	}
	const check, patch = "wall-thickness", "let-in"
	part := b.Sheet.Part("side-rail")
	for _, t := range part.Targets() {
		thinnest, where, id := 0.0, "", ""
		for _, s := range part.Check(check).Stations {
			if q, f, ok := b.Reading(t, check, s); ok && (where == "" || q.Value < thinnest) {
				thinnest, where, id = q.Value, s, f
			}
		}
		least, err := made.Quantity.In("in")
		if where == "" || err != nil || core.LessOrEqual(patchShare*least.Value, thinnest) {
			continue
		}
		if !slices.ContainsFunc(b.Condition(t).States, func(s core.State) bool { return slices.Contains(s.Remedies, patch) }) {
			continue
		}
		b.Close(t, patch, core.Reason{Text: fmt.Sprintf("%s in at %s is under %.0f per cent of %s in: a plate has nothing sound to be welded to",
			core.FormatNumber(thinnest), where, 100*patchShare, core.FormatNumber(least.Value)), FindingIDs: []string{id}, Check: check, Source: common})
	}
}
