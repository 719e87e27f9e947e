package hubswheels

import (
	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

// heavyTread grades the front tyres of a heavy vehicle against the tread that those need, where its gross weight is known. A limit that
// is stricter already, or was given by a pack or the job, stays.
func heavyTread(p *sdk.Prepare) {
	v, known := p.Fact("gross")
	gross, ok := sized(v, known, "lb")
	if !ok {
		return
	}
	rule := sdk.TreadLimitUS(gross, true)
	for _, position := range []string{"LF", "RF"} {
		t := core.Target{Part: "tyre", Position: position}
		l, ok := p.Limit(t, "tread")
		if !ok || l.Origin != "sheet" || l.WearLow == nil || core.LessOrEqual(rule.Depth, *l.WearLow) {
			continue
		}
		l.WearLow, l.Source, l.Confidence = &rule.Depth, rule.Source, "high"
		p.SetLimit(t, "tread", l)
	}
}
