package sdktest

import (
	"math"
	"math/rand/v2"
	"slices"

	"github.com/fettle-tools/fettle/core"
)

// checkStray adds findings that no sheet can use, one at a time: each must be named in a problem, none may pass anything.
func (k *kit) checkStray() {
	base := k.asNew()
	clean, ok := k.assess(base)
	if !ok {
		return
	}
	for _, f := range k.strays() {
		a, ok := k.assess(append(slices.Clone(base), f))
		if !ok {
			continue
		}
		if !slices.ContainsFunc(a.Problems, func(p core.Problem) bool { return p.FindingID == f.ID }) {
			k.fault(UsedOrNamed, f.Target, f.Check, "%s cannot be used (%s), and no problem names it", f.Value, f.Note)
		}
		for _, c := range clean.Conditions {
			if g, ok := gradeOf(a, c.Target); ok && g < c.Grade {
				k.fault(UsedOrNamed, c.Target, "", "a finding that cannot be used (%s) bettered it from %s to %s", f.Note, c.Grade, g)
			}
		}
	}
}

// strays lists findings that cannot be used, with why in the note.
func (k *kit) strays() []core.Finding {
	var fs []core.Finding
	add := func(t core.Target, check, station string, v core.Value, why string) {
		f := k.finding(t, check, station, v)
		f.ID, f.Note = f.ID+" stray: "+why, why
		fs = append(fs, f)
	}
	add(core.Target{Part: "no-such-part"}, "no-such-check", "", passes(true), "unknown part")
	seen := map[core.CheckKind]bool{}
	k.each(func(p core.Part, t core.Target, c core.Check) {
		if seen[c.Kind] {
			return
		}
		seen[c.Kind] = true
		v := newValue(c)
		add(core.Target{Part: p.ID, Position: "no-such-position"}, c.ID, stationsOf(c)[0], v, "unknown position")
		add(t, "no-such-check", "", v, "unknown check")
		add(t, c.ID, "no-such-station", v, "unknown station")
		add(t, c.ID, stationsOf(c)[0], wrongKind(c), "value of another kind")
		add(t, c.ID, stationsOf(c)[0], core.Value{}, "blank")
		switch c.Kind {
		case core.Judged:
			add(t, c.ID, stationsOf(c)[0], class(9), "no such class")
		case core.Counted:
			add(t, c.ID, stationsOf(c)[0], core.Value{Kind: core.ValueCount, Count: -1}, "less than none")
		case core.Measured, core.Derived:
			add(t, c.ID, stationsOf(c)[0], quantity(c, math.NaN(), 0), "no number")
			if u, ok := foreignUnit(c.Unit); ok {
				add(t, c.ID, stationsOf(c)[0], core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: 1, Unit: u}}, "unit of another dimension")
			}
		}
	})
	return fs
}

// foreignUnit is some unit of another dimension.
func foreignUnit(unit string) (string, bool) {
	u, ok := core.FindUnit(unit)
	if !ok {
		return "", false
	}
	for _, n := range core.UnitNames() {
		if o, _ := core.FindUnit(n); o.Dimension != u.Dimension && o.Dimension != "count" && o.Dimension != "class" && o.Dimension != "pass" {
			return n, true
		}
	}
	return "", false
}

// checkOrder gives the same findings in other orders, with some that cannot be used among them.
func (k *kit) checkOrder() {
	mixed := append(k.mixed(), k.strays()...)
	want, ok := k.assess(mixed)
	if !ok {
		return
	}
	r := rand.New(rand.NewPCG(7, 7))
	for i := range 4 {
		turned := slices.Clone(mixed)
		if i == 0 {
			slices.Reverse(turned)
		} else {
			r.Shuffle(len(turned), func(a, b int) { turned[a], turned[b] = turned[b], turned[a] })
		}
		if got, ok := k.assess(turned); ok && !same(want, got) {
			k.fault(OrderIsNought, core.Target{}, "", "%s", firstDifference(want, got))
		}
	}
}

// firstDifference names the first condition in which two answers differ.
func firstDifference(a, b core.Assessment) string {
	for i, c := range a.Conditions {
		if i >= len(b.Conditions) {
			break
		}
		if d := b.Conditions[i]; !same(c, d) {
			if c.Target != d.Target || c.Grade != d.Grade {
				return c.Target.String() + " " + c.Grade.String() + " became " + d.Target.String() + " " + d.Grade.String()
			}
			return c.Target.String() + " is told otherwise"
		}
	}
	switch {
	case !same(a.Remedies, b.Remedies):
		return "the remedies differ"
	case !same(a.Operations, b.Operations):
		return "the operations differ"
	case !same(a.Problems, b.Problems):
		return "the problems differ"
	}
	return "the conditions differ"
}
