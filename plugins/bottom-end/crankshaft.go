package bottomend

import (
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

var crankshaft = core.Target{Part: "crankshaft"}

// crankshaftRules keeps apart what is adjusted or trued and what condemns. An end float out of limits is put right
// with washers, a bend or a bad fillet with the press and the grinder, but only on a crank that passes its crack test;
// so while a reading that could condemn it is wanting, there are two things it may turn out to be.
func crankshaftRules(b *sdk.Bench) {
	c := b.Condition(crankshaft)
	if c == nil || condemned(b, crankshaft, "crack-test") || c.Grade == core.Missing {
		return
	}
	floatBad, bent, fillets := condemned(b, crankshaft, "end-float"), condemned(b, crankshaft, "runout"), condemned(b, crankshaft, "fillets")
	if !floatBad && !bent && !fillets {
		return
	}
	cure := "thrust-washers"
	unread := slices.DeleteFunc(slices.Clone(c.ChecksNotRead), func(id string) bool { return id == "end-float" && floatBad })
	if len(unread) > 0 && len(c.States) == 1 {
		c.States = crankStates(b, c.States[0])
	}
	if bent || fillets {
		cure = "true-up"
		b.AddRemedy(trueUp(b, floatBad, bent), 0)
		return
	}
	if r := b.Remedy(crankshaft, cure); r != nil {
		again := *r
		again.Feasible, again.Why = true, []core.Reason{{Text: "washers bring the end float right, if the crank passes what is still to be read", Check: "end-float", Source: common}}
		if len(unread) > 0 {
			again.Why[0].Text += ": " + strings.Join(unread, ", ")
		}
		b.AddRemedy(again, 0)
	}
}

// crankStates are a crank that passes what is still to be read and one that does not.
func crankStates(b *sdk.Bench, now core.State) []core.State {
	chance, id := 0.0, ""
	for _, h := range b.Sheet.Hidden {
		if slices.Contains(h.Parts, crankshaft) {
			chance, id = h.Chance, h.ID
		}
	}
	good := core.State{Chance: 1 - chance, Grade: core.WornFit, Remedies: slices.Clone(now.Remedies), RegisterID: id}
	bad := core.State{Chance: chance, Grade: core.PastLimit, Remedies: slices.Clone(now.Remedies), RegisterID: id}
	return []core.State{good, bad}
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
	q, _, ok := b.Reading(t, check, "")
	c, p := b.Sheet.Check(t.Part, check), b.Sheet.Part(t.Part)
	l, limited := b.Limit(t, check)
	if !ok || c == nil || !limited {
		return false
	}
	j := sdk.Judge(q.Value, sdk.StandardUncertainty(q.Bound), l, c.Kind, c.TwoSided)
	return j.Grade >= core.TooTight || j.Grade == core.NearLimit && p.SafetyCritical
}
