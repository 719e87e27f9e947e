package paper

import (
	"fmt"
	"math"

	"github.com/fettle-tools/fettle/core"
)

// finish says when the job may be done if this paper is agreed to on its date: how likely by which week, and what it waits for most often.
func (in Input) finish() []Block {
	f := in.Plan.Finish
	if f == nil {
		return []Block{Paragraph{Text: "No finish is stated: the shop's hours a week are not set."}}
	}
	t := Table{Compact: true, Columns: []Column{{Head: "Agreed on the date of this paper, the job is done", Share: 1}, {Head: "Within", Right: true}, {Head: "About", Right: true}}}
	for _, r := range []struct {
		text  string
		weeks float64
	}{{"One in ten", f.P10}, {"As likely as not (P50)", f.P50}, {"Four jobs in five like it (P80)", f.P80}, {"Nine in ten", f.P90}} {
		t.Rows = append(t.Rows, Row{Cells: []Cell{{Text: r.text}, {Text: wholeWeeks(r.weeks)}, {Text: in.doneAbout(r.weeks)}}})
	}
	shared := ""
	if f.OtherJobs > 0 {
		shared = fmt.Sprintf(", shared with the %s h left of the shop's other jobs", number(f.OtherHours, 0))
	}
	text := fmt.Sprintf("It takes %s h at the bench on average, at %s h a week%s. %s It is counted to the last hour at the bench; the first runs and what they show come after, and so does "+
		"every day that an answer is waited for.", number(f.Hours, 0), number(f.HoursWeek, 1), shared, in.heldUp())
	return []Block{t, Paragraph{Text: text}}
}

// heldUp says what the finish waits for most often.
func (in Input) heldUp() string {
	f := in.Plan.Finish
	var names []string
	for _, h := range f.HeldUp {
		if len(names) < 3 && h.Chance >= .05 {
			names = append(names, fmt.Sprintf("%s (%s)", lower(h.Name), percent(h.Chance)))
		}
	}
	switch {
	case len(names) == 0 && f.Bench >= .5:
		return "The bench is busy until the end; it waits for nothing."
	case len(names) == 0:
		return "What comes last is now this, now that."
	case f.Bench >= .05:
		return fmt.Sprintf("What comes last, and how often: %s; in %s nothing is waited for, and the bench is busy until the end.", and(names), percent(f.Bench))
	}
	return fmt.Sprintf("What comes last, and how often: %s.", and(names))
}

// finishFact is the finish in a line.
func (in Input) finishFact() Fact {
	f := in.Plan.Finish
	return Fact{"Finish", fmt.Sprintf("As likely as not within %s (about %s), four jobs in five like it within %s (about %s), if agreed on the date of this paper", wholeWeeks(f.P50), in.doneAbout(f.P50), wholeWeeks(f.P80), in.doneAbout(f.P80))}
}

// doneAbout is the day so many weeks after the finish's.
func (in Input) doneAbout(weeks float64) string {
	return in.Plan.Finish.Day(weeks, in.zone()).Format("2 January 2006")
}

// wholeWeeks writes weeks, a part of a week counted as one.
func wholeWeeks(w float64) string { return count(int(math.Ceil(w-core.Slack)), "week") }
