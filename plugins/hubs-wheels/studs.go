package hubswheels

import (
	"fmt"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

// studs closes the single stud where two or more of a hub are bad: then all of that hub are renewed (rule N11).
func studs(b *sdk.Bench, position string) {
	t := core.Target{Part: "wheel-stud", Position: position}
	bad := 0
	var ids []string
	for _, check := range []string{"bent", "missing"} {
		if q, id, ok := b.Reading(t, check, ""); ok && q.Value > 0 {
			bad += int(q.Value)
			ids = append(ids, id)
		}
	}
	one := b.Remedy(t, "one-stud")
	if bad < 2 || one == nil {
		return
	}
	b.Close(t, "one-stud", core.Reason{Text: fmt.Sprintf("%d studs of the hub are bad: the others have carried their share, and all are renewed", bad),
		FindingIDs: ids, Check: "bent", Rule: "N11-bent", Source: common})
}

// handing asks which hand the threads of a hub's studs have before studs are ordered for it: one side may be left-handed, and
// a bad stud condemns without that look (common practice, no source).
func handing(b *sdk.Bench, position string) {
	t := core.Target{Part: "wheel-stud", Position: position}
	c := b.Condition(t)
	if _, _, read := b.Reading(t, "handing", ""); read || c == nil || !c.Grade.ClosesReuse(false) {
		return
	}
	b.Problem(core.Problem{Severity: core.SeverityWarning, Target: t, Check: "handing", Summary: "hub " + position + ": the hand of its studs' threads is not read",
		Detail: "on some vehicles the studs of one side have left-hand threads", Next: "try a right-hand nut on every stud of the hub before new ones are ordered"})
}
