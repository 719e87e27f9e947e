package head

import (
	"fmt"
	"strings"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

// springs keeps how far each spring's load is from new, and says which of them take the set along: springs are renewed
// as a set (common practice, no source).
func springs(b *sdk.Bench) {
	fact, ok := b.Fact("P")
	if !ok {
		return
	}
	asNew, err := fact.Quantity.In("lbf")
	if err != nil || asNew.Value <= 0 {
		return
	}
	var weak []string
	first, firstID := core.Target{}, ""
	for _, t := range targets(b, "valve-spring") {
		q, id, read := b.Reading(t, "load", "")
		l, limited := b.Limit(t, "load")
		if !read || !limited || l.WearLow == nil {
			continue
		}
		loss := sdk.SpringLoss(q.Value, asNew.Value)
		b.AddFact(t, core.Fact{Name: "load-change", Source: "load at fitted height against new", Value: core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: loss, Unit: "%"}}})
		if core.LessOrEqual(*l.WearLow, q.Value) {
			continue
		}
		if len(weak) == 0 {
			first, firstID = t, id
		}
		weak = append(weak, fmt.Sprintf("%s (%.1f %%)", t.Position, loss))
	}
	if len(weak) > 0 {
		b.Problem(core.Problem{Severity: core.SeverityNote, Target: first, Check: "load", FindingID: firstID, Summary: "weak valve springs: " + strings.Join(weak, ", "),
			Next: "springs are renewed as a set; compare the new ones on the tester before they go in"})
	}
}

// targets lists the positions of a part for these facts.
func targets(b *sdk.Bench, part string) []core.Target {
	if p := b.Sheet.Part(part); p != nil {
		return p.Targets()
	}
	return nil
}
