package web

import (
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// benchGroup is what a subsystem says of parts that go together: "the pins as a group: all to -.010, by P1".
type benchGroup struct {
	Set   string // its id in the sheet
	Says  string
	More  []string
	Parts string // the anchors of its parts, with blanks between
}

// benchNote is something to be looked at, or to be minded.
type benchNote struct{ What, Next string }

// notes puts what the subsystem says beyond the grades where it belongs: what it says of a group before the group's first part, what it says of one part
// there, the rest before all.
func (p *benchPage) notes(us core.UnitSheet) {
	for _, set := range us.Sheet.Sets {
		says := groupSays(us, set)
		first := slices.IndexFunc(p.Parts, func(b benchPart) bool { return slices.Contains(set.Members, b.Target) })
		if len(says) == 0 || first < 0 {
			continue
		}
		var anchors []string
		for _, b := range p.Parts {
			if slices.Contains(set.Members, b.Target) {
				anchors = append(anchors, b.Anchor())
			}
		}
		for _, text := range says {
			clauses := strings.Split(text, "; ")
			p.Parts[first].Groups = append(p.Parts[first].Groups, benchGroup{Set: set.ID, Says: clauses[0], More: clauses[1:], Parts: strings.Join(anchors, " ")})
		}
	}
	for _, problem := range us.Assessment.Problems {
		note := benchNote{problem.Summary, spoken(problem.Next)}
		if us.Failed {
			p.Why = append(p.Why, note)
		} else if i := slices.IndexFunc(p.Parts, func(b benchPart) bool { return b.Target == problem.Target }); i >= 0 {
			p.Parts[i].Notes = append(p.Parts[i].Notes, note)
		} else {
			p.Notes = append(p.Notes, note)
		}
	}
}

// groupSays are the reasons that members of a set have from its rule, each once.
func groupSays(us core.UnitSheet, set core.Set) []string {
	var says []string
	for _, c := range us.Assessment.Conditions {
		if !slices.Contains(set.Members, c.Target) {
			continue
		}
		for _, r := range c.Reasons {
			if r.Rule == set.ID && !slices.Contains(says, r.Text) {
				says = append(says, r.Text)
			}
		}
	}
	return says
}
