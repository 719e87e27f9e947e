package paper

import (
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// closed names by subsystem the parts that safety leaves no choice about, and why, each subsystem with a line for initials.
func (in Input) closed(as []area) []Block {
	var items, titles []string
	for _, a := range as {
		var says []string
		if gs := a.of(func(c core.UnitCondition, ch core.Choice) bool { return refused(c, ch) && !unseen(c) }); len(gs) > 0 {
			says = append(says, "Not fitted again as found: "+sentence(lower(in.withReasons(gs))))
		}
		if gs := a.of(func(c core.UnitCondition, ch core.Choice) bool { return refused(c, ch) && unseen(c) }); len(gs) > 0 {
			says = append(says, "Not fitted again before it is seen or measured again: "+sentence(lower(namesOf(gs))))
		}
		if len(says) > 0 {
			items, titles = append(items, strings.Join(says, "\n")), append(titles, a.Title)
		}
	}
	if len(items) == 0 {
		return nil
	}
	return []Block{Heading{1, "Where safety leaves no choice"},
		Paragraph{Text: "The shop refuses to fit these parts again as they are. No price and no wish of the owner or the shop opens them again. Initials at each line say that it was read."}, Initials{Items: items, Leads: titles}}
}

// refused says that safety closed reuse for a part.
func refused(c core.UnitCondition, ch core.Choice) bool {
	if c.Part == "" {
		return false
	}
	_, closed := noChoice(c, ch)
	return closed
}
