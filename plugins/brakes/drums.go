package brakes

import (
	"fmt"
	"slices"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

// axle is the two drums that stop together.
type axle struct {
	name              string
	pair, left, right core.Target
	set               string
}

var axles = []axle{
	{"front", core.Target{Part: "drum-pair", Position: "front"}, core.Target{Part: "drum", Position: "LF"}, core.Target{Part: "drum", Position: "RF"}, "M15-front"},
	{"rear", core.Target{Part: "drum-pair", Position: "rear"}, core.Target{Part: "drum", Position: "LR"}, core.Target{Part: "drum", Position: "RR"}, "M15-rear"},
}

// drums closes turning where a drum of the axle cleans up at more than may be turned: the limit binds what comes of
// turning, not the drum as found. Drums too far apart are not used again as they are (common practice, no source).
func (a axle) drums(b *sdk.Bench) {
	rule, ok := drumRule(b, a.left)
	if !ok {
		return
	}
	left, known1 := a.drum(b, rule, a.left)
	right, known2 := a.drum(b, rule, a.right)
	if c := b.Condition(a.pair); c != nil && c.Grade.ClosesReuse(false) {
		a.apart(b)
	}
	if !known1 || !known2 {
		return
	}
	pair := rule.Pair(left, right)
	why := core.Reason{Text: pair.Words(), Check: "max-diameter", Rule: a.set, Source: common}
	for _, t := range []core.Target{a.left, a.right} {
		if !pair.Turn {
			closeTurning(b, t, why)
		} else if r := b.Remedy(t, "turn"); r != nil && r.Feasible {
			r.Why = append(r.Why, why)
		}
	}
	if !pair.Turn && open(b, a.pair, "cut-both") {
		b.Close(a.pair, "cut-both", why)
	}
	if pair.Turn {
		a.linings(b, rule, pair)
	}
}

// drumRule takes the limits that hold for a drum, so that a shop's own or a manual's count here too.
func drumRule(b *sdk.Bench, t core.Target) (sdk.DrumRule, bool) {
	found, ok1 := b.Limit(t, "max-diameter")
	turned, ok2 := b.Limit(t, "diameter-after-turning")
	if !ok1 || !ok2 || found.NewLow == nil || found.WearHigh == nil || turned.WearHigh == nil {
		return sdk.DrumRule{}, false
	}
	r := sdk.LightDrum(*found.NewLow)
	r.Turn, r.Discard = *turned.WearHigh, *found.WearHigh
	return r, true
}

// drum is one drum as found, or as it came back: then nothing is added to what was read. Turning it is closed if it does
// not clean up in time. known is false where nothing of its size was read.
func (a axle) drum(b *sdk.Bench, rule sdk.DrumRule, t core.Target) (d sdk.Drum, known bool) {
	d.Position = t.Position
	if q, ok := b.Derived(t, "diameter-after-turning"); ok {
		d.Max = q.Value - rule.Allowance
		if back := rule.Turned(d); !back.Fits {
			closeTurning(b, t, core.Reason{Text: fmt.Sprintf("back from turning at %.4f in, over %.4f in", back.To, rule.Turn), Check: "diameter-after-turning", Rule: a.set, Source: common})
		}
		return d, true
	}
	q, ids, _ := largest(b, b.Sheet, t, "max-diameter")
	if len(ids) == 0 {
		return d, false
	}
	d.Max = q.Value
	if s, id, ok := b.Reading(t, "score-depth", ""); ok {
		d.Score = s.Value
		ids = append(ids, id)
	}
	to := rule.Turned(d)
	b.AddFact(t, core.Fact{Name: "cleans-up-at", Source: "largest reading + twice the deepest score + .004 (" + common + ")",
		Value: core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: to.To, Unit: "in", Bound: q.Bound}}})
	if !to.Fits {
		closeTurning(b, t, core.Reason{Text: fmt.Sprintf("it cleans up at %.4f in, over the %.4f in that may be turned", to.To, rule.Turn),
			FindingIDs: ids, Check: "diameter-after-turning", Rule: a.set, Source: common})
	}
	return d, true
}

// apart closes use again of drums that differ too much: the larger cut is taken on both, or the pair is replaced.
func (a axle) apart(b *sdk.Bench) {
	for _, t := range []core.Target{a.left, a.right} {
		if open(b, t, "reuse") {
			b.Close(t, "reuse", core.Reason{Text: "the " + a.name + " drums differ by more than they may: the larger cut is taken on both, or the pair is replaced",
				Check: "max-diameter", Rule: a.set, Source: common})
		}
	}
}

// linings says what turned drums ask of the shoes: half of what the diameter grew.
func (a axle) linings(b *sdk.Bench, rule sdk.DrumRule, pair sdk.DrumPair) {
	thicker := rule.LiningGrowth(pair.To)
	if thicker < .015 || !turned(b, a.left) {
		return
	}
	why := core.Reason{Text: fmt.Sprintf("drums turned to %.4f in: linings %.4f in thicker, or shoes radiused to the drum", pair.To, thicker), Check: "lining", Rule: a.set, Source: common}
	for _, at := range []string{a.left.Position, a.right.Position} {
		for _, id := range []string{"reline", "replace-shoes"} {
			if r := b.Remedy(core.Target{Part: "shoe", Position: at}, id); r != nil {
				r.Why = append(r.Why, why)
			}
		}
	}
}

// turned reports that a drum is not used again as it is, and may be turned.
func turned(b *sdk.Bench, t core.Target) bool { return open(b, t, "turn") && !open(b, t, "reuse") }

func closeTurning(b *sdk.Bench, t core.Target, why core.Reason) {
	if open(b, t, "turn") {
		b.Close(t, "turn", why)
	}
}

// open reports that a remedy is feasible now or in one of the states.
func open(b *sdk.Bench, t core.Target, remedy string) bool {
	if r := b.Remedy(t, remedy); r != nil && r.Feasible {
		return true
	}
	c := b.Condition(t)
	return c != nil && slices.ContainsFunc(c.States, func(s core.State) bool { return slices.Contains(s.Remedies, remedy) })
}
