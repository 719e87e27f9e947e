package bottomend

import (
	"fmt"
	"slices"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

// evidence says what one part tells of others. Shells and bolts are always new; what they show is not to be lost with
// them (all common practice, no source).
func evidence(b *sdk.Bench) {
	look := func(part, position, check string, bad func(v float64) bool, summary, next string) {
		t := core.Target{Part: part, Position: position}
		if q, id, ok := b.Reading(t, check, ""); ok && bad(q.Value) {
			b.Problem(core.Problem{Severity: core.SeverityWarning, Target: t, Check: check, FindingID: id, Summary: summary, Next: next})
		}
	}
	fails := func(v float64) bool { return v < .5 }
	over := func(limit float64) func(float64) bool { return func(v float64) bool { return v > limit } }
	look("main-shells", "", "marks-agree", fails, "the shells are marked to different sizes", "treat it as a mismatched crankshaft: measure every journal before anything is ordered")
	for _, shells := range []string{"main-shells", "big-end-shells"} {
		look(shells, "", "backing-metal", over(0), "shells run through to their backing", "find the cause before new ones go in: oil pump, relief valve, oilways, dirt")
		look(shells, "", "surface", over(2), "shells broken up or wiped", "look at their journals for heat, and at every oilway")
	}
	look("sump", "", "metal", func(v float64) bool { return v == 2 }, "flakes of metal in the sump", "open everything the oil runs through")
	look("sump", "", "metal", over(2), "pieces of metal in the sump", "suspect crankshaft and camshaft: find where each piece belongs")
	bolts(b)
	sideClearance(b)
}

// bolts tells of a stretched bolt, which always leaves the engine with its fellows.
func bolts(b *sdk.Bench) {
	for _, t := range b.Sheet.Part("big-end-bolt").Targets() {
		if !condemned(b, t, "stretch") {
			continue
		}
		_, id, _ := b.Reading(t, "stretch", "")
		b.Problem(core.Problem{Severity: core.SeverityWarning, Target: t, Check: "stretch", FindingID: id,
			Summary: fmt.Sprintf("a big-end bolt of rod %s has stretched", t.Position), Next: "all bolts are new; look at that rod's cap, bore and shells for why"})
	}
}

// sideClearance closes resizing where the rod is too narrow for its pin: that bores the eye, and adds no width.
func sideClearance(b *sdk.Bench) {
	for _, t := range b.Sheet.Part("rod").Targets() {
		q, id, ok := b.Reading(t, "side-clearance", "")
		l, _ := b.Limit(t, "side-clearance")
		if !ok || l.NewHigh == nil || q.Value <= *l.NewHigh || !condemned(b, t, "side-clearance") {
			continue
		}
		if r := b.Remedy(t, "resize"); r != nil && r.Feasible || openSomewhere(b, t, "resize") {
			b.Close(t, "resize", core.Reason{Text: "side clearance " + inches(q.Value) + ": resizing adds no width", FindingIDs: []string{id}, Check: "side-clearance", Source: "TM 5-6115-584-34"})
		}
	}
}

func openSomewhere(b *sdk.Bench, t core.Target, remedy string) bool {
	return slices.ContainsFunc(b.Condition(t).States, func(s core.State) bool { return slices.Contains(s.Remedies, remedy) })
}
