package brakes

import (
	"fmt"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

// shoeRules closes relining of shoes whose tables are twisted or whose webs are worn: new linings on them would not bear
// (common practice, no source).
func shoeRules(b *sdk.Bench) {
	for _, t := range b.Sheet.Part("shoe").Targets() {
		q, id, ok := b.Reading(t, "table", "")
		l, limited := b.Limit(t, "table")
		if !ok || !limited || l.WorstClass == nil || q.Value <= float64(*l.WorstClass) || !open(b, t, "reline") {
			continue
		}
		b.Close(t, "reline", core.Reason{Text: fmt.Sprintf("shoe table or web of class %.0f: lined anew it would not bear", q.Value),
			FindingIDs: []string{id}, Check: "table", Source: common})
	}
}
