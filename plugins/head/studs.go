package head

import (
	"fmt"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

// studs pays for every broken stud that was counted; until they are, the sheet's one and a half are held.
func studs(b *sdk.Bench) {
	t := core.Target{Part: "manifold-stud"}
	q, id, ok := b.Reading(t, "broken", "")
	if !ok || q.Value < 1 {
		return
	}
	n := int(q.Value)
	op := b.Each("extract-stud", "", n)
	if r := b.Remedy(t, "extract"); r != nil {
		r.Operations, r.Name = []string{op}, fmt.Sprintf("%d broken studs extracted, new ones in", n)
		if n == 1 {
			r.Name = "The broken stud extracted, a new one in"
		}
	}
	if r := b.Remedy(t, "new-set"); r != nil {
		r.Operations = []string{b.Operation("manifold-stud-set", ""), op}
	}
	b.Problem(core.Problem{Severity: core.SeverityNote, Target: t, Check: "broken", FindingID: id, Summary: fmt.Sprintf("%d broken studs to come out", n),
		Next: "look whether an earlier one was drilled off centre: that one takes two hours more and an insert"})
}
