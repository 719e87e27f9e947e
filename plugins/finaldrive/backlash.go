package finaldrive

import (
	"fmt"
	"math"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

var places = []string{"A", "B", "C", "D"}

// round keeps what a bench can measure: a hundredth of a thousandth.
func round(x float64) float64 { return math.Round(x*1e5) / 1e5 }

// backlash sets an old pair back to its figure as found while that is within limits (TM 10-3930-660-34, TM
// 9-2320-283-34-2), and shifts the side packs where it is not (TM 9-2320-289-34).
func backlash(b *sdk.Bench) {
	found, ids, ok := meanBacklash(b)
	l, limited := b.Limit(pair, "backlash")
	if !ok || !limited || l.NewLow == nil || l.NewHigh == nil || l.WearHigh == nil {
		return
	}
	if core.LessOrEqual(*l.NewLow, found) && core.LessOrEqual(found, *l.WearHigh) {
		source := "TM 10-3930-660-34, TM 9-2320-283-34-2"
		text := "an old pair is set to its backlash as found, " + core.FormatNumber(round(found)) + " in, not to that of a new one"
		b.AddFact(pair, core.Fact{Name: "backlash-to-set", Value: inches(found), Source: text + " (" + source + ")"})
		if r := b.Remedy(pair, "reuse"); r != nil {
			r.Why = append(r.Why, core.Reason{Text: text, FindingIDs: ids, Check: "backlash", Source: source})
		}
		return
	}
	shift(b, found, (*l.NewLow+*l.NewHigh)/2, ids)
}

// shift works the side packs out for a backlash out of limits.
func shift(b *sdk.Bench, found, aim float64, ids []string) {
	back, backID, ok1 := b.Reading(backPack, "thickness", "")
	tooth, toothID, ok2 := b.Reading(toothPack, "thickness", "")
	if !ok1 || !ok2 {
		b.Problem(core.Problem{Severity: core.SeverityNote, Target: pair, Check: "backlash", FindingID: ids[0],
			Summary: "the side packs for this backlash cannot be worked out yet", Next: "measure both side packs, back and tooth, before they are mixed"})
		return
	}
	ids = append(ids, backID, toothID)
	factor := 0.0
	if f, ok := b.Fact("backlash_factor"); ok {
		factor = f.Quantity.Value
	}
	old := sdk.CrownWheelShims{BackSide: back.Value, ToothSide: tooth.Value}
	set, moved, err := old.SetBacklash(found, aim, factor)
	if err != nil {
		b.Close(pair, "reset", core.Reason{Text: "the side packs cannot bring the backlash right: " + err.Error(), FindingIDs: ids, Check: "backlash", Source: common})
		return
	}
	words := fmt.Sprintf("backlash %s to %s in: %s moves %s; %s", core.FormatNumber(round(found)), core.FormatNumber(round(aim)), core.FormatNumber(round(math.Abs(moved))), way(moved), set.Words())
	b.AddFact(backPack, core.Fact{Name: "pack-to-fit", Value: inches(set.BackSide), Source: words})
	b.AddFact(toothPack, core.Fact{Name: "pack-to-fit", Value: inches(set.ToothSide), Source: words})
	if r := b.Remedy(pair, "reset"); r != nil {
		r.Why = append(r.Why, core.Reason{Text: words, FindingIDs: ids, Check: "backlash", Source: "TM 9-2320-289-34; the factor is common practice, verify by dial"})
	}
}

func way(moved float64) string {
	if moved < 0 {
		return "from the back side to the tooth side"
	}
	return "from the tooth side to the back side"
}

// meanBacklash is the mean of the four places; ok is false while one is missing.
func meanBacklash(b *sdk.Bench) (mean float64, ids []string, ok bool) {
	for _, p := range places {
		q, id, read := b.Reading(pair, "backlash", p)
		if !read {
			return 0, nil, false
		}
		mean += q.Value / float64(len(places))
		ids = append(ids, id)
	}
	return mean, ids, true
}
