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
