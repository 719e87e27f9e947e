package sdktest

import (
	"fmt"
	"math"
	"slices"

	"github.com/fettle-tools/fettle/core"
)

// checkUnits types every measured and derived check in every unit of its dimension. In one request each finding is in the unit of its
// own turn, so that neighbours stand in different units and a ratio of two of them tells; in the next request all move on by
// one. It does so with everything worn, with everything worn and what has a formula left to be worked out, and with findings of every sort.
func (k *kit) checkUnits() {
	worn := k.worn()
	measured := without(worn, func(f core.Finding) bool {
		c := k.sheet.Check(f.Target.Part, f.Check)
		return c != nil && c.Kind == core.Derived && c.Formula != ""
	})
	for _, base := range [][]core.Finding{worn, measured, k.mixed()} {
		want, ok := k.assess(base)
		if !ok {
			return
		}
		for turn := range mostUnits(base) {
			turned := inTurn(base, turn)
			if got, ok := k.assess(turned); ok {
				k.sameInUnits(want, got)
			}
		}
	}
}

// worn reads every measured and derived check at three tenths of the wear allowed, with an instrument, and all else as new.
func (k *kit) worn() []core.Finding {
	fs := k.asNew()
	for i, f := range fs {
		c := k.sheet.Check(f.Target.Part, f.Check)
		if c.Kind != core.Measured && c.Kind != core.Derived {
			continue
		}
		for _, s := range sidesOf(*c) {
			if x := s.at(.3); s.room() > 0 && valid(*c, x) {
				fs[i] = k.finding(f.Target, f.Check, f.Station, quantity(*c, x, s.room()/50))
				break
			}
		}
	}
	return fs
}

// mostUnits is how many units the richest dimension among the findings has.
func mostUnits(fs []core.Finding) (n int) {
	for _, f := range fs {
		if f.Value.Kind == core.ValueQuantity {
			n = max(n, len(unitsLike(f.Value.Quantity.Unit)))
		}
	}
	return n
}

// inTurn types each quantity in the unit of its turn.
func inTurn(fs []core.Finding, turn int) []core.Finding {
	out := slices.Clone(fs)
	for i, f := range out {
		if f.Value.Kind != core.ValueQuantity {
			continue
		}
		units := unitsLike(f.Value.Quantity.Unit)
		if len(units) == 0 {
			continue
		}
		q, err := f.Value.Quantity.In(units[(i+turn)%len(units)])
		if err != nil {
			continue
		}
		out[i].Value.Quantity = q
		out[i].AsTyped = q.String()
	}
	return out
}

// unitsLike lists the units of a unit's dimension, itself among them.
func unitsLike(unit string) (names []string) {
	u, ok := core.FindUnit(unit)
	if !ok {
		return nil
	}
	for _, n := range core.UnitNames() {
		if o, _ := core.FindUnit(n); o.Dimension == u.Dimension {
			names = append(names, o.Name)
		}
	}
	slices.Sort(names)
	return slices.Compact(names)
}

// sameInUnits compares all that is not words: what is said may echo a reading as it was typed.
func (k *kit) sameInUnits(want, got core.Assessment) {
	for _, c := range want.Conditions {
		d := conditionOf(got, c.Target)
		if d == nil || c.Grade != d.Grade || c.GoverningCheck != d.GoverningCheck || !close(c.Wear, d.Wear) || !close(c.WearU, d.WearU) || !close(c.PPast, d.PPast) {
			k.fault(UnitIsNought, c.Target, c.GoverningCheck, "the condition changed: %s", changed(c, d))
		}
	}
	for _, r := range want.Remedies {
		if s := remedyOf(got, r.Target, r.ID); s == nil || r.Feasible != s.Feasible || !slices.Equal(r.Operations, s.Operations) || !slices.Equal(r.Yields, s.Yields) {
			k.fault(UnitIsNought, r.Target, "", "remedy %q changed", r.ID)
		}
	}
	if !slices.EqualFunc(want.Operations, got.Operations, sameWork) {
		k.fault(UnitIsNought, core.Target{}, "", "the operations changed")
	}
	if !slices.EqualFunc(want.Problems, got.Problems, func(p, q core.Problem) bool {
		return p.Severity == q.Severity && p.Target == q.Target && p.Check == q.Check && p.FindingID == q.FindingID
	}) {
		k.fault(UnitIsNought, core.Target{}, "", "the problems changed: %d became %d", len(want.Problems), len(got.Problems))
	}
}

// changed tells what became of a condition.
func changed(c core.Condition, d *core.Condition) string {
	if d == nil {
		return "it is gone"
	}
	tell := func(c core.Condition) string {
		figure := func(v *float64) string {
			if v == nil {
				return "none"
			}
			return core.FormatNumber(*v)
		}
		return fmt.Sprintf("%s by %q, wear %s +/- %s, past %s", c.Grade, c.GoverningCheck, figure(c.Wear), figure(c.WearU), figure(c.PPast))
	}
	return tell(c) + " became " + tell(*d)
}

func sameWork(a, b core.Operation) bool {
	return a.ID == b.ID && a.ServedPer == b.ServedPer && near(a.Hours, b.Hours) && a.Outwork == b.Outwork && near(a.LeadWeeks, b.LeadWeeks) &&
		slices.Equal(a.Includes, b.Includes) && slices.Equal(a.After, b.After) && slices.EqualFunc(a.Items, b.Items, func(x, y core.Item) bool {
		return x.Key == y.Key && x.Count == y.Count && x.TypicalEach == y.TypicalEach
	})
}

func near(a, b core.Range3) bool {
	return close(&a.Low, &b.Low) && close(&a.Likely, &b.Likely) && close(&a.High, &b.High)
}

// close compares two figures that may be absent, to what another unit's rounding may do.
func close(a, b *float64) bool {
	if a == nil || b == nil {
		return a == b
	}
	return math.Abs(*a-*b) <= 1e-6*math.Max(1, math.Abs(*a))
}
