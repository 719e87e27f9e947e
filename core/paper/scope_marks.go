package paper

import (
	"fmt"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// marks says which marks were read and what they say; one that does not belong is stated plainly.
func (in Input) marks() []Block {
	j := in.Plan.Job
	t := Table{Compact: true, Columns: []Column{{Head: "Mark", Share: 3}, {Head: "As read", Share: 2}, {Head: "Expected", Share: 2}, {Head: "What it says", Share: 3}}}
	var notice, told []string
	add := func(of string, ms []core.Mark) {
		for _, m := range ms {
			t.Rows = append(t.Rows, Row{Cells: []Cell{{Text: of, Note: m.Where}, {Text: m.Text}, {Text: m.Expected}, {Text: core.Capital(m.Says), Note: m.Note}}})
			switch m.Says {
			case core.MarkOtherModel:
				notice = append(notice, fmt.Sprintf("%s: the mark “%s” (%s) is from another model. The unit that is there is what is measured and priced, by its own limits.", of, m.Text, m.Where))
			case core.MarkAltered:
				then := "Nothing is ordered and this scope does not hold until the owner has been told in writing."
				if strings.TrimSpace(m.Told) != "" {
					then = "The owner was told in writing: " + m.Told + "."
				}
				notice = append(notice, fmt.Sprintf("%s: the mark “%s” (%s) looks altered. %s", of, m.Text, m.Where, then))
				told = append(told, fmt.Sprintf("I have been told in writing that the mark “%s” (%s) looks altered.", m.Text, of))
			case core.MarkOtherType:
				notice = append(notice, fmt.Sprintf("%s: the mark “%s” (%s) is of a later or earlier type; it is not the one it left with.", of, m.Text, m.Where))
			}
		}
	}
	if j.Vehicle != nil {
		add("Vehicle", j.Vehicle.Marks)
	}
	for _, u := range j.Units {
		add(core.Capital(unitTitle(j, u.ID)), u.Marks)
	}
	if len(t.Rows) == 0 {
		return nil
	}
	bs := []Block{Heading{1, "What it is, by its marks"}, t}
	if len(notice) > 0 {
		bs = append(bs, Notice{"Marks that do not agree", notice})
	}
	if len(told) > 0 {
		bs = append(bs, Initials{Items: told})
	}
	return bs
}
