package head

import (
	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

// evidence says what one part tells of others (all common practice, no source). The words leave the position to the
// target, so that what is told of several reads as one.
func evidence(b *sdk.Bench) {
	look := func(part, check string, severity core.Severity, bad func(v float64, l core.Limit) bool, summary, next string) {
		for _, t := range targets(b, part) {
			q, id, ok := b.Reading(t, check, "")
			l, limited := b.Limit(t, check)
			if ok && limited && bad(q.Value, l) {
				b.Problem(core.Problem{Severity: severity, Target: t, Check: check, FindingID: id, Summary: summary, Next: next})
			}
		}
	}
	fails := func(v float64, _ core.Limit) bool { return v < .5 }
	sunk := func(v float64, l core.Limit) bool { return l.NewHigh != nil && !core.LessOrEqual(v, *l.NewHigh) }
	past := func(v float64, l core.Limit) bool { return l.WearHigh != nil && !core.LessOrEqual(v, *l.WearHigh) }
	for _, kind := range []string{"inlet", "exhaust"} {
		look(kind+"-valve", "straight", core.SeverityWarning, fails, "the "+kind+" valve is bent", "look at the crown of its piston, at its pushrod and guide, and at the timing marks")
	}
	look("exhaust-seat", "recession", core.SeverityNote, sunk, "the exhaust seat has sunk", "hard inserts are advised for unleaded fuel: ask the owner what it is to run on")
	look("pushrod", "runout", core.SeverityWarning, past, "the pushrod is bent", "look for a valve that sticks in its guide, and for a spring that goes solid")
	look("tappet", "foot-wear", core.SeverityWarning, func(v float64, l core.Limit) bool { return l.WorstClass != nil && v > float64(*l.WorstClass) },
		"the foot of the tappet is worn flat or hollow", "hold the lift of its cam against that of the others; what came off both went round with the oil")
}
