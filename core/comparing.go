package core

import (
	"cmp"
	"slices"
	"strings"
)

// Comparison is what a second plan does otherwise than a first.
type Comparison struct {
	Lines   []LineDifference   `json:"lines"`   // that differ, the largest difference first
	Choices []ChoiceDifference `json:"choices"` // parts that are decided otherwise, in the first plan's order
	Sums    []SumDifference    `json:"sums"`
	Hours   [2]float64         `json:"hours"`           // expected, of the first and of the second
	Weeks   []float64          `json:"weeks,omitempty"` // until the finish, P80, of the first and of the second; nil: not known of both
	Notes   []string           `json:"notes,omitempty"` // what is to be said of the second plan: that a sum is not enough, that the vehicle leaves on a trailer
}

// LineDifference is a line of the work order that differs. What was held in reserve for work and the work itself are one line.
type LineDifference struct {
	ID   string `json:"id"`
	Name string `json:"name"`
	Was  Money  `json:"was"`
	Now  Money  `json:"now"`
	More Money  `json:"more"` // Now less Was; the sum of all is the difference of the totals before tax
}

// ChoiceDifference is a part that is decided otherwise; a remedy's name in words, "" where the part is not in that plan.
type ChoiceDifference struct {
	Place
	PartName string `json:"part_name"`
	Was      string `json:"was"`
	Now      string `json:"now"`
}

// SumDifference is a figure of the whole.
type SumDifference struct {
	Name string `json:"name"` // total before tax, tax, total, P80, risk of doing it again
	Was  Money  `json:"was"`
	Now  Money  `json:"now"`
	More Money  `json:"more"`
}

// notes say what is to be known of a plan beside its figures, and is not so of an earlier one.
func (p Plan) notes(was Plan) (notes []string) {
	if p.Within != nil {
		for _, x := range p.Within.problems() {
			notes = append(notes, x.Summary)
		}
	}
	for _, l := range p.Job.Left {
		if p.Condition(l.Place).SafetyCritical && !slices.ContainsFunc(was.Job.Left, func(x Left) bool { return x.Place == l.Place }) {
			notes = append(notes, "the vehicle leaves on a trailer: "+l.Place.Words()+" is left undone, and lives hang on it")
		}
	}
	return notes
}

// Compare puts a second plan beside a first, line by line. Both are in one currency.
func Compare(was, now Plan) Comparison {
	code := was.WorkOrder.TotalBeforeTax.CurrencyCode()
	c := Comparison{Lines: []LineDifference{}, Choices: choiceDifferences(was.Choices, now.Choices), Hours: [2]float64{was.WorkOrder.HoursExpected, now.WorkOrder.HoursExpected}}
	c.Notes = now.notes(was)
	at := map[string]int{}
	take := func(lines []Line, add func(*LineDifference, Money)) {
		for _, l := range lines {
			id := l.ID
			if l.Kind == LineReserve {
				id = string(LineWork) + ":" + l.key()
			}
			i, known := at[id]
			if !known {
				i = len(c.Lines)
				at[id], c.Lines = i, append(c.Lines, LineDifference{ID: id, Name: l.Name, Was: MinorMoney(0, code), Now: MinorMoney(0, code)})
			}
			add(&c.Lines[i], l.Amount)
			if l.Kind != LineReserve {
				c.Lines[i].Name = l.Name
			}
		}
	}
	sum := func(a, b Money) Money { return MinorMoney(Minor(a)+Minor(b), code) }
	less := func(a, b Money) Money { return MinorMoney(Minor(a)-Minor(b), code) }
	take(was.WorkOrder.Lines, func(d *LineDifference, m Money) { d.Was = sum(d.Was, m) })
	take(now.WorkOrder.Lines, func(d *LineDifference, m Money) { d.Now = sum(d.Now, m) })
	for i := range c.Lines {
		c.Lines[i].More = less(c.Lines[i].Now, c.Lines[i].Was)
	}
	c.Lines = slices.DeleteFunc(c.Lines, func(d LineDifference) bool { return d.More.IsZero() })
	slices.SortStableFunc(c.Lines, func(a, b LineDifference) int {
		return cmp.Compare(magnitude(Minor(b.More)), magnitude(Minor(a.More)))
	})
	for _, s := range []struct {
		name     string
		was, now Money
	}{
		{"total before tax", was.WorkOrder.TotalBeforeTax, now.WorkOrder.TotalBeforeTax}, {"tax", was.WorkOrder.Tax, now.WorkOrder.Tax},
		{"total", was.WorkOrder.Total, now.WorkOrder.Total}, {"P80", was.Budget.P80, now.Budget.P80},
	} {
		c.Sums = append(c.Sums, SumDifference{s.name, s.was, s.now, less(s.now, s.was)})
	}
	if Minor(was.Risk)+Minor(now.Risk) > 0 && now.Risk.CurrencyCode() == was.Risk.CurrencyCode() { // an issued scope keeps none
		c.Sums = append(c.Sums, SumDifference{"risk of doing it again", was.Risk, now.Risk, less(now.Risk, was.Risk)})
	}
	if was.Finish != nil && now.Finish != nil {
		c.Weeks = []float64{was.Finish.P80, now.Finish.P80}
	}
	return c
}

// choiceDifferences lists the parts whose remedies differ.
func choiceDifferences(was, now []Choice) []ChoiceDifference {
	out := []ChoiceDifference{}
	at := map[Place]int{}
	for _, c := range was {
		at[c.Place] = len(out)
		out = append(out, ChoiceDifference{Place: c.Place, PartName: c.PartName, Was: c.words()})
	}
	for _, c := range now {
		i, known := at[c.Place]
		if !known {
			i = len(out)
			out = append(out, ChoiceDifference{Place: c.Place, PartName: c.PartName})
		}
		out[i].Now = c.words()
	}
	return slices.DeleteFunc(out, func(d ChoiceDifference) bool { return d.Was == d.Now })
}

// SayDifferences names the parts that are decided otherwise, and what then becomes of them; positions of a part that stand together and end alike
// are one. There is always something to say: work may differ where no part's remedy does.
func SayDifferences(list []ChoiceDifference) []string {
	var out []string
	for i := 0; i < len(list); {
		d, at := list[i], ""
		for ; i < len(list) && list[i].PartName == d.PartName && list[i].Now == d.Now; i++ {
			at += " " + list[i].Position
		}
		out = append(out, strings.TrimRight(d.PartName+at, " ")+": "+d.Now)
	}
	if len(out) == 0 {
		return []string{"the same remedies, other work"}
	}
	return out
}

// words says what is chosen for a part.
func (c Choice) words() string {
	switch {
	case c.Kind == "":
		return "not decided yet"
	case c.Kind == LeftAsIs:
		return "left as it is"
	case c.Name == "":
		return string(c.Kind)
	}
	return string(c.Kind) + ": " + c.Name
}
