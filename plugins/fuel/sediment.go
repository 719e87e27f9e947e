package fuel

import (
	"fmt"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

// tank is where the sediment of the whole system is read.
var tank = core.Target{Part: "fuel-tank"}

// downstream are the judged checks of what the tank's sediment ran through.
var downstream = []struct{ part, check string }{{"fuel-pipe", "corrosion"}, {"tap-and-bowl", "seals-and-glass"}}

// sedimentSource is the source of the rule (common practice, no source).
const sedimentSource = "common practice, no source: past its limit of sediment, every fuel part is taken a class worse"

// sediment makes what lies after a tank full of sediment be judged a class stricter: a part of class 1 counts as 2 then.
// A limit that the job, the unit or the vehicle gives is left as it is. What has no class is to be looked at again.
func sediment(p *sdk.Prepare) {
	q, finding, ok := p.Reading(tank, "sediment", "")
	l, limited := p.Limit(tank, "sediment")
	if !ok || !limited || sdk.Judge(q.Value, sdk.StandardUncertainty(q.Bound), l, core.Measured, false).Grade != core.PastLimit {
		return
	}
	for _, d := range downstream {
		for _, t := range p.Sheet.Part(d.part).Targets() {
			stricter, ok := p.Limit(t, d.check)
			if !ok || stricter.Origin != "sheet" || stricter.WorstClass == nil || *stricter.WorstClass == 0 {
				continue
			}
			*stricter.WorstClass--
			if stricter.NewHigh != nil {
				*stricter.NewHigh = max(0, *stricter.NewHigh-1)
			}
			stricter.Source = sedimentSource
			p.SetLimit(t, d.check, stricter)
		}
	}
	p.Problem(core.Problem{Severity: core.SeverityWarning, Target: tank, Check: "sediment", FindingID: finding,
		Summary: fmt.Sprintf("%.1f %s of sediment in the tank: pipes, tap and bowl are judged a class stricter", q.Value, q.Unit),
		Detail:  sedimentSource, Next: "strip pump and carburettor for the same dirt, and cut the filter open"})
}
