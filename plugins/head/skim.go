package head

import (
	"fmt"
	"math"
	"strings"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

// skimAllowance is what a skim takes beyond the hollow it has to clear, in inches (common practice, no source).
const skimAllowance = .002

var (
	face      = core.Target{Part: "head-face"}
	thickness = core.Target{Part: "head-thickness"}
)

// skim works out what a skim would leave of the head, and closes it where that is too thin: the limit on thickness binds
// what comes back from the grinder too (common practice, no source).
func skim(b *sdk.Bench) {
	hollow, id, read := flatness(b)
	thinnest, ids, known := thinnestCorner(b)
	l, limited := b.Limit(thickness, "thickness")
	if !read || !known || !limited || l.WearLow == nil {
		return
	}
	left := thinnest - hollow - skimAllowance
	source := "thinnest corner less the hollow and .0020 to clean up (common practice, no source)"
	b.AddFact(face, core.Fact{Name: "thickness-after", Source: source, Value: core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: left, Unit: "in"}}})
	if core.LessOrEqual(*l.WearLow, left) {
		return
	}
	b.Close(face, "skim", core.Reason{Text: fmt.Sprintf("a skim would leave %s, where %s has to stand", inches(left), inches(*l.WearLow)), FindingIDs: append(ids, id), Check: "flatness-overall", Source: common})
	b.Problem(core.Problem{Severity: core.SeverityWarning, Target: face, Check: "flatness-overall", FindingID: id, Summary: "the head is too thin to be skimmed: " + inches(left) + " would be left",
		Next: "another head, or ask how little the grinder needs and what the maker's book allows"})
}

// flatness is the deeper of the two hollows, with its finding.
func flatness(b *sdk.Bench) (hollow float64, id string, ok bool) {
	for _, check := range []string{"flatness-overall", "flatness-local"} {
		if q, f, read := b.Reading(face, check, ""); read && (!ok || q.Value > hollow) {
			hollow, id, ok = q.Value, f, true
		}
	}
	return hollow, id, ok
}

// thinnestCorner is the smallest thickness read, with the findings.
func thinnestCorner(b *sdk.Bench) (in float64, ids []string, ok bool) {
	in = math.Inf(1)
	for _, st := range []string{"A", "B", "C", "D", ""} {
		if q, id, read := b.Reading(thickness, "thickness", st); read {
			in, ids, ok = math.Min(in, q.Value), append(ids, id), true
		}
	}
	return in, ids, ok
}

// inches writes a size as the trade does, without the noise of its sum: ".0232 in".
func inches(v float64) string {
	return strings.Replace(strings.TrimRight(strings.TrimRight(fmt.Sprintf("%.5f", v), "0"), "."), "0.", ".", 1) + " in"
}
