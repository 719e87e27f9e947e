package body

import (
	"fmt"
	"slices"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

// countedWork is what is paid by the count; the usual counts are common practice, no source.
var countedWork = []sdk.CountedWork{
	{Part: "aluminium-panel", Check: "cracks", Remedy: "stop-and-weld", Operation: "weld-aluminium", Usual: 2},
	{Part: "captive-nuts", Check: "seized-or-spinning", Remedy: "new-nuts", Operation: "captive-nut", Usual: 12, Unseen: "nuts-to-be-found"},
	{Part: "trim-of-year", Check: "wrong-items", Remedy: "correct", Operation: "correct-year", Usual: 2, Unseen: "items-to-be-found"},
}

// putRight lists the checks that want work as soon as a reading is worse than new, long before it condemns the part.
var putRight = []struct{ part, check, words string }{
	{"panel", "perforated", "%s rusted through: a hole is patched, not painted over"},
	{"floor", "perforated", "%s rusted through: a hole is patched, not painted over"},
	{"aluminium-panel", "cracks", "%s: a crack is stopped and welded before it runs"},
	{"captive-nuts", "seized-or-spinning", "%s bad: a captive nut that spun is never used again"},
}

// worseThanNew closes reuse where work is wanted though nothing is past its limit.
func worseThanNew(b *sdk.Bench) {
	for _, x := range putRight {
		part := b.Sheet.Part(x.part)
		if part == nil {
			continue
		}
		for _, t := range part.Targets() {
			q, id, ok := b.Reading(t, x.check, "")
			l, _ := b.Limit(t, x.check)
			if ok && l.NewHigh != nil && !core.LessOrEqual(q.Value, *l.NewHigh) {
				closeOpen(b, t, "reuse", core.Reason{Text: fmt.Sprintf(x.words, q), FindingIDs: []string{id}, Check: x.check, Source: common})
			}
		}
	}
}

// closeOpen closes a remedy that is open now or in some state.
func closeOpen(b *sdk.Bench, t core.Target, remedy string, why core.Reason) {
	r := b.Remedy(t, remedy)
	if r == nil || !r.Feasible && !slices.ContainsFunc(b.Condition(t).States, func(s core.State) bool { return slices.Contains(s.Remedies, remedy) }) {
		return
	}
	b.Close(t, remedy, why)
}
