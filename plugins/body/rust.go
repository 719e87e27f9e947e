package body

import (
	"fmt"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

// sectionShare is the share of a panel rusted through, in percent, from which no section is let in: the panel is renewed
// (common practice, no source).
const sectionShare = 35

// rustedThrough closes letting in where too little of a panel is left to weld to.
func rustedThrough(b *sdk.Bench) {
	for _, t := range b.Sheet.Part("panel").Targets() {
		q, id, ok := b.Reading(t, "perforated", "")
		if ok && !core.LessOrEqual(q.Value, sectionShare) {
			closeOpen(b, t, "section", core.Reason{Text: fmt.Sprintf("%s rusted through is over %d %%: too little is left to let a section into", q, sectionShare),
				FindingIDs: []string{id}, Check: "perforated", Source: common})
		}
	}
}
