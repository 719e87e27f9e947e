package cooling

import (
	"fmt"
	"slices"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

var radiator = core.Target{Part: "radiator"}

// blockedCore keeps the reserve for a blocked core on a radiator that something lesser condemns: a leak is soldered, and only then, with a
// tank off, is it seen that the tubes are shut. A core that was read, or that passes its flow, has no such reserve (common
// practice, no source).
func blockedCore(b *sdk.Bench) {
	c, rod := b.Condition(radiator), b.Remedy(radiator, "rod-out")
	i := slices.IndexFunc(b.Sheet.Hidden, func(h core.Hidden) bool { return slices.Contains(h.Parts, radiator) })
	if c == nil || rod == nil || !rod.Feasible || i < 0 || len(c.States) != 1 || c.Grade < core.TooTight || c.Grade == core.Missing ||
		!slices.Contains(c.ChecksNotRead, "tubes-blocked") || flows(b) {
		return
	}
	h, good := b.Sheet.Hidden[i], c.States[0]
	blocked := core.State{Chance: h.Chance, Grade: core.PastLimit, RegisterID: h.ID,
		Remedies: slices.DeleteFunc(slices.Clone(good.Remedies), func(id string) bool { return id == "rod-out" || id == "reuse" })}
	good.Chance = 1 - h.Chance
	c.States = []core.State{good, blocked}
	c.Reasons = append(c.Reasons, core.Reason{Text: fmt.Sprintf("the core is not seen yet: %s in %.0f of 100 (%s)", h.Name, 100*h.Chance, h.ID), Check: "tubes-blocked", Source: common})
}

// flows reports a core that was timed and passes.
func flows(b *sdk.Bench) bool {
	q, ok := b.Derived(radiator, "flow-loss")
	l, limited := b.Limit(radiator, "flow-loss")
	return ok && limited && l.WearHigh != nil && core.LessOrEqual(q.Value, *l.WearHigh)
}
