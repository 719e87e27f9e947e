package electrics

import (
	"fmt"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

// mendable is how many branches are worth mending: beyond it the whole harness is renewed (common practice, no source).
const mendable = 3

var harness = core.Target{Part: "harness"}

// harnessRules closes the mending of a harness that is not worth it: too many bad branches, too many added circuits.
func harnessRules(b *sdk.Bench) {
	tooManyBranches(b)
	tooManyAdded(b)
}

func tooManyBranches(b *sdk.Bench) {
	part := b.Sheet.Part("harness-branch")
	var bad []core.Target
	for _, t := range part.Targets() {
		if c := b.Condition(t); c != nil && (c.Grade == core.Failed || c.Grade == core.Missing) {
			bad = append(bad, t)
		}
	}
	if len(bad) <= mendable {
		return
	}
	for _, t := range bad {
		if r := b.Remedy(t, "repair"); r != nil && r.Feasible {
			b.Close(t, "repair", core.Reason{Check: "insulation", Source: common,
				Text: fmt.Sprintf("%d branches are bad: more than %d are not worth mending", len(bad), mendable)})
		}
	}
}

// tooManyAdded leaves only a new harness where more circuits were added than its limit allows: taking them out would
// leave a harness that is cut and spliced all over.
func tooManyAdded(b *sdk.Bench) {
	q, id, ok := b.Reading(harness, "added-circuits", "")
	l, limited := b.Limit(harness, "added-circuits")
	if !ok || !limited || sdk.Judge(q.Value, 0, l, core.Counted, false).Grade != core.PastLimit {
		return
	}
	if r := b.Remedy(harness, "take-out-added"); r != nil && r.Feasible {
		b.Close(harness, "take-out-added", core.Reason{Check: "added-circuits", Source: common, FindingIDs: []string{id},
			Text: fmt.Sprintf("%g added circuits: what is left when they are taken out is not worth keeping", q.Value)})
	}
}
