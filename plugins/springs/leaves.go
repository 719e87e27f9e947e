package springs

import (
	"fmt"
	"slices"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

// leaves pays for each bad leaf, and tells what the leaves as they are do to the rate.
func leaves(b *sdk.Bench) {
	for _, a := range axles {
		for _, position := range []string{a.left, a.right} {
			pack := core.Target{Part: "leaves", Position: position}
			bad := counted(b, pack, "broken", "short", "hole-cracks")
			payLeaves(b, pack, bad)
			tellRate(b, a, pack)
		}
	}
}

// counted adds counts up; what is not read counts as none.
func counted(b *sdk.Bench, t core.Target, checks ...string) (n int) {
	for _, c := range checks {
		if q, _, ok := b.Reading(t, c, ""); ok {
			n += int(q.Value)
		}
	}
	return n
}

// payLeaves lets the remedy that makes leaves new pay for as many as are bad: the sheet's operation is for one.
func payLeaves(b *sdk.Bench, pack core.Target, bad int) {
	r := b.Remedy(pack, "new-leaves")
	if r == nil || bad < 2 {
		return
	}
	one := b.Operation("new-leaf", pack.Position)
	r.Operations = slices.Clone(r.Operations)
	for i, id := range r.Operations {
		if id == one {
			r.Operations[i] = b.Each("new-leaf", pack.Position, bad)
		}
	}
	r.Name = fmt.Sprintf("%d bad leaves made new to the arc of the set", bad)
}

// tellRate works out what worn, broken and missing leaves leave of the rate, where the sizes are known, and asks for the press where
// that is under the limit and nobody has pressed the spring.
func tellRate(b *sdk.Bench, a axle, pack core.Target) {
	thickness, thinID, thin := b.Reading(pack, "thickness", "")
	gone := counted(b, pack, "broken", "short")
	if !thin && gone == 0 {
		return
	}
	s, ok := sound(b, a)
	if !ok || gone > s.Leaves {
		return
	}
	t := s.Thickness
	if thin {
		t = thickness.Value
	}
	effect := s.With(s.Leaves-gone, t)
	spring := core.Target{Part: "spring", Position: pack.Position}
	b.AddFact(spring, core.Fact{Name: "rate-by-leaves", Source: "8 E n b t^3 / (3 L^3), as if every leaf were as the thinnest (common practice, no source)",
		Value: core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: effect.Rate, Unit: "lbf/in"}}})
	if _, pressed := b.Derived(spring, "rate"); pressed || core.LessOrEqual(-.10, effect.Share) {
		return
	}
	b.Problem(core.Problem{Severity: core.SeverityWarning, Target: spring, Check: "rate", FindingID: thinID,
		Summary: fmt.Sprintf("by its leaves spring %s has lost more than a tenth of its rate: %s", pack.Position, effect.Words()),
		Next:    "press it at two loads before it is re-set: thin leaves take a set again"})
}

// sound is a spring of an axle as new; ok is false where a size is not known. Sizes are inches.
func sound(b *sdk.Bench, a axle) (s sdk.LeafSpring, ok bool) {
	n, counted := b.Fact(a.leaves)
	s.Leaves, ok = n.Count, counted
	for _, f := range []struct {
		name string
		to   *float64
	}{{"b_leaf", &s.Width}, {"t", &s.Thickness}, {a.length, &s.Length}} {
		v, known := b.Fact(f.name)
		q, err := v.Quantity.In("in")
		if !known || err != nil {
			return s, false
		}
		*f.to = q.Value
	}
	return s, ok
}
