package body

import (
	"slices"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

// neighbours tells what a finding asks of the part beside it (all common practice, no source).
func neighbours(b *sdk.Bench) {
	for _, w := range [][2]string{{"wing-LH", "right"}, {"wing-RH", "left"}} {
		t := core.Target{Part: "panel", Position: w[0]}
		c := b.Condition(t)
		if c == nil || !c.Grade.ClosesReuse(false) {
			continue
		}
		b.Problem(core.Problem{Severity: core.SeverityNote, Target: t, Check: c.GoverningCheck, Summary: "another wing, or part of one, has to match the " + w[1] + " wing",
			Detail: "wings go in pairs by pattern: lip, swage and bolt holes", Next: "offer both up with the bonnet shut before either is painted"})
	}
	for _, t := range b.Sheet.Part("timber").Targets() {
		q, id, ok := b.Reading(t, "moisture", "")
		if l, _ := b.Limit(t, "moisture"); ok && l.WearHigh != nil && q.Value > *l.WearHigh {
			b.Problem(core.Problem{Severity: core.SeverityNote, Target: t, Check: "moisture", FindingID: id, Summary: "wet timber hides its rot",
				Next: "dry it under cover and probe it again before new wood is cut"})
		}
	}
	outOfSquare(b)
}

// outOfSquare warns of doors hung and glass fitted before what holds them is true.
func outOfSquare(b *sdk.Bench) {
	bulkhead := core.Target{Part: "bulkhead"}
	j := b.Condition(bulkhead)
	if j == nil || !slices.Contains([]core.Grade{core.PastLimit, core.Failed}, j.Grade) {
		return
	}
	b.Problem(core.Problem{Severity: core.SeverityWarning, Target: bulkhead, Check: j.GoverningCheck, Summary: "everything of the front is set by the bulkhead",
		Detail: "doors, bonnet, wings and glass are measured again when it is on the frame", Next: "repair and align it first, on the finished frame, with the doors hung dry"})
}
