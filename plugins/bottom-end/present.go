package bottomend

import (
	"math"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

// present moves the limits of a group that stands at an undersize already, agreed by its mark and its readings, down
// to that size: journals marked and measured .010 under are as new for .010 shells (common practice; the band of a
// step is the new band less the step, TM 5-3805-262-34).
func (g group) present(p *sdk.Prepare) {
	rule, ok := g.rule(p.Sheet, p)
	if !ok {
		return
	}
	step, _ := g.marked(p.Sheet, p)
	size := rule.Present(step, g.journals(p.Sheet, p))
	ts := g.targets(p.Sheet)
	if !size.Agreed && size.Words != "" && anyRead(p, ts) {
		p.Problem(core.Problem{Severity: core.SeverityWarning, Summary: g.name + ": " + size.Words, Target: ts[0], Check: "present-undersize",
			Detail: "graded against the standard size until mark and readings agree",
			Next:   "read the stamps on the webs and on the backs of the shells, and measure again what does not fit"})
	}
	if size.Step == 0 {
		return
	}
	for _, t := range ts {
		l, ok := p.Limit(t, "diameter")
		if !ok {
			continue
		}
		for _, bound := range []*float64{l.NewLow, l.NewHigh, l.WearLow, l.WearHigh} {
			if bound != nil {
				*bound = math.Round((*bound-size.Step)*1e7) / 1e7
			}
		}
		l.Source += ", at " + sdk.Undersize(size.Step) + " by mark and readings"
		p.SetLimit(t, "diameter", l)
	}
}

func anyRead(r readings, ts []core.Target) bool {
	for _, t := range ts {
		for _, st := range stations {
			if _, _, ok := r.Reading(t, "diameter", st); ok {
				return true
			}
		}
	}
	return false
}
