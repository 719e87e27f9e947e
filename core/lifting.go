package core

import "math"

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
			p.Lost = ReadingNames(aboutToBeLost(s.step, s.unit, b.sheets, b.req.Findings))
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

// Sling angles are from the horizontal. Ratings are not tabulated under 30 degrees (OSHA guidance on safe sling use), and under 45 a sling
// is better made longer (common practice, no source). A leg within 5 degrees of upright counts as upright (29 CFR 1910.184, angle of loading).
const (
	LeastSlingAngle  = 30.0
	WarnedSlingAngle = 45.0
	uprightWithin    = 5.0
)

// LegTension is the tension of each leg of a sling of two that carries a load at an angle in degrees from the horizontal: W / (2 sin a)
// (statics), in the load's unit. A load that may hang lop-sided is sized for its whole weight on one leg: W / sin a. Errors: Invalid under
// LeastSlingAngle or over 90.
func LegTension(load, angle float64, lopSided bool) (float64, error) {
	if angle < LeastSlingAngle || angle > 90 {
		return 0, Errorf(Invalid, "use longer slings or a beam: 45 degrees or steeper", "a sling leg at %s degrees from the horizontal is refused", FormatNumber(angle))
	}
	if angle >= 90-uprightWithin {
		angle = 90
	}
	t := load / math.Sin(angle*math.Pi/180)
	if !lopSided {
		t /= 2
	}
	return t, nil
}

// BridleRating is what a bridle of equal legs may carry: legs x limit x sin a, four legs rated as three (OSHA guidance on safe sling use).
func BridleRating(limit float64, legs int, angle float64) (float64, error) {
	one, err := LegTension(1, angle, true)
	if err != nil {
		return 0, err
	}
	return float64(min(legs, 3)) * limit / one, nil
}

// CastorLoad is what each of four castors must carry when only three touch: 1.25 W / 3 (common practice, no source).
func CastorLoad(load float64) float64 { return 1.25 * load / 3 }

// hoistFactor is how much more than the load a hoist is rated for (common practice, no source).
const hoistFactor = 2

// lift gives the figures for a load by its weight in the packs; nil without a weight: "weight unknown, weigh it".
func (b *bench) lift(load string) *Lift {
	w := b.weight(load)
	if w == nil {
		return nil
	}
	whole := func(v float64) Quantity { return Quantity{Value: math.Round(v), Unit: w.Weight.Unit} }
	leg := func(angle float64, lopSided bool) Quantity {
		t, _ := LegTension(w.Weight.Value, angle, lopSided) // 60 and 45 are never refused
		return whole(t)
	}
	return &Lift{Weight: w.Weight, Source: w.Source, Leg60: leg(60, false), Leg45: leg(45, false), LopSided45: leg(45, true),
		CastorEach: whole(CastorLoad(w.Weight.Value)), HoistAtLeast: whole(hoistFactor * w.Weight.Value)}
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
