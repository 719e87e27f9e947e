package sdk

import (
	"fmt"

	"github.com/fettle-tools/fettle/core"
)

// Present says at which oversize a block stands already. marked is the oversize stamped on its pistons or deck, 0 for no
// mark. A mark counts only if every bore read agrees with it, none under it and none ready for a further step; otherwise
// the standard size is kept and the words say what to look for (common practice, no source). Top is the low limit of
// the present size.
func (r ReboreRule) Present(marked float64, bores []Bore) PresentSize {
	p := PresentSize{Top: r.Standard}
	near, read := map[float64]int{}, 0
	for _, b := range bores {
		n := r.need(b)
		if n.Taken == 0 {
			continue
		}
		read++
		near[n.NearStep]++
		if marked > 0 && !core.LessOrEqual(r.Standard+marked-r.Near/4, n.Min) {
			p.Words = fmt.Sprintf("marked %s, but bore %s reads %s: not that size", Oversize(marked), n.Position, core.FormatNumber(round5(n.Min)))
			return p
		}
		if marked > 0 && n.NearStep > marked+core.Slack {
			p.Words = fmt.Sprintf("marked %s, but bore %s reads as %s: look at the pistons", Oversize(marked), n.Position, Oversize(n.NearStep))
			return p
		}
	}
	switch {
	case read == 0:
		p.Words = "no bore read: the present size is not known"
	case marked > 0 && !hasSize(r.Steps, marked):
		p.Words = fmt.Sprintf("marked %s, which is no step of this block", Oversize(marked))
	case marked > 0:
		p = PresentSize{Step: marked, Top: r.Standard + marked, Agreed: true,
			Words: fmt.Sprintf("at %s by mark and readings: graded against %s", Oversize(marked), core.FormatNumber(round5(r.Standard+marked)))}
	default:
		p.Agreed, p.Words = true, "standard size"
		for _, s := range r.Steps {
			if near[s] == read {
				p.Agreed = false
				p.Words = fmt.Sprintf("every bore reads as %s, but there is no mark: look on the crowns of the pistons and on the deck", Oversize(s))
			}
		}
	}
	return p
}
