package sdktest

import (
	"math"
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// checkSheet says what can be said of the sheet alone.
func (k *kit) checkSheet() {
	s := k.sheet
	if s.Subsystem == "" {
		k.fault(Resolves, core.Target{}, "", "the sheet has no subsystem")
	}
	if len(s.Parts) == 0 {
		k.fault(Checked, core.Target{}, "", "the sheet has no parts")
	}
	uniqueIDs(k, core.Target{}, "part", s.Parts, func(p core.Part) string { return p.ID })
	uniqueIDs(k, core.Target{}, "operation", s.Operations, func(o core.Operation) string { return o.ID })
	uniqueIDs(k, core.Target{}, "step", s.Steps, func(st core.Step) string { return st.ID })
	uniqueIDs(k, core.Target{}, "set", s.Sets, func(st core.Set) string { return st.ID })
	uniqueIDs(k, core.Target{}, "no-reuse rule", s.NoReuse, func(n core.NoReuse) string { return n.ID })
	uniqueIDs(k, core.Target{}, "register entry", s.Hidden, func(h core.Hidden) string { return h.ID })
	for _, p := range s.Parts {
		k.checkPart(p)
	}
	for _, o := range s.Operations {
		k.checkOperation(o, func(id string) bool {
			return slices.ContainsFunc(s.Operations, func(x core.Operation) bool { return x.ID == id })
		})
	}
	k.checkReferences()
	k.checkCautions(core.Target{}, s.Cautions)
}

func (k *kit) checkPart(p core.Part) {
	t := core.Target{Part: p.ID}
	if len(p.Checks) == 0 {
		k.fault(Checked, t, "", "the part has no check")
	}
	uniqueIDs(k, t, "check", p.Checks, func(c core.Check) string { return c.ID })
	uniqueIDs(k, t, "position", p.Positions, func(s string) string { return s })
	for _, c := range p.Checks {
		k.checkCheck(p, c)
	}
	for _, id := range p.Reach {
		k.ownStep(t, id)
	}
	if l := p.Life; l != nil {
		if l.Source == "" {
			k.fault(Sourced, t, "", "its life has no source")
		}
		if !(l.Typical > 0) || !(l.Sigma > 0) || math.IsInf(l.Typical, 0) || math.IsInf(l.Sigma, 0) {
			k.fault(Sane, t, "", "a life of %v, sigma %v", l.Typical, l.Sigma)
		}
		if l.Unit != "km" && l.Unit != "a" {
			k.fault(Sane, t, "", "a life in %q: it is in km or in a", l.Unit)
		}
	}
	if len(p.Outlook) > 0 {
		k.checkChances(t, p.Outlook)
	}
}

// checkCheck wants a source, a limit that can be judged by and figures in order.
func (k *kit) checkCheck(p core.Part, c core.Check) {
	t, l := core.Target{Part: p.ID}, c.Limit
	if l.Source == "" {
		k.fault(Sourced, t, c.ID, "its limit has no source")
	}
	if l.Confidence != "high" && l.Confidence != "medium" && l.Confidence != "low" {
		k.fault(Sourced, t, c.ID, "its limit's confidence is %q: high, medium or low", l.Confidence)
	}
	for _, v := range []*float64{l.NewLow, l.NewHigh, l.WearLow, l.WearHigh, c.PlausibleLow, c.PlausibleHigh, &c.Minutes} {
		if v != nil && (math.IsNaN(*v) || math.IsInf(*v, 0)) {
			k.fault(Sane, t, c.ID, "a figure is %v", *v)
		}
	}
	if c.Minutes < 0 {
		k.fault(Sane, t, c.ID, "it takes %v minutes", c.Minutes)
	}
	edges := slices.DeleteFunc([]*float64{l.WearLow, l.NewLow, l.NewHigh, l.WearHigh}, func(v *float64) bool { return v == nil })
	for i := 1; i < len(edges); i++ {
		if !core.LessOrEqual(*edges[i-1], *edges[i]) {
			k.fault(Sane, t, c.ID, "its limits are out of order: %v before %v", *edges[i-1], *edges[i])
		}
	}
	if p.SafetyCritical && !p.OneUse && c.Kind == core.GoNoGo && !c.NeededForReuse {
		k.fault(BlankNoPass, t, c.ID, "go/no-go on a safety-critical part, and not needed for reuse")
	}
	if c.Kind == core.Measured || c.Kind == core.Derived {
		if _, ok := core.FindUnit(c.Unit); !ok {
			k.fault(Resolves, t, c.ID, "unknown unit %q", c.Unit)
		}
		if l.Unit != c.Unit {
			k.fault(Resolves, t, c.ID, "read in %q and limited in %q", c.Unit, l.Unit)
		}
	}
	if _, ok := worstValue(c); !ok && c.Kind != core.OneUse {
		k.fault(CanFail, t, c.ID, "no value that may be recorded is past its limit")
	}
	uniqueIDs(k, t, "station of "+c.ID, c.Stations, func(s string) string { return s })
}

func (k *kit) checkOperation(o core.Operation, known func(string) bool) {
	if !ordered(o.Hours) || !ordered(o.LeadWeeks) {
		k.fault(Sane, core.Target{}, "", "operation %s: hours %v, lead %v", o.ID, o.Hours, o.LeadWeeks)
	}
	if !orderedMoney(o.Outwork) {
		k.fault(Sane, core.Target{}, "", "operation %s: outwork %v", o.ID, o.Outwork)
	}
	for _, it := range o.Items {
		if it.Key == "" || !(it.Count > 0) || math.IsInf(it.Count, 0) || !orderedMoney(it.TypicalEach) {
			k.fault(Sane, core.Target{}, "", "operation %s, item %q: %v at %v", o.ID, it.Key, it.Count, it.TypicalEach)
		}
	}
	for _, id := range o.Includes {
		if id == o.ID || !known(id) {
			k.fault(Resolves, core.Target{}, "", "operation %s includes %q", o.ID, id)
		}
	}
	for _, id := range o.After {
		if id == o.ID || !slices.ContainsFunc(k.sheet.Operations, func(x core.Operation) bool { return x.ID == id }) {
			k.fault(Resolves, core.Target{}, "", "operation %s comes after %q", o.ID, id)
		}
	}
	k.checkCautions(core.Target{}, o.Cautions)
}

// checkReferences follows the sheet's sets, rules, register and steps to what they name.
func (k *kit) checkReferences() {
	for _, s := range k.sheet.Sets {
		for _, m := range s.Members {
			k.knownTarget("set "+s.ID, m, false)
		}
		if s.SameKind == (s.AgreeOn != "") {
			k.fault(Sane, core.Target{}, "", "set %s is either of one kind or agrees on a key", s.ID)
		}
	}
	for _, n := range k.sheet.NoReuse {
		t := core.Target{Part: n.Part}
		if n.Source == "" {
			k.fault(Sourced, t, n.Check, "rule %s has no source", n.ID)
		}
		if p := k.sheet.Part(n.Part); p == nil || n.Check != "" && p.Check(n.Check) == nil {
			k.fault(Resolves, t, n.Check, "rule %s names what is not there", n.ID)
		}
		if len(n.Allowed) == 0 || slices.Contains(n.Allowed, core.Reuse) {
			k.fault(NoReuse, t, n.Check, "rule %s allows %v", n.ID, n.Allowed)
		}
	}
	for _, h := range k.sheet.Hidden {
		if !(h.Chance >= 0 && h.Chance <= 1) {
			k.fault(Chances, core.Target{}, "", "register entry %s has a chance of %v", h.ID, h.Chance)
		}
		for _, m := range h.Parts {
			k.knownTarget("register entry "+h.ID, m, true)
		}
		for _, id := range h.Operations {
			if !slices.ContainsFunc(k.sheet.Operations, func(o core.Operation) bool { return o.ID == id }) {
				k.fault(Resolves, core.Target{}, "", "register entry %s names operation %q", h.ID, id)
			}
		}
	}
	for _, st := range k.sheet.Steps {
		if !ordered(st.StripHours) || !ordered(st.RefitHours) {
			k.fault(Sane, core.Target{}, "", "step %s: hours %v and %v", st.ID, st.StripHours, st.RefitHours)
		}
		for _, id := range slices.Concat(append([][]string{st.AllOf}, st.AnyOf...)...) {
			k.ownStep(core.Target{}, id)
		}
		k.checkCautions(core.Target{}, st.Cautions)
	}
}

// knownTarget wants a target of the sheet; anyPosition lets a part with positions stand for all of them.
func (k *kit) knownTarget(what string, t core.Target, anyPosition bool) {
	p := k.sheet.Part(t.Part)
	if p == nil || !slices.Contains(p.Targets(), t) && !(anyPosition && t.Position == "") {
		k.fault(Resolves, t, "", "%s names what is not there", what)
	}
}

// ownStep wants a bench step of this subsystem to be in its sheet; the vehicle's steps are the strip plan's to know.
func (k *kit) ownStep(t core.Target, id string) {
	own := strings.HasPrefix(id, k.sheet.Subsystem+":")
	if own && !slices.ContainsFunc(k.sheet.Steps, func(s core.Step) bool { return s.ID == id }) {
		k.fault(Resolves, t, "", "bench step %q is not in the sheet", id)
	}
}

func (k *kit) checkCautions(t core.Target, cs []core.Caution) {
	for _, c := range cs {
		if c.Text == "" || c.Source == "" {
			k.fault(Sourced, t, "", "a caution without text or source: %q", c.Text)
		}
		if c.Part != "" && k.sheet.Part(c.Part) == nil {
			k.fault(Resolves, t, "", "a caution names part %q", c.Part)
		}
		k.ownStep(t, c.Step)
	}
}

// uniqueIDs wants ids that are there and differ.
func uniqueIDs[T any](k *kit, t core.Target, noun string, things []T, id func(T) string) {
	seen := map[string]bool{}
	for _, x := range things {
		switch s := id(x); {
		case s == "":
			k.fault(Resolves, t, "", "a %s without a name", noun)
		case seen[s]:
			k.fault(Resolves, t, "", "two of %s %q", noun, s)
		default:
			seen[s] = true
		}
	}
}

func ordered(r core.Range3) bool {
	return r.Low >= 0 && r.Low <= r.Likely && r.Likely <= r.High && !math.IsInf(r.High, 0)
}
