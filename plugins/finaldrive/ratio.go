package finaldrive

import (
	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

var (
	axleRatio = core.Target{Part: "axle-ratio"} // of the rear axle's sheet, with the count of the other end beside it
	frontPair = core.Target{Part: "front-pair"}
)

// toothRatio is the check that counts the teeth of a pair.
const toothRatio = "tooth-ratio"

// PrepareRatio gives the difference of two ratios from their tooth counts: 4.778 and 43/9 are one ratio.
func PrepareRatio(p *sdk.Prepare) {
	rear, rearID, ok1 := p.Reading(pair, toothRatio, "")
	front, frontID, ok2 := p.Reading(frontPair, toothRatio, "")
	_, _, typed := p.Reading(axleRatio, "ratio-difference", "")
	if !ok1 || !ok2 || typed {
		return
	}
	r, ok1 := sdk.FindAxleRatio(rear.Value)
	f, ok2 := sdk.FindAxleRatio(front.Value)
	if ok1 && ok2 {
		p.Supply(axleRatio, "ratio-difference", core.Quantity{Value: r.Apart(f), Unit: "%"}, rearID, frontID)
	}
}

// ratio lets the pair yield its ratio, so that a vehicle's pack can ask both axles for one (common practice, no source).
func ratio(b *sdk.Bench) {
	proper, known := nominal(b)
	own := proper
	q, id, read := b.Reading(pair, toothRatio, "")
	if read {
		if r, ok := sdk.FindAxleRatio(q.Value); ok {
			own = r
		}
	}
	if own == (sdk.AxleRatio{}) {
		return
	}
	if !known {
		proper = own
	}
	yield(b, "reuse", own)
	yield(b, "reset", own)
	yield(b, "new-pair", proper)
	if read && own.Apart(proper) > 0 {
		b.Problem(core.Problem{Severity: core.SeverityWarning, Target: pair, Check: toothRatio, FindingID: id,
			Summary: "the pair in this axle is " + own.String() + ", not the " + proper.String() + " that belongs in it",
			Next:    "read casting and pair numbers: it is a pair of another model, and the other axle has to have the same ratio"})
	}
	matched(b, own, proper, known)
}

func yield(b *sdk.Bench, remedy string, r sdk.AxleRatio) {
	if m := b.Remedy(pair, remedy); m != nil {
		m.Yields = append(m.Yields, core.Yield{Key: "ratio", Value: r.String()})
	}
}

// matched says which of two axles of different ratio is the odd one. If it is this, its pair does not go back.
func matched(b *sdk.Bench, own, proper sdk.AxleRatio, known bool) {
	if b.Condition(axleRatio) == nil {
		return
	}
	d, ok := b.Derived(axleRatio, "ratio-difference")
	if !ok || d.Value <= 0 {
		return
	}
	_, id, _ := b.Reading(frontPair, toothRatio, "")
	ids := []string{}
	if id != "" {
		ids = append(ids, id)
	}
	p := core.Problem{Severity: core.SeverityWarning, Target: axleRatio, Check: "ratio-difference", FindingID: id,
		Summary: "front and rear axle differ by " + core.FormatNumber(round(d.Value)) + " %: four-wheel drive is not engaged until they are matched"}
	switch {
	case !known:
		p.Next = "say which ratio belongs in the vehicle (facts crown_teeth and pinion_teeth), then change the other pair"
	case own.Apart(proper) > 0:
		p.Next = "change the rear pair to " + proper.String()
		why := core.Reason{Text: "this pair is " + own.String() + " and the axles have to have one ratio, " + proper.String(), FindingIDs: ids, Check: "ratio-difference", Rule: "N21", Source: common}
		b.Close(pair, "reuse", why)
		b.Close(pair, "reset", why)
		for _, g := range gears {
			b.Close(g, "reuse", why)
		}
	default:
		p.Next = "this pair is the right one: change the front pair to " + proper.String()
	}
	b.Problem(p)
}

// nominal is the ratio that belongs in the axle.
func nominal(b *sdk.Bench) (sdk.AxleRatio, bool) {
	crown, ok1 := b.Fact("crown_teeth")
	pinion, ok2 := b.Fact("pinion_teeth")
	if !ok1 || !ok2 || crown.Count <= 0 || pinion.Count <= 0 {
		return sdk.AxleRatio{}, false
	}
	return sdk.AxleRatio{Crown: crown.Count, Pinion: pinion.Count}, true
}
