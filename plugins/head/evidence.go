package head

import (
	"fmt"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

// evidence says what one part tells of others (all common practice, no source).
func evidence(b *sdk.Bench) {
	look := func(part, check string, severity core.Severity, bad func(v float64, l core.Limit) bool, summary, next string) {
		for _, t := range targets(b, part) {
			q, id, ok := b.Reading(t, check, "")
			l, limited := b.Limit(t, check)
			if ok && limited && bad(q.Value, l) {
				b.Problem(core.Problem{Severity: severity, Target: t, Check: check, FindingID: id, Summary: fmt.Sprintf(summary, t.Position), Next: next})
			}
		}
	}
	fails := func(v float64, _ core.Limit) bool { return v < .5 }
	sunk := func(v float64, l core.Limit) bool { return l.NewHigh != nil && !core.LessOrEqual(v, *l.NewHigh) }
	past := func(v float64, l core.Limit) bool { return l.WearHigh != nil && !core.LessOrEqual(v, *l.WearHigh) }
	for _, kind := range []string{"inlet", "exhaust"} {
		look(kind+"-valve", "straight", core.SeverityWarning, fails, kind+" valve %s is bent", "look at the crown of its piston, at its pushrod and guide, and at the timing marks")
	}
	look("exhaust-seat", "recession", core.SeverityNote, sunk, "exhaust seat %s has sunk", "hard inserts are advised for unleaded fuel: ask the owner what it is to run on")
	look("pushrod", "runout", core.SeverityWarning, past, "pushrod %s is bent", "look for a valve that sticks in its guide, and for a spring that goes solid")
	look("tappet", "foot-wear", core.SeverityWarning, func(v float64, l core.Limit) bool { return l.WorstClass != nil && v > float64(*l.WorstClass) },
		"tappet %s is worn flat or hollow", "measure the lift of its cam; what came off went round with the oil")
}
