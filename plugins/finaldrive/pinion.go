package finaldrive

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

// preloadWanted is the preload of the pinion bearings, as negative end float in inches, that a trial pack is changed for
// (common practice, no source); the rolling torque proves it.
const preloadWanted = .0015

// conventions are the words of the facts that say which way a pack or a mark works.
var (
	conventions = map[string]sdk.ShimConvention{"thicker-is-looser": sdk.ThickerIsLooser, "thicker-is-tighter": sdk.ThickerIsTighter}
	markWords   = map[string]sdk.PinionMark{"minus-sits-closer": sdk.MinusSitsCloser, "plus-sits-closer": sdk.PlusSitsCloser}
)

// depth works the pack behind a new pinion's head out from the marks of both pinions (common practice, no source).
func depth(b *sdk.Bench) {
	pack, packID, ok1 := b.Reading(depthPack, "thickness", "")
	old, oldID, ok2 := b.Reading(depthPack, "old-mark", "")
	next, nextID, ok3 := b.Reading(depthPack, "new-mark", "")
	if !ok1 || !ok2 || !ok3 {
		return
	}
	mark := markWords[word(b, "pinion_mark")]
	fit, err := sdk.PinionPack(pack.Value, old.Value, next.Value, mark)
	if err != nil {
		b.Problem(core.Problem{Severity: core.SeverityWarning, Target: depthPack, Check: "new-mark", FindingID: nextID,
			Summary: "pinion depth cannot be worked out: " + err.Error(), Next: "give the fact pinion_mark: minus-sits-closer or plus-sits-closer, by the maker's book"})
		return
	}
	words := fmt.Sprintf("pack %s, old mark %s, new mark %s (%s): pack %s behind the head; the contact pattern proves it",
		core.FormatNumber(pack.Value), core.FormatNumber(old.Value), core.FormatNumber(next.Value), mark, core.FormatNumber(round(fit)))
	b.AddFact(depthPack, core.Fact{Name: "pack-to-fit", Value: inches(fit), Source: words})
	explain(b, depthPack, words, packID, oldID, nextID)
}

// preload works the pack between the pinion bearings out from a trial build (common practice, no source).
func preload(b *sdk.Bench) {
	pack, packID, ok1 := b.Reading(preloadPack, "trial-pack", "")
	float, floatID, ok2 := b.Reading(preloadPack, "trial-float", "")
	if !ok1 || !ok2 {
		return
	}
	joint := sdk.ShimJoint{Name: "pack between the pinion bearings", Convention: conventions[word(b, "preload_pack")], Proof: torqueWords(b)}
	fit, err := joint.Wanted(pack.Value, float.Value, -preloadWanted)
	if err != nil {
		b.Problem(core.Problem{Severity: core.SeverityWarning, Target: preloadPack, Check: "trial-float", FindingID: floatID,
			Summary: err.Error(), Next: "give the fact preload_pack: thicker-is-looser or thicker-is-tighter"})
		return
	}
	words := fmt.Sprintf("trial pack %s gave %s end float, wanted is %s preload: pack %s; %s; prove it: %s", core.FormatNumber(pack.Value), core.FormatNumber(float.Value),
		core.FormatNumber(preloadWanted), core.FormatNumber(round(fit)), joint.Convention, joint.Proof)
	if shims := Shims(b); len(shims) > 0 {
		made, err := joint.Pack(fit, shims)
		if err != nil {
			b.Problem(core.Problem{Severity: core.SeverityWarning, Target: preloadPack, Check: "trial-pack", FindingID: packID, Summary: err.Error(), Next: core.ErrorNext(err)})
		} else {
			words += "; " + made.Words
		}
	}
	b.AddFact(preloadPack, core.Fact{Name: "pack-to-fit", Value: inches(fit), Source: words})
	explain(b, preloadPack, words, packID, floatID)
}

// rollingTorque says to what a pinion is set. The figure as found judges old bearings; the floor for those that are
// shimmed again is another one (common practice, no source).
func rollingTorque(b *sdk.Bench) {
	for _, id := range []string{"re-shim", "new-bearings"} {
		if r := b.Remedy(pinionBearings, id); r != nil {
			r.Why = append(r.Why, core.Reason{Text: "set without the seal: " + torqueWords(b), Check: "rolling-torque-set", Source: common})
		}
	}
}

// torqueWords are the rolling torques of the pinion, and what the pull scale shows for them if the flange's radius is known.
func torqueWords(b *sdk.Bench) string {
	var parts []string
	for _, c := range []struct{ check, name string }{{"rolling-torque-set", "new bearings"}, {"rolling-torque-used", "used ones shimmed again"}} {
		l, ok := b.Limit(pinionBearings, c.check)
		if !ok || l.NewLow == nil || l.NewHigh == nil {
			continue
		}
		text := fmt.Sprintf("%s %s to %s lbf-in", c.name, core.FormatNumber(*l.NewLow), core.FormatNumber(*l.NewHigh))
		if v, ok := b.Fact("flange_radius"); ok {
			if r, err := v.Quantity.In("in"); err == nil && r.Value > 0 {
				text += fmt.Sprintf(" (%s to %s lbf on the scale at %s in)", core.FormatNumber(round(*l.NewLow/r.Value)), core.FormatNumber(round(*l.NewHigh/r.Value)), core.FormatNumber(r.Value))
			}
		}
		parts = append(parts, text)
	}
	return strings.Join(parts, ", ")
}

// explain puts what was worked out for a pack where people look for it.
func explain(b *sdk.Bench, t core.Target, words string, ids ...string) {
	why := core.Reason{Text: words, FindingIDs: ids, Check: "thickness", Source: common}
	if r := b.Remedy(t, "new-pack"); r != nil {
		r.Name, r.Why = "A pack made up anew: "+words, append(r.Why, why)
	}
	c := b.Condition(t)
	c.Reasons = append(c.Reasons, why)
}

func word(b *sdk.Bench, fact string) string {
	v, _ := b.Fact(fact)
	return strings.TrimSpace(v.Word)
}

// Shims lists the shims to be had by the fact shim_sizes, as many as are needed of each; none without the fact.
func Shims(b *sdk.Bench) (shims []sdk.Shim) {
	for _, w := range strings.Fields(strings.NewReplacer(",", " ", ";", " ", "in", " ").Replace(word(b, "shim_sizes"))) {
		if x, err := strconv.ParseFloat(w, 64); err == nil && x > 0 {
			shims = append(shims, sdk.Shim{Thickness: x, Count: -1})
		}
	}
	return shims
}
