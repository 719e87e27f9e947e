package bottomend

import (
	"fmt"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

// oversize is the usual oversize of a thrust washer, in inches, where the fact thrust_sizes does not list what is to be had
// (common practice, no source).
const oversize = .005

var washers = []core.Target{{Part: "thrust-washer", Position: "front"}, {Part: "thrust-washer", Position: "rear"}}

// thrustRules chooses a pair of washers for an end float out of limits: what was found, less what each new washer is
// thicker than the old one. If no pair to be had fits, the thrust face is machined first (common practice, no source).
func thrustRules(b *sdk.Bench) {
	if !condemned(b, crankshaft, "end-float") {
		return
	}
	found, id, _ := b.Reading(crankshaft, "end-float", "")
	for _, t := range washers {
		b.Close(t, "reuse", core.Reason{Text: fmt.Sprintf("end float %s is out of its limits: the washers are chosen anew", inches(found.Value)), FindingIDs: []string{id}, Check: "thickness", Source: common})
	}
	l, _ := b.Limit(crankshaft, "end-float")
	front, frontID, ok1 := b.Reading(washers[0], "thickness", "")
	rear, rearID, ok2 := b.Reading(washers[1], "thickness", "")
	stock := washerSizes(b)
	if !ok1 || !ok2 || len(stock) == 0 || l.NewLow == nil || l.NewHigh == nil {
		b.Problem(core.Problem{Severity: core.SeverityNote, Target: crankshaft, Check: "end-float", FindingID: id,
			Summary: "the washers for this end float cannot be chosen yet", Next: "measure the old washers front and rear, and give the thickness of a standard one (fact T_thrust)"})
		return
	}
	pairs, fits := sdk.ThrustFloat{Found: found.Value, Old: [2]float64{front.Value, rear.Value}, Sizes: stock, Low: *l.NewLow, High: *l.NewHigh}.Pairs()
	ids := []string{id, frontID, rearID}
	if !fits {
		machineFace(b, pairs[0], ids)
		return
	}
	chosen := pairs[0]
	name := fmt.Sprintf("Thrust washers %s and %s: end float %s", inches(chosen.Thin), inches(chosen.Thick), inches(chosen.Float))
	why := core.Reason{Text: chosen.Words(), FindingIDs: ids, Check: "end-float", Source: common}
	for _, r := range thrustRemedies(b) {
		r.Why = append(r.Why, why)
		r.Yields = append(r.Yields, core.Yield{Key: "thrust-pair", Value: core.FormatNumber(chosen.Thin) + " and " + core.FormatNumber(chosen.Thick)})
		if r.ID != "true-up" {
			r.Name = name
		}
	}
	b.AddFact(crankshaft, core.Fact{Name: "end-float-after", Source: chosen.Words(), Value: core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: chosen.Float, Unit: "in"}}})
	c := b.Condition(crankshaft)
	c.Reasons = append(c.Reasons, why)
}

// thrustRemedies are the remedies that fit washers, as they stand now.
func thrustRemedies(b *sdk.Bench) []*core.Remedy {
	var rs []*core.Remedy
	for _, ref := range []core.RemedyRef{{Target: crankshaft, Remedy: "thrust-washers"}, {Target: crankshaft, Remedy: "true-up"},
		{Target: washers[0], Remedy: "new-washers"}, {Target: washers[1], Remedy: "new-washers"}} {
		if r := b.Remedy(ref.Target, ref.Remedy); r != nil {
			rs = append(rs, r)
		}
	}
	return rs
}

// machineFace adds machining the thrust face to what fits washers: no pair to be had brings the float right.
func machineFace(b *sdk.Bench, nearest sdk.ThrustPair, ids []string) {
	why := core.Reason{Text: "no pair of washers to be had brings the end float right, the nearest: " + nearest.Words() + "; the thrust face is worn and is machined first",
		FindingIDs: ids, Check: "end-float", Source: common}
	for _, r := range thrustRemedies(b) {
		r.Why = append(r.Why, why)
		if r.Target == crankshaft {
			r.Name = "Thrust face machined, then washers to the end float"
			r.Operations = append(r.Operations, b.Operation("machine-thrust-face", ""))
		}
	}
	b.Problem(core.Problem{Severity: core.SeverityWarning, Target: crankshaft, Check: "end-float", FindingID: ids[0],
		Summary: "no pair of thrust washers to be had fits this end float", Detail: nearest.Words(), Next: "have the thrust face measured: a new pair only after machining"})
}

// washerSizes lists the thicknesses to be had: the fact thrust_sizes, else standard and one oversize; none without a nominal.
func washerSizes(b *sdk.Bench) []float64 {
	if v, ok := b.Fact("thrust_sizes"); ok && v.Kind == core.ValueWord {
		return sizes(v.Word)
	}
	v, ok := b.Fact("T_thrust")
	if !ok {
		return nil
	}
	q, err := v.Quantity.In("in")
	if err != nil {
		return nil
	}
	return []float64{q.Value, q.Value + oversize}
}
