package core

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// plannedSteps lists the steps that the plan opens, in an order in which they can be done, with what each would destroy.
func (b *bench) plannedSteps(d *due) []PlannedStep {
	var out []PlannedStep
	for _, n := range b.inOrder() {
		s := b.access.steps[n]
		if d.stepDue[n] == 0 || s.absent {
			continue
		}
		p := PlannedStep{Step: s.step, Unit: s.unit, Done: s.apart, ServedBy: len(d.stepParts[n])}
		if !s.apart {
			p.Lost = b.aboutToBeLost(s)
		}
		if s.step.Load != "" {
			p.Lift = b.lift(s.step.Load)
		}
		out = append(out, p)
	}
	return out
}

// inOrder sorts the steps so that each comes after what it needs; the plan's own order breaks ties.
func (b *bench) inOrder() []int {
	var out []int
	done := make([]bool, len(b.access.steps))
	var visit func(n, depth int)
	visit = func(n, depth int) {
		if done[n] || depth > maxDepth {
			return
		}
		done[n] = true
		for _, m := range b.access.steps[n].allOf {
			visit(m, depth+1)
		}
		out = append(out, n)
	}
	for n := range b.access.steps {
		visit(n, 0)
	}
	return out
}

// aboutToBeLost names the readings that a step destroys and that nobody has taken.
func (b *bench) aboutToBeLost(s accessStep) []string {
	var lost []string
	for _, id := range s.step.Destroys {
		path := strings.Split(id, "/")
		if len(path) != 3 {
			continue
		}
		for _, us := range b.sheets {
			check := us.Sheet.Check(path[1], path[2])
			if us.Subsystem != path[0] || check == nil {
				continue
			}
			taken := slices.ContainsFunc(b.req.Findings, func(f Finding) bool {
				return f.Subsystem == path[0] && f.Target.Part == path[1] && f.Check == path[2]
			})
			if !taken {
				lost = append(lost, fmt.Sprintf("%s: %s", us.Sheet.Part(path[1]).Name, check.Name))
			}
		}
	}
	return lost
}

// Lifting figures: the tension of each of two sling legs is W / (2 sin a) (statics); a load that may hang lop-sided is sized
// for the whole weight on one leg, W / sin a; a castor carries 1.25 W / 3, since three of four touch (common practice, no source);
// a hoist is rated at twice the load (common practice, no source).

// lift gives the figures for a load by its weight in the packs; nil without a weight: "weight unknown, weigh it".
func (b *bench) lift(load string) *Lift {
	w := b.weight(load)
	if w == nil {
		return nil
	}
	scale := func(k float64) Quantity { return Quantity{Value: math.Round(w.Weight.Value * k), Unit: w.Weight.Unit} }
	leg := func(deg float64) float64 { return 1 / (2 * math.Sin(deg*math.Pi/180)) }
	return &Lift{Weight: w.Weight, Source: w.Source, Leg60: scale(leg(60)), Leg45: scale(leg(45)), LopSided45: scale(2 * leg(45)),
		CastorEach: scale(1.25 / 3), HoistAtLeast: scale(2)}
}

func (b *bench) weight(load string) *Weight {
	for i := range b.req.UnitPacks {
		if w := find(b.req.UnitPacks[i].Weights, func(w Weight) bool { return w.Key == load }); w != nil {
			return w
		}
	}
	if b.req.VehiclePack == nil {
		return nil
	}
	return find(b.req.VehiclePack.Weights, func(w Weight) bool { return w.Key == load })
}
