package finaldrive

import (
	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

// Warn tells what a reading says of other parts, where it is bad.
func Warn(b *sdk.Bench, t core.Target, check string, bad func(x float64) bool, summary, next string) {
	if q, id, ok := b.Reading(t, check, ""); ok && bad(q.Value) {
		b.Problem(core.Problem{Severity: core.SeverityWarning, Target: t, Check: check, FindingID: id, Summary: summary, Next: next})
	}
}

// Fails is what is bad of a go/no-go check.
func Fails(x float64) bool { return x < .5 }

// Over is what is bad of a class or a count.
func Over(limit float64) func(x float64) bool { return func(x float64) bool { return x > limit } }

// Evidence says what the oil, the bolts and the breather of an axle tell of the rest (common practice, no source).
func Evidence(b *sdk.Bench) {
	oil := core.Target{Part: "axle-oil"}
	Warn(b, oil, "metal-or-water", func(x float64) bool { return x == 2 }, "water or slivers in the axle oil", "strip the differential; look for rust on teeth and rollers, and at the breather")
	Warn(b, oil, "metal-or-water", Over(2), "pieces of metal in the axle oil", "find where each piece belongs before anything is priced")
	Warn(b, core.Target{Part: "crown-wheel-bolt"}, "stretch", Over(0), "crown wheel bolts stretched or bound", "the crown wheel has worked: read its back face runout, and look at the flange under it")
	Warn(b, core.Target{Part: "breather"}, "clear", Fails, "the breather is blocked", "clean it before the new seals go in, or they are blown out again")
}
