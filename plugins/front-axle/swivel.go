package frontaxle

import (
	"fmt"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
	"github.com/fettle-tools/fettle/plugins/finaldrive"
)

const (
	// pressed is how much thinner than its gap the pack of a swivel cover is, in inches (TM 5-3825-226-24).
	pressed = .004
	// step is the shim that a rolling torque out of limits is changed by at a time, in inches (common practice, no source).
	step = .003
)

// usual are the shims taken where the fact shim_sizes does not list others (common practice, no source).
var usual = []sdk.Shim{{Thickness: .003, Count: -1}, {Thickness: .005, Count: -1}, {Thickness: .010, Count: -1}}

var conventions = map[string]sdk.ShimConvention{"": sdk.ThickerIsLooser, "thicker-is-looser": sdk.ThickerIsLooser, "thicker-is-tighter": sdk.ThickerIsTighter}

// swivel works out the pack under one cover, and which way a rolling torque out of limits is brought right: too high adds
// shim, too low takes it out (TM 5-3825-226-24, where a thicker pack is looser).
func swivel(b *sdk.Bench, side string) {
	bearings := core.Target{Part: "swivel-bearings", Position: side}
	joint := sdk.ShimJoint{Name: side + " swivel cover", Convention: conventions[convention(b)]}
	if l, ok := b.Limit(bearings, "rolling-torque"); ok && l.NewLow != nil && l.NewHigh != nil {
		joint.Proof = fmt.Sprintf("rolling torque %s to %s lbf-in, seal and link off", core.FormatNumber(*l.NewLow), core.FormatNumber(*l.NewHigh))
		torque(b, bearings, joint, l)
	}
	coverPack(b, core.Target{Part: "upper-pack", Position: side}, joint)
}

func convention(b *sdk.Bench) string {
	v, _ := b.Fact("swivel_pack")
	return v.Word
}

func torque(b *sdk.Bench, bearings core.Target, joint sdk.ShimJoint, l core.Limit) {
	q, id, ok := b.Reading(bearings, "rolling-torque", "")
	r := b.Remedy(bearings, "re-shim")
	if !ok || r == nil || core.LessOrEqual(*l.NewLow, q.Value) && core.LessOrEqual(q.Value, *l.NewHigh) {
		return
	}
	add := (q.Value > *l.NewHigh) == (joint.Convention == sdk.ThickerIsLooser)
	way := "take shim out"
	if add {
		way = "add shim"
	}
	r.Why = append(r.Why, core.Reason{Text: fmt.Sprintf("rolling torque %s lbf-in: %s, %s in at a time; %s; prove it: %s", core.FormatNumber(q.Value), way, core.FormatNumber(step), joint.Convention, joint.Proof),
		FindingIDs: []string{id}, Check: "rolling-torque", Source: "TM 5-3825-226-24"})
}

// coverPack is the mean gap of the cover fitted without shims, less what presses the bearings together.
func coverPack(b *sdk.Bench, t core.Target, joint sdk.ShimJoint) {
	first, firstID, ok1 := b.Reading(t, "cover-gap", "A")
	second, secondID, ok2 := b.Reading(t, "cover-gap", "B")
	if !ok1 || !ok2 {
		return
	}
	if joint.Convention == "" {
		b.Problem(core.Problem{Severity: core.SeverityWarning, Target: t, Check: "cover-gap", FindingID: firstID, Summary: "it is not known which way the pack of the " + joint.Name + " works",
			Next: "give the fact swivel_pack: thicker-is-looser or thicker-is-tighter"})
		return
	}
	if joint.Convention != sdk.ThickerIsLooser {
		b.Problem(core.Problem{Severity: core.SeverityWarning, Target: t, Check: "cover-gap", FindingID: firstID, Summary: "the gap of a cover says nothing of a pack where thicker is tighter",
			Next: "set this swivel by its rolling torque, " + core.FormatNumber(step) + " in at a time"})
		return
	}
	mean := (first.Value + second.Value) / 2
	wanted, err := joint.Wanted(0, -mean, -pressed)
	shims := finaldrive.Shims(b)
	if len(shims) == 0 {
		shims = usual
	}
	var pack sdk.ShimPack
	if err == nil {
		pack, err = joint.Pack(wanted, shims)
	}
	if err != nil {
		b.Problem(core.Problem{Severity: core.SeverityWarning, Target: t, Check: "cover-gap", FindingID: firstID, Summary: err.Error(), Next: core.ErrorNext(err)})
		return
	}
	words := fmt.Sprintf("mean gap %s less %s: %s; %s", core.FormatNumber(mean), core.FormatNumber(pressed), pack.Words, pack.Meaning)
	b.AddFact(t, core.Fact{Name: "pack-to-fit", Source: words, Value: core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: pack.Total, Unit: "in"}}})
	why := core.Reason{Text: words, FindingIDs: []string{firstID, secondID}, Check: "cover-gap", Source: "TM 5-3825-226-24"}
	if r := b.Remedy(t, "new-pack"); r != nil {
		r.Name, r.Why = "A pack made up anew: "+words, append(r.Why, why)
	}
	c := b.Condition(t)
	c.Reasons = append(c.Reasons, why)
}
