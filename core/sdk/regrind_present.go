package sdk

import (
	"fmt"
	"math"

	"github.com/fettle-tools/fettle/core"
)

// PresentSize is the size a group is at already, which is what its wear is graded against.
type PresentSize struct {
	Step   float64 // undersize agreed by mark and readings; 0 for standard
	Top    float64 // top limit of that size
	Agreed bool    // the mark and every journal read say the same
	Words  string
}

// Present says at which step a group is already. marked is the undersize stamped on the crank or its shells, 0 for
// no mark. A mark counts only if every journal read agrees with it to within r.Near and none reads as ground to a
// further step; otherwise the standard size is kept and the words say what to look for (common practice, no source).
func (r GrindRule) Present(marked float64, journals []Journal) PresentSize {
	p := PresentSize{Top: r.Top}
	near, read := map[float64]int{}, 0
	for _, j := range journals {
		g := r.journalGrind(j)
		if g.Taken == 0 {
			continue
		}
		read++
		near[g.NearStep]++
		if marked > 0 && !core.LessOrEqual(g.Max, r.Top-marked+r.Near) {
			p.Words = fmt.Sprintf("marked %s, but %s reads %s: not that size", Undersize(marked), g.Position, core.FormatNumber(round5(g.Max)))
			return p
		}
		if marked > 0 && g.NearStep > marked+core.Slack {
			p.Words = fmt.Sprintf("marked %s, but %s reads as %s: check the stamp", Undersize(marked), g.Position, Undersize(g.NearStep))
			return p
		}
	}
	switch {
	case read == 0:
		p.Words = "no journal read: the present size is not known"
	case marked > 0 && !hasSize(r.Steps, marked):
		p.Words = fmt.Sprintf("marked %s, which is no step of this crank", Undersize(marked))
	case marked > 0:
		p = PresentSize{Step: marked, Top: r.Top - marked, Agreed: true,
			Words: fmt.Sprintf("at %s by mark and readings: graded against %s", Undersize(marked), core.FormatNumber(round5(r.Top-marked)))}
	default:
		p.Agreed, p.Words = true, "standard size"
		for _, s := range r.Steps {
			if near[s] == read {
				p.Agreed = false
				p.Words = fmt.Sprintf("every journal reads as %s, but there is no mark: look for the stamp on the shells and the webs", Undersize(s))
			}
		}
	}
	return p
}

// UndersizeBand is the finished size band of a journal at a step: the new band less the step on both edges
// (TM 5-3805-262-34).
func UndersizeBand(newLow, newHigh, step float64) (low, high float64) {
	return newLow - math.Abs(step), newHigh - math.Abs(step)
}
