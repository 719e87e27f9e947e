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
			t.Rows = append(t.Rows, Row{Cells: []Cell{{Text: of, Note: m.Where}, {Text: m.Text}, {Text: m.Expected}, {Text: capital(m.Says), Note: m.Note}}})
			switch m.Says {
			case "from another model":
				notice = append(notice, fmt.Sprintf("%s: the mark “%s” (%s) is from another model. The unit that is there is what is measured and priced, by its own limits.", of, m.Text, m.Where))
			case core.MarkAltered:
				if strings.TrimSpace(m.Told) != "" {
					notice = append(notice, fmt.Sprintf("%s: the mark “%s” (%s) looks altered. The owner was told in writing: %s.", of, m.Text, m.Where, m.Told))
					told = append(told, fmt.Sprintf("I have been told in writing that the mark “%s” (%s) looks altered.", m.Text, of))
					break
				}
				notice = append(notice, fmt.Sprintf("%s: the mark “%s” (%s) looks altered. Nothing is ordered and this scope does not hold until the owner has been told in writing.", of, m.Text, m.Where))
				told = append(told, fmt.Sprintf("I have been told in writing that the mark “%s” (%s) looks altered.", m.Text, of))
			case "later or earlier type":
				notice = append(notice, fmt.Sprintf("%s: the mark “%s” (%s) is of a later or earlier type; it is not the one it left with.", of, m.Text, m.Where))
			}
		}
	}
	if j.Vehicle != nil {
		add("Vehicle", j.Vehicle.Marks)
	}
	for _, u := range j.Units {
		add(capital(unitTitle(j, u.ID)), u.Marks)
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
