package cylinders

import (
	"fmt"
	"strings"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

// pits hands a pit over to its bore: the bore is not used as it is, and what was held for a sleeve is settled by the
// step that the block takes (common practice, no source).
func (k block) pits(b *sdk.Bench) {
	for _, t := range k.bores {
		s := at("bore-surface", t)
		c := b.Condition(s)
		if c == nil || c.Grade == core.Missing || !condemned(b, s, "pit-depth") {
			continue
		}
		depth, id, _ := b.Reading(s, "pit-depth", "")
		why := core.Reason{Text: fmt.Sprintf("a pit of %s: twice its depth comes out, or a sleeve goes in", inches(depth.Value)), FindingIDs: []string{id}, Check: "pit-depth", Source: common}
		b.AddRemedy(core.Remedy{ID: "with-bore", Target: s, Kind: core.Rebuild, Name: "Goes with its bore: bored away, or under the sleeve", Feasible: true,
			Why: []core.Reason{why}, Operations: []string{b.Operation("hone-and-rings", "")}, WearAfter: new(0.0), ResidualChance: .03})
		shut(b, s, "sleeved", core.Reason{Text: "the bore says whether it takes a sleeve", FindingIDs: []string{id}, Check: "pit-depth", Source: common})
		for _, r := range []string{"reuse", "hone"} {
			why.Check = "over-standard"
			shut(b, t, r, why)
		}
	}
}

// sleeve adds the other offers: a sleeve in the few bores that need more than the rest, or in all of them, which keeps
// the pistons that are good (common practice, no source). One set of sleeves is one low risk.
func (k block) sleeve(b *sdk.Bench) {
	for _, o := range k.Sleeves {
		if o.Step <= k.size.Step+core.Slack {
			continue
		}
		for _, position := range o.Positions {
			t := core.Target{Part: "bore", Position: position}
			if c := b.Condition(t); c == nil || c.Grade == core.Missing {
				continue
			}
			why := core.Reason{Text: fmt.Sprintf("a sleeve in bore %s, and all to %s", strings.Join(o.Positions, ", "), sdk.Oversize(o.Step)), FindingIDs: found(b, t),
				Check: "over-standard", Rule: boreSet, Source: common}
			b.AddRemedy(core.Remedy{ID: stepID("sleeve", o.Step), Target: t, Kind: core.Rebuild, Name: "Sleeved, and bored to " + sdk.Oversize(o.Step) + " with the whole block, new pistons",
				Feasible: true, Why: []core.Reason{why}, Operations: []string{b.Operation("rebore", ""), b.Operation("sleeve-bore", position)}, WearAfter: new(0.0), ResidualChance: .06,
				Yields: []core.Yield{{Key: key, Value: yield(o.Step)}}, Excludes: otherBlock})
		}
	}
	for _, t := range k.bores {
		c, reuse := b.Condition(t), b.Remedy(t, "reuse")
		if c == nil || c.Grade == core.Missing || reuse == nil || reuse.Feasible || len(found(b, t)) == 0 {
			continue
		}
		why := core.Reason{Text: "sleeves in all bores keep the pistons that are good", FindingIDs: found(b, t), Check: "over-standard", Rule: boreSet, Source: common}
		b.AddRemedy(core.Remedy{ID: "sleeve-all", Target: t, Kind: core.Rebuild, Name: "Sleeved with all bores, back to " + sdk.Oversize(k.size.Step), Feasible: true,
			Why: []core.Reason{why}, Operations: []string{b.Operation("hone-and-rings", ""), b.Operation("sleeve-all", "")}, WearAfter: new(0.0), ResidualChance: .03 / float64(len(k.bores)),
			Yields: []core.Yield{{Key: key, Value: yield(k.size.Step)}}, Excludes: otherBlock})
	}
}

// otherBlock is what no bore of this block goes with.
var otherBlock = []core.RemedyRef{{Target: core.Target{Part: "block"}, Remedy: "another-block"}}
