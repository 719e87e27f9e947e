package hubswheels

import (
	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

// floatWanted is the end float to aim at, in inches, within what is allowed (common practice, no source).
const floatWanted = .003

// float says how far to turn a hub's nut for the float found, where its thread and its lock positions are known.
func float(b *sdk.Bench, position string) {
	t := core.Target{Part: "hub-bearing", Position: position}
	found, id, read := b.Reading(t, "end-float", "")
	l, limited := b.Limit(t, "end-float")
	threads, known := b.Fact("nut_threads")
	v, given := b.Fact("nut_lock_step")
	step, ok := sized(v, given, "deg")
	adjust := b.Remedy(t, "adjust")
	if !read || !limited || l.NewLow == nil || l.NewHigh == nil || !known || !ok || adjust == nil || !adjust.Feasible {
		return
	}
	nut := sdk.HubNut{Threads: float64(threads.Count), LockStep: step, Low: *l.NewLow, High: *l.NewHigh}
	if core.LessOrEqual(nut.Low, floatWanted) && core.LessOrEqual(floatWanted, nut.High) {
		nut.Want = floatWanted
	}
	if core.LessOrEqual(nut.Low, found.Value) && core.LessOrEqual(found.Value, nut.High) {
		return // nothing to turn
	}
	setting, err := nut.Set(found.Value)
	if err != nil {
		b.Problem(core.Problem{Severity: core.SeverityWarning, Target: t, Check: "end-float", FindingID: id, Summary: "hub " + position + ": " + err.Error(), Next: core.ErrorNext(err)})
		return
	}
	adjust.Why = append(adjust.Why, core.Reason{Text: setting.Words(), FindingIDs: []string{id}, Check: "end-float", Source: common})
	b.AddFact(t, core.Fact{Name: "nut-turn", Source: "(found - wanted) x threads x 360 (" + common + ")",
		Value: core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: setting.Exact, Unit: "deg"}}})
	if setting.Chosen == nil {
		b.Problem(core.Problem{Severity: core.SeverityNote, Target: t, Check: "end-float", FindingID: id, Summary: "hub " + position + ": " + setting.Words(),
			Next: "have a lock washer of other tabs at hand before the hub is closed"})
	}
}
