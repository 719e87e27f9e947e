package transferbox

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

var intermediate = core.Target{Part: "intermediate-shims"}

// intermediateJoint is how the shims of the intermediate shaft work: they stand between bearing and cover, so that a
// thicker pack leaves less float (common practice, no source).
var intermediateJoint = sdk.ShimJoint{Name: "intermediate shaft", Convention: sdk.ThickerIsTighter,
	Proof: "end float by dial, cover tightened down on its joint"}

// shims makes up the pack for the middle of the float that is new, from the shims in stock, once depth, stand-out and
// joint are read. Sizes are inches.
func shims(b *sdk.Bench) {
	gap, ids, ok := gapWithoutShims(b)
	l, known := b.Limit(intermediate, "end-float")
	if !ok || !known || l.NewLow == nil || l.NewHigh == nil {
		return
	}
	wanted, err := intermediateJoint.Wanted(0, gap, (*l.NewLow+*l.NewHigh)/2)
	if err != nil {
		unmade(b, err, ids)
		return
	}
	stock := stocked(b)
	if len(stock) == 0 {
		b.Problem(core.Problem{Severity: core.SeverityNote, Target: intermediate, Check: "end-float", FindingID: ids[0],
			Summary: fmt.Sprintf("the intermediate shaft wants a pack of %s", inches(wanted)), Detail: string(intermediateJoint.Convention),
			Next: "say which shims are in stock (fact shims, such as: in stock .003 .005 .010 .020) and the pack is made up of them"})
		return
	}
	pack, err := intermediateJoint.Pack(wanted, stock)
	if err != nil {
		unmade(b, err, ids)
		return
	}
	made(b, pack, gap, ids)
}

// gapWithoutShims is the float with no shim in: depth of the case and joint, less the stand-out. Findings are those it is from.
func gapWithoutShims(b *sdk.Bench) (gap float64, ids []string, ok bool) {
	for _, s := range []struct {
		station string
		sign    float64
	}{{"depth", 1}, {"joint", 1}, {"stand_out", -1}} {
		q, id, ok := b.Reading(intermediate, "end-float", s.station)
		if !ok {
			return 0, nil, false
		}
		gap, ids = gap+s.sign*q.Value, append(ids, id)
	}
	return gap, ids, true
}

// made tells the pack on what makes it up, and on the condition.
func made(b *sdk.Bench, pack sdk.ShimPack, gap float64, ids []string) {
	why := core.Reason{Text: fmt.Sprintf("%s, end float then %s; %s", pack.Words, inches(gap-pack.Total), pack.Meaning), FindingIDs: ids, Check: "end-float", Source: common}
	for _, id := range []string{"re-shim", "new-shims"} {
		if r := b.Remedy(intermediate, id); r != nil {
			r.Name += ": " + pack.Words
			r.Why = append(r.Why, why)
			r.Yields = append(r.Yields, core.Yield{Key: "intermediate-shims", Value: core.FormatNumber(round(pack.Total))})
		}
	}
	b.AddFact(intermediate, core.Fact{Name: "shim-pack", Source: why.Text, Value: core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: round(pack.Total), Unit: "in"}}})
	c := b.Condition(intermediate)
	c.Reasons = append(c.Reasons, why)
}

// unmade says that no pack can be made up, and what is nearest.
func unmade(b *sdk.Bench, err error, ids []string) {
	b.Problem(core.Problem{Severity: core.SeverityWarning, Target: intermediate, Check: "end-float", FindingID: ids[0],
		Summary: err.Error(), Detail: string(intermediateJoint.Convention), Next: core.ErrorNext(err)})
}

// stocked reads the fact shims: thicknesses in inches, each as many as needed; what is no number is passed over.
func stocked(b *sdk.Bench) []sdk.Shim {
	v, ok := b.Fact("shims")
	if !ok || v.Kind != core.ValueWord {
		return nil
	}
	var ss []sdk.Shim
	for _, w := range strings.FieldsFunc(v.Word, func(r rune) bool { return strings.ContainsRune(" ,;", r) }) {
		if x, err := strconv.ParseFloat(w, 64); err == nil && x > 0 {
			ss = append(ss, sdk.Shim{Thickness: x, Count: -1})
		}
	}
	return ss
}

func round(x float64) float64 { return math.Round(x*1e5) / 1e5 }

// inches writes a size to the hundredth of a thousandth.
func inches(x float64) string { return core.FormatNumber(round(x)) + " in" }
