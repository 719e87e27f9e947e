package cylinders

import (
	"math"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

// present moves the limits of a block that stands at an oversize already, agreed by its mark and its readings, up to
// that size: bores marked and measured .020 over are as new for .020 pistons. What scales by the bore scales by the
// bore that is there (common practice, no source).
func present(p *sdk.Prepare) {
	rule, ok := blockRule(p.Sheet, p)
	ts := targets(p.Sheet, "bore")
	if !ok || !anyRead(p, ts) {
		return
	}
	size := rule.Present(marked(p.Sheet, p), bores(p.Sheet, p))
	if !size.Agreed && size.Words != "" {
		p.Problem(core.Problem{Severity: core.SeverityWarning, Summary: "bores: " + size.Words, Target: ts[0], Check: "present-oversize",
			Detail: "graded against the standard size until mark and readings agree",
			Next:   "read what stands on the crowns of the pistons and on the deck, and measure again what does not fit"})
	}
	if size.Step == 0 {
		return
	}
	grown := (rule.Standard + size.Step) / rule.Standard
	for _, t := range ts {
		move(p, t, "over-standard", size.Step, func(x float64) float64 { return x + size.Step })
		move(p, at("piston", t), "skirt-clearance", size.Step, func(x float64) float64 { return x * grown })
		move(p, at("piston-ring", t), "end-gap", size.Step, func(x float64) float64 { return x * grown })
	}
}

// move changes every bound of a limit, and says why.
func move(p *sdk.Prepare, t core.Target, check string, step float64, by func(float64) float64) {
	l, ok := p.Limit(t, check)
	if !ok {
		return
	}
	for _, bound := range []*float64{l.NewLow, l.NewHigh, l.WearLow, l.WearHigh} {
		if bound != nil {
			*bound = math.Round(by(*bound)*1e7) / 1e7
		}
	}
	l.Source += ", at " + sdk.Oversize(step) + " by mark and readings"
	p.SetLimit(t, check, l)
}

func anyRead(r readings, ts []core.Target) bool {
	for _, t := range ts {
		for _, st := range stations {
			if _, _, ok := r.Reading(t, "over-standard", st); ok {
				return true
			}
		}
	}
	return false
}
