package brakes

import (
	"fmt"
	"strings"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

// pipeRules makes two bad runs the full set: pipes of one age go together (common practice, no source).
func pipeRules(b *sdk.Bench) {
	ts := b.Sheet.Part("brake-pipe").Targets()
	var bad []string
	for _, t := range ts {
		if c := b.Condition(t); c != nil && c.Grade.ClosesReuse(false) {
			bad = append(bad, t.Position)
		}
	}
	if len(bad) < 2 {
		return
	}
	why := core.Reason{Text: fmt.Sprintf("%d runs are bad (%s): all pipes, hoses and clips new as one job", len(bad), strings.Join(bad, ", ")), Check: "corrosion", Rule: "N07", Source: common}
	for _, t := range ts {
		for _, id := range []string{"reuse", "replace-run"} {
			if open(b, t, id) {
				b.Close(t, id, why)
			}
		}
	}
}
