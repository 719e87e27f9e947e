package steering

import (
	"fmt"
	"math"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

var toe = core.Target{Part: "toe"}

// toeRules says by how much the track rod is to be turned to bring the toe to the middle of its range (common practice,
// no source), where swivel arm and tyre are known.
func toeRules(b *sdk.Bench) {
	q, ok := b.Derived(toe, "toe-in")
	l, limited := b.Limit(toe, "toe-in")
	r, c := b.Remedy(toe, "set"), b.Condition(toe)
	if !ok || !limited || l.NewLow == nil || l.NewHigh == nil || r == nil || c.Grade == core.WithinNew {
		return
	}
	arm, ok1 := size(b.Fact("swivel_arm"))("in")
	tyre, ok2 := size(b.Fact("tyre"))("in")
	if !ok1 || !ok2 {
		return
	}
	middle := (*l.NewLow + *l.NewHigh) / 2
	change := sdk.RodChange(q.Value-middle, arm, tyre)
	text := fmt.Sprintf("to toe-in %s in: track rod %s by %.4f in", core.FormatNumber(middle), direction(change), math.Abs(change))
	if v, ok := b.Fact("thread_pitch"); ok && v.Kind == core.ValueCount && v.Count > 0 {
		n := float64(v.Count)
		text += fmt.Sprintf(", %.2f turn of one end or %.2f turn of a sleeve threaded both ways", sdk.RodTurns(math.Abs(change), n, false), sdk.RodTurns(math.Abs(change), n, true))
	}
	why := core.Reason{Text: text, Check: "toe-in", Source: common}
	c.Reasons = append(c.Reasons, why)
	r.Why = append(r.Why, why)
	b.AddFact(toe, core.Fact{Name: "rod-change", Source: text, Value: core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: change, Unit: "in"}}})
}

// direction says which way a rod is turned to take toe-in off (positive) or put it on.
func direction(change float64) string {
	if change > 0 {
		return "shortened if it runs behind the axle, lengthened if before it,"
	}
	return "lengthened if it runs behind the axle, shortened if before it,"
}
