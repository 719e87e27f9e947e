package paper

import (
	"fmt"
	"slices"

	"github.com/fettle-tools/fettle/core"
)

// notDone lists what is left or declined, each with a line for initials.
func (in Input) notDone() []Block {
	var items []string
	trailer := false
	conditions := byPlace(in.Plan.Conditions)
	for _, c := range in.Plan.Choices {
		if c.Kind != core.LeftAsIs {
			continue
		}
		s := named(partName(c), c.Position) + ": left as it is, not done"
		if slices.ContainsFunc(in.Plan.WorkOrder.Left, func(l core.LeftPart) bool { return l.Place == c.Place }) {
			s += ", to keep within what may be spent"
		}
		for _, l := range in.Plan.Job.Left {
			if l.Place == c.Place {
				s += fmt.Sprintf(" (%s: %s)", l.By, l.Reason)
			}
		}
		items = append(items, sentence(s))
		trailer = trailer || conditions[c.Place].SafetyCritical
	}
	for _, d := range in.Declined {
		items = append(items, sentence("Declined: "+d.Text))
		trailer = trailer || d.Safety
	}
	bs := []Block{Heading{1, "What will not be done"}}
	if len(items) == 0 {
		return append(bs, Paragraph{Text: "Nothing within this job is left or declined. " + in.extent()})
	}
	bs = append(bs, Paragraph{Text: "Each line needs the signer's initials."}, Initials{Items: items})
	if trailer {
		bs = append(bs, Notice{"On a trailer only", []string{"A safety item is left or declined. The vehicle leaves on a trailer and is not released to the road."}})
	}
	return bs
}
