package clutch

import (
	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

// evidence says what a finding tells of a part that is not the one found at fault (all common practice, no source).
func evidence(b *sdk.Bench) {
	tell(b, "driven-plate", "contamination", "oil or grease on the clutch",
		"find the leak before a new plate goes in: rear of the crankshaft, front of the gearbox, too much grease at the spigot")
	tell(b, "driven-plate", "hub-backlash", "the driven plate's hub is worn on its splines",
		"measure the wear step of the gearbox shaft's clutch splines: a new hub on a stepped shaft drags")
	tell(b, "spigot-bush", "clearance", "the spigot bush is worn out",
		"sweep the bell housing's bore and face from the crankshaft, and measure the spigot of the gearbox shaft")
	tell(b, "ring-gear", "damaged-teeth", "the starter's ring gear is chewed",
		"look at the starter's pinion too: a bad pinion ruins a good ring")
}

// tell adds a problem where a check of a single part is past its limit.
func tell(b *sdk.Bench, part, check, summary, next string) {
	t := core.Target{Part: part}
	l, ok := b.Limit(t, check)
	q, read := b.Derived(t, check)
	if !ok || !read || !past(q.Value, l) {
		return
	}
	_, id, _ := b.Reading(t, check, "")
	b.Problem(core.Problem{Severity: core.SeverityWarning, Target: t, Check: check, FindingID: id, Summary: summary, Next: next})
}

// past reports that a value is over the limit of a check that wears upwards, by size, count or class.
func past(x float64, l core.Limit) bool {
	switch {
	case l.WorstClass != nil:
		return x > float64(*l.WorstClass)
	case l.WearHigh != nil:
		return !core.LessOrEqual(x, *l.WearHigh)
	}
	return false
}
