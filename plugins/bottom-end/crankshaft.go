package bottomend

import (
	"fmt"
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

var crankshaft = core.Target{Part: "crankshaft"}

// crankshaftRules opens what adjusts or trues a crank, beside another crank. An end float out of limits is put right with
// washers, a bend or a bad fillet with the press and the grinder: neither condemns it. A failed crack test does, and
// while it is still to come nothing is to be spent on the crank, which is told.
func crankshaftRules(b *sdk.Bench) {
	c := b.Condition(crankshaft)
	if c == nil || condemned(b, crankshaft, "crack-test") || c.Grade == core.Missing {
		return
	}
	floatBad, fillets := condemned(b, crankshaft, "end-float"), condemned(b, crankshaft, "fillets")
	runout, read := judged(b, crankshaft, "runout")
	bent := condemned(b, crankshaft, "runout") || read && runout.Grade == core.MeasureAgain && floatBad
	switch {
	case bent || fillets:
		b.AddRemedy(trueUp(b, floatBad, bent))
	case floatBad:
		washers := *b.Remedy(crankshaft, "thrust-washers")
		washers.Feasible, washers.Why = true, []core.Reason{{Text: "washers bring the end float right", Check: "end-float", Source: common}}
		b.AddRemedy(washers)
	default:
		return
	}
	if len(c.ChecksNotRead) > 0 {
		b.Problem(core.Problem{Severity: core.SeverityWarning, Target: crankshaft, Check: c.ChecksNotRead[0],
			Summary: "still to read of the crankshaft, and it may condemn it: " + strings.Join(c.ChecksNotRead, ", "),
			Detail:  registerWords(b), Next: "crack test and measure it before anything is spent on it"})
	}
}

// registerWords says how often a crank fails that nobody has tested.
func registerWords(b *sdk.Bench) string {
	for _, h := range b.Sheet.Hidden {
		if slices.Contains(h.Parts, crankshaft) {
			return fmt.Sprintf("%s: %.0f in 100 (%s); no reserve is held for it while something else is out of limits", h.Name, h.Chance*100, h.ID)
		}
	}
	return ""
}

// trueUp is straightening and grinding with the right fillets: no journal stays as it is then (common practice, no source).
func trueUp(b *sdk.Bench, floatBad, bent bool) core.Remedy {
	r := core.Remedy{ID: "true-up", Target: crankshaft, Kind: core.Rebuild, Feasible: true, WearAfter: new(0.0), ResidualChance: .10,
		Name:       "Ground with the right fillets",
		Operations: []string{b.Operation("crack-test", ""), b.Operation("regrind", "")},
		Why:        []core.Reason{{Text: "a fillet with a step or an undercut is ground out with the journals", Check: "fillets", Source: common}}}
	if bent {
		r.Name = "Straightened, then ground with the right fillets"
		r.Operations = append(r.Operations, b.Operation("straighten-crankshaft", ""))
		r.Why = []core.Reason{{Text: "a bend is pressed out before grinding, and runout read again after", Check: "runout", Source: "TM 55-1930-208-24 for the limit; common practice for the cure"}}
	}
	if floatBad {
		r.Name += ", with thrust washers to the end float"
		r.Operations = append(r.Operations, b.Operation("thrust-washers", ""))
	}
	for _, g := range groups {
		for _, t := range g.targets(b.Sheet) {
			r.Excludes = append(r.Excludes, core.RemedyRef{Target: t, Remedy: "reuse"})
		}
	}
	return r
}

// condemned reports that a reading of a check without stations closes reuse of its part by itself.
func condemned(b *sdk.Bench, t core.Target, check string) bool {
	j, ok := judged(b, t, check)
	return ok && (j.Grade >= core.TooTight || j.Grade == core.NearLimit && b.Sheet.Part(t.Part).SafetyCritical)
}

// judged is what the reading of a check without stations says; ok is false if there is none.
func judged(b *sdk.Bench, t core.Target, check string) (j sdk.Judgement, ok bool) {
	q, _, read := b.Reading(t, check, "")
	c := b.Sheet.Check(t.Part, check)
	l, limited := b.Limit(t, check)
	if !read || c == nil || !limited {
		return j, false
	}
	return sdk.Judge(q.Value, sdk.StandardUncertainty(q.Bound), l, c.Kind, c.TwoSided), true
}
