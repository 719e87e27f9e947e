package electrics

import (
	"fmt"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

var battery = core.Target{Part: "battery"}

// cells are the stations of the battery's gravity.
var cells = []string{"C1", "C2", "C3", "C4", "C5", "C6"}

// gravities are the cells as read; ids are their findings. ok is false until all are read.
func gravities(r interface {
	Reading(t core.Target, check, station string) (core.Quantity, string, bool)
}) (read []core.Quantity, ids []string, ok bool) {
	for _, c := range cells {
		q, id, found := r.Reading(battery, "gravity", c)
		if !found {
			return nil, nil, false
		}
		read, ids = append(read, q), append(ids, id)
	}
	return read, ids, true
}

// correctGravity brings the lowest cell to 77 degF, the temperature its limit is for, where the acid's was read.
func correctGravity(p *sdk.Prepare) {
	read, ids, ok := gravities(p)
	temperature, id, warm := p.Reading(battery, "acid-temperature", "")
	if !ok || !warm {
		return
	}
	lowest := read[0]
	for _, q := range read {
		if q.Value < lowest.Value {
			lowest = q
		}
	}
	lowest.Value = sdk.CorrectedGravity(lowest.Value, temperature.Value, sdk.GravityRoomF)
	p.Supply(battery, "gravity", lowest, append(ids, id)...)
}

// batteryRules tells the charge, and warns where the cells of a charged battery lie too far apart for what a published
// manual allows, though common practice would pass it.
func batteryRules(b *sdk.Bench) {
	read, ids, ok := gravities(b)
	if !ok {
		return
	}
	at := sdk.GravityRoomF
	if t, _, warm := b.Reading(battery, "acid-temperature", ""); warm {
		at = t.Value
	}
	values, sum := make([]float64, len(read)), 0.0
	for i, q := range read {
		values[i] = q.Value
		sum += sdk.StateOfCharge(sdk.CorrectedGravity(q.Value, at, sdk.GravityTableF))
	}
	charge := sum / float64(len(read))
	b.AddFact(battery, core.Fact{Name: "charge", Source: "the mean of the cells, by tables of gravity at 80 degF",
		Value: core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: charge, Unit: "%"}}})
	if spread := sdk.CellSpread(values); charge >= 75 && !core.LessOrEqual(spread, sdk.CellSpreadCharged) {
		b.Problem(core.Problem{Severity: core.SeverityWarning, Target: battery, Check: "spread", FindingID: ids[0],
			Summary: fmt.Sprintf("the cells of the charged battery differ by %.3f SG", spread),
			Detail:  fmt.Sprintf("over %.3f a charged battery is unserviceable by TM 9-6140-200-14; common practice goes to .05", sdk.CellSpreadCharged),
			Next:    "charge it once more and read again; if it stays, replace it"})
	}
}
