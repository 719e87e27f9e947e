package brakes

import (
	"math"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

// readings is what both looks of a rule give.
type readings interface {
	Reading(t core.Target, check, station string) (core.Quantity, string, bool)
}

// largest is the largest of a check's readings at its stations; all is false if some were not taken.
func largest(r readings, s *core.Sheet, t core.Target, check string) (q core.Quantity, ids []string, all bool) {
	c := s.Check(t.Part, check)
	if c == nil {
		return q, nil, false
	}
	all = true
	for _, st := range c.Stations {
		x, id, ok := r.Reading(t, check, st)
		if !ok {
			all = false
			continue
		}
		if len(ids) == 0 || x.Value > q.Value {
			q = x
		}
		ids = append(ids, id)
	}
	return q, ids, all && len(ids) > 0
}

// acrossTheAxle gives the difference of an axle's drums from the drums' own readings, unless it was given by itself.
func acrossTheAxle(p *sdk.Prepare) {
	for _, a := range axles {
		if a.difference(p) {
			continue
		}
		left, leftIDs, ok1 := largest(p, p.Sheet, a.left, "max-diameter")
		right, rightIDs, ok2 := largest(p, p.Sheet, a.right, "max-diameter")
		if ok1 && ok2 {
			q := core.Quantity{Value: math.Abs(left.Value - right.Value), Unit: left.Unit, Bound: math.Hypot(left.Bound, right.Bound)}
			p.Supply(a.pair, "difference", q, append(leftIDs, rightIDs...)...)
		}
	}
}

// difference reports that the difference across the axle was recorded as such.
func (a axle) difference(p *sdk.Prepare) bool {
	for _, st := range []string{"", "left", "right"} {
		if _, _, ok := p.Reading(a.pair, "difference", st); ok {
			return true
		}
	}
	return false
}

// bonded judges a bonded lining where no riveted one was read: the same question, by its own limit.
func bonded(p *sdk.Prepare) {
	for _, t := range p.Sheet.Part("shoe").Targets() {
		if _, ids, _ := largest(p, p.Sheet, t, "lining"); len(ids) > 0 {
			continue
		}
		q, ids, all := thinnest(p, p.Sheet, t)
		if l, ok := p.Limit(t, "lining-bonded"); ok && all {
			p.SetLimit(t, "lining", l)
			p.Supply(t, "lining", q, ids...)
		}
	}
}

// thinnest is the least bonded lining of a wheel's shoes.
func thinnest(r readings, s *core.Sheet, t core.Target) (q core.Quantity, ids []string, all bool) {
	all = true
	for _, st := range s.Check(t.Part, "lining-bonded").Stations {
		x, id, ok := r.Reading(t, "lining-bonded", st)
		if !ok {
			all = false
			continue
		}
		if len(ids) == 0 || x.Value < q.Value {
			q = x
		}
		ids = append(ids, id)
	}
	return q, ids, all && len(ids) > 0
}
