package cylinders

import (
	"fmt"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

// threadShare is the share of head stud threads over which they are a machine shop's work (common practice, no source).
const threadShare = .25

// threads pays an insert for every thread that was counted.
func threads(b *sdk.Bench) {
	t := core.Target{Part: "head-stud-thread"}
	q, id, ok := b.Reading(t, "stripped", "")
	r := b.Remedy(t, "inserts")
	if !ok || q.Value < 1 || r == nil {
		return
	}
	n := int(q.Value)
	r.Operations = []string{b.Each("thread-insert", "", n)}
	if n > 1 {
		r.Name = fmt.Sprintf("%d thread inserts where threads have pulled", n)
	}
	if all := b.Sheet.Part(t.Part).Count; q.Value > threadShare*float64(all) {
		b.Problem(core.Problem{Severity: core.SeverityWarning, Target: t, Check: "stripped", FindingID: id,
			Summary: fmt.Sprintf("%d of %d threads have pulled", n, all), Next: "more than one in four: have them done square to the deck by a machine shop, and look at why"})
	}
}

// evidence says what one part tells of others: plugs and rings are always new, and what they show is not to be lost with
// them (all common practice, no source).
func evidence(b *sdk.Bench) {
	tell := func(t core.Target, check, id, summary, next string) {
		b.Problem(core.Problem{Severity: core.SeverityWarning, Target: t, Check: check, FindingID: id, Summary: summary, Next: next})
	}
	plug := core.Target{Part: "core-plug"}
	if q, id, ok := b.Reading(plug, "sound", ""); ok && q.Value > 0 {
		tell(plug, "sound", id, "core plugs rusted through", "look behind them for sludge, and test the jackets under pressure")
	}
	set := core.Target{Part: "piston-set"}
	if q, id, ok := b.Reading(set, "marks-agree", ""); ok && q.Value < .5 {
		tell(set, "marks-agree", id, "the pistons are of different makes or sizes", "measure every bore before anything is ordered: they may not be one size either")
	}
	for _, t := range targets(b.Sheet, "piston-ring") {
		for _, st := range []string{"top", "second", "oil"} {
			q, id, ok := b.Reading(t, "end-gap", st)
			l, _ := b.Limit(t, "end-gap")
			if ok && l.WearHigh != nil && !core.LessOrEqual(q.Value, *l.WearHigh) {
				tell(t, "end-gap", id, fmt.Sprintf("%s ring of cylinder %s gapes %s in an unworn bore", st, t.Position, inches(q.Value)),
					"the ring is worn out, or the bore is larger than it should be: read the bore before rings are ordered")
			}
		}
	}
	deck(b)
}

// deck reminds of what grinding a deck takes with it.
func deck(b *sdk.Bench) {
	t := core.Target{Part: "block-deck"}
	if condemned(b, t, "flatness-overall") || condemned(b, t, "flatness-local") {
		b.Problem(core.Problem{Severity: core.SeverityNote, Target: t, Check: "flatness-overall",
			Summary: "grinding the deck raises the compression and shortens the way of the studs", Next: "measure deck to crown and the combustion space before and after"})
	}
}
