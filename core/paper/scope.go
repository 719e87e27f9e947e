package paper

import (
	"fmt"
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// Scope is what the customer reads and signs: what was found, what will be done and what not, what it may cost
// and how sure that is. Numbers stand in its appendix.
func Scope(in Input) Document {
	d := in.document("Scope of work")
	as := areas(in.Plan)
	d.Blocks = append(d.Blocks, in.letterhead(d.Title))
	for _, section := range [][]Block{
		in.opening(), in.inShort(), in.marks(), in.work(as), in.closed(as), in.notDone(), in.notInspected(),
		in.price(as), in.certainty(), in.ownersChoices(as), in.waiting(), in.agreement(), in.cautions(), in.sign(), in.appendix(as),
	} {
		d.Blocks = append(d.Blocks, section...)
	}
	return d
}

// opening says in plain words whose job it is, what for, and what this paper does not say.
func (in Input) opening() []Block {
	j := in.Plan.Job
	vehicle := "A unit on the bench, without its vehicle"
	if j.Vehicle != nil {
		vehicle = j.Vehicle.Title
	}
	facts := []Fact{{"Vehicle", vehicle}, {"For", strings.Join(append([]string{j.Owner.Name}, j.Owner.Address...), ", ")}}
	if us := unitTitles(j); us != "" {
		facts = append(facts, Fact{"Units in this job", us})
	}
	if j.Brief.Use != "" {
		facts = append(facts, Fact{"What it is wanted for", sentence(j.Brief.Use)})
	}
	if o := j.Brief.Originality; o > 0 && o < len(originalityWords) {
		facts = append(facts, Fact{"How far it is to stay as made", sentence(originalityWords[o])})
	}
	if h := horizon(j.Brief); h != "" {
		facts = append(facts, Fact{"To last", h})
	}
	facts = append(facts, Fact{"How far it comes apart", in.extent()})
	safety := []string{
		"This paper says what was found and what will be done. It does not say that the vehicle is safe to use, and nobody may read it so.",
		"Safety work is to be verified by a licensed or otherwise competent person before the vehicle is used. " +
			"The maker's manual and local law come first; figures are rules of thumb unless a source is named."}
	if gs := in.openedGroups(); len(gs) > 0 {
		safety = append(safety, "This job opens "+and(gs)+": a second person, who did not do the work, checks it before the vehicle moves.")
	}
	return []Block{Heading{1, "The job"}, Facts{facts}, Notice{"Safety", safety}}
}

func unitTitles(j core.Job) string {
	var us []string
	for _, u := range j.Units {
		us = append(us, unitTitle(j, u.ID))
	}
	return strings.Join(us, "; ")
}

func horizon(b core.Brief) string {
	var h []string
	if b.HorizonYears > 0 {
		h = append(h, count(int(b.HorizonYears), "year"))
	}
	if b.HorizonKM > 0 {
		h = append(h, thousands(b.HorizonKM)+" km")
	}
	return strings.Join(h, " or ")
}

// extent says how far the vehicle comes apart, and that the rest is outside this job.
func (in Input) extent() string {
	e := in.Plan.Job.Extent
	s := e.Kind
	if len(e.Names) > 0 {
		s += ": " + and(spaced(e.Names))
	}
	if s == "" {
		s = "not stated"
	}
	s = sentence(s)
	if e.Kind != core.ExtentBareFrame {
		s += " Everything else is outside this job: it was not looked at, and no money is held for it."
	}
	return s
}

func spaced(ss []string) []string {
	out := make([]string, len(ss))
	for i, s := range ss {
		out[i] = strings.ReplaceAll(s, "-", " ")
	}
	return out
}

// marks says which marks were read and what they say; one that does not belong is stated plainly.
func (in Input) marks() []Block {
	j := in.Plan.Job
	t := Table{Columns: []Column{{Head: "Mark", Share: 3}, {Head: "As read", Share: 2}, {Head: "Expected", Share: 2}, {Head: "What it says", Share: 3}}}
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
	bs := []Block{Heading{2, "What it is, by its marks"}, t}
	if len(notice) > 0 {
		bs = append(bs, Notice{"Marks that do not agree", notice})
	}
	if len(told) > 0 {
		bs = append(bs, Initials{told})
	}
	return bs
}

// altered says that some mark of the job looks altered and the owner was not told in writing yet: it stops orders.
func (in Input) altered() bool {
	j := in.Plan.Job
	ms := []core.Mark{}
	if j.Vehicle != nil {
		ms = append(ms, j.Vehicle.Marks...)
	}
	for _, u := range j.Units {
		ms = append(ms, u.Marks...)
	}
	return slices.ContainsFunc(ms, func(m core.Mark) bool { return m.Says == core.MarkAltered && strings.TrimSpace(m.Told) == "" })
}

// inShort is the money and the wait in four lines, for somebody who reads no further.
func (in Input) inShort() []Block {
	b, o := in.Plan.Budget, in.Plan.WorkOrder
	facts := []Fact{
		{"Amounts", "All amounts on this paper are in " + in.code() + "."},
		{"Expected, before tax", amount(o.TotalBeforeTax)},
		{"Range, before tax", span(b.P10, b.P90) + ": nine jobs in ten like this one cost more than the first figure, nine in ten less than the second"},
		{"Expected, with tax", amount(o.Total)},
		{"Contingency, apart", amount(b.Contingency) + ": yours; drawn only by a change note that you agree to"},
	}
	if l, ok := longest(in.Plan.WorkOrder.Lines); ok {
		facts = append(facts, Fact{"Sets the finish", capital(l.Name) + ", " + weeks(l.LeadWeeks)})
	}
	if n := len(in.Plan.NotSeen); n > 0 {
		facts = append(facts, Fact{"Not inspected", count(n, "part") + ", listed below with the money held for each"})
	}
	return []Block{Heading{2, "In short"}, Facts{facts}}
}
