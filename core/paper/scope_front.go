package paper

import (
	"fmt"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// front is the first page: whose vehicle, what for, what is agreed, what it comes to and how sure that is.
func (in Input) front(as []area) []Block {
	bs := []Block{Facts{in.about()}, Heading{2, summed}, Paragraph{Text: in.agreed(as)}, in.inShort(), Facts{in.restsOn()}}
	return append(bs, Notice{"Safety", in.safety()})
}

// about says whose job it is, of what, what for and how far.
func (in Input) about() []Fact {
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
	facts = append(facts, in.wishes()...)
	return append(facts, Fact{"How far it comes apart", in.extent()})
}

// agreed is the work in a few sentences.
func (in Input) agreed(as []area) string {
	n := map[core.RemedyKind]int{}
	var titles, failed []string
	for _, c := range in.Plan.Choices {
		n[c.Kind]++
	}
	for _, a := range as {
		if a.Failed {
			failed = append(failed, a.Title)
		} else if len(a.Groups) > 0 {
			titles = append(titles, lower(a.Title))
		}
	}
	s := "The work described in this paper. "
	if len(titles) > 0 {
		s += "It takes in these: " + strings.Join(titles, "; ") + ". "
	}
	s += fmt.Sprintf("Of %s, each position counted by itself, %d are renewed, %d rebuilt, %d used again", count(len(in.Plan.Choices), "part"), n[core.Replace], n[core.Rebuild], n[core.Reuse])
	if k := n[core.Undecided]; k > 0 {
		s += fmt.Sprintf(", %d settled when they have been seen", k)
	}
	if k := n[core.LeftAsIs]; k > 0 {
		s += fmt.Sprintf(", %d left as they are", k)
	}
	s += "."
	for _, f := range failed {
		s += " " + f + " is not assessed: no sum here covers it."
	}
	return s
}

// inShort is the money in one small table.
func (in Input) inShort() Table {
	b, o := in.Plan.Budget, in.Plan.WorkOrder
	return Table{Columns: []Column{{Head: "All amounts on this paper are in " + in.code(), Share: 1}, {Head: "Before tax", Right: true}, {Head: "With tax", Right: true}}, Rows: []Row{
		{Cells: []Cell{{Text: "Expected: what such a job comes to on average, with what is held for parts not seen"}, {Text: amount(o.TotalBeforeTax)}, {Text: amount(o.Total)}}},
		{Cells: []Cell{{Text: "One job in ten like it comes to less than the first, one in ten to more than the second"}, {Text: span(b.P10, b.P90)}}},
		{Cells: []Cell{{Text: "Four jobs in five like it stay within this (P80)"}, {Text: toFive(b.P80)}}},
		{Cells: []Cell{{Text: "Contingency (P80 less expected): yours, apart from the sum, drawn only by a change note that you agree to"}, {Text: amount(b.Contingency)}}},
		{Sum: true, Cells: []Cell{{Text: "Sum authorised by signing"}, {}, {Text: amount(o.Total)}}},
	}}
}

// restsOn says what the sum hangs on.
func (in Input) restsOn() []Fact {
	o := in.Plan.WorkOrder
	var facts []Fact
	if lacks := in.Plan.Lacks(); lacks != "" {
		facts = append(facts, Fact{"Made without", lacks + ": it comes to more than these sums. What is not priced is listed with the price below"})
	}
	facts = append(facts, Fact{"Resting on typical prices", fmt.Sprintf("%s of the total before tax (%s): nobody has been asked for these prices yet", percent(ratio(o.Typical, o.TotalBeforeTax)), amount(o.Typical))})
	if n := len(in.Plan.NotSeen); n > 0 {
		facts = append(facts, Fact{"Not inspected", fmt.Sprintf("%s; %s is held back, inside the expected price, for what they and others not settled yet may need", count(n, "part"), amount(in.held()))})
	}
	if h := in.Plan.StripSpent; h > 0 {
		facts = append(facts, Fact{"Strip-down", number(h, 1) + " hours are done already, under their own agreement; they are in none of these sums"})
	}
	if in.Plan.Finish != nil {
		facts = append(facts, in.finishFact())
	}
	if in.ValidUntil.IsZero() {
		facts = append(facts, Fact{"Valid until", "No last day is stated for signing"})
	}
	return append(facts, Fact{"Where to sign", "At the end, before the appendix, and with initials under what is refused, left or declined"})
}

// held is the money of all that may fall due.
func (in Input) held() core.Money {
	var ms []core.Money
	for _, l := range in.Plan.WorkOrder.Lines {
		if l.Kind == core.LineReserve {
			ms = append(ms, l.Amount)
		}
	}
	return sum(in.code(), ms...)
}

// safety says what this paper does not say, and who must look at the work.
func (in Input) safety() []string {
	safety := []string{
		"This paper says what was found and what will be done. It does not say that the vehicle is safe to use, and nobody may read it so. " +
			"Safety work is to be verified by a licensed or otherwise competent person before the vehicle is used. " +
			"The maker's manual and local law come first; figures are rules of thumb unless a source is named."}
	if gs := in.openedGroups(); len(gs) > 0 {
		safety = append(safety, "This job opens "+and(gs)+": a second person, who did not do the work, checks it before the vehicle moves.")
	}
	return safety
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
