package paper

import (
	"fmt"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// wishes are what the owner would have otherwise than the cheapest sound plan has it, and how far this one goes along.
func (in Input) wishes() []Fact {
	var facts []Fact
	for _, l := range in.Plan.Job.Brief.OriginalityOf {
		if l.Level > 0 && l.Level < len(originalityWords) {
			facts = append(facts, Fact{core.Capital(strings.ReplaceAll(l.Subsystem, "-", " ")) + " is to be", sentence(originalityWords[l.Level])})
		}
	}
	if w := in.Plan.Within; w != nil {
		facts = append(facts, Fact{"The most to be spent", keepsWithin(*w)})
	}
	if w := in.Plan.Wait; w != nil {
		facts = append(facts, Fact{"The longest wait", waits(*w)})
	}
	return facts
}

// keepsWithin says whether the plan keeps to what may be spent, what it leaves for it, and how likely the sum is to be enough.
func keepsWithin(w core.Within) string {
	s := withCode(w.Most) + " before tax. "
	switch {
	case !w.Kept:
		s += "It is not enough: the least with every safety item done is " + withCode(w.LeastSafe) + ". "
	case w.Left > 0:
		s += "To keep to it " + leftParts(w.Left) + " left as found. "
	default:
		s += "The cheapest sound plan keeps to it. "
	}
	return s + fmt.Sprintf("It would be enough in %.0f of 100 such jobs.", 100*w.Enough)
}

func leftParts(n int) string {
	if n == 1 {
		return "1 part that no life hangs on is"
	}
	return count(n, "part") + " that no life hangs on are"
}

// waits says how long goods and work outside are waited for, and what a shorter wait costs.
func waits(w core.Wait) string {
	s := number(w.Weeks, 1) + " weeks for goods and work outside, likely. "
	switch {
	case w.Weeks < w.Cheapest && w.Within:
		return s + fmt.Sprintf("Within the sum, the plan least likely to need work done again waits %s weeks; this one is expected to cost %s more in such work. A week less is held to be worth %s.",
			number(w.Cheapest, 1), withCode(w.Costs), withCode(w.Worth))
	case w.Weeks < w.Cheapest:
		return s + fmt.Sprintf("The cheapest plan waits %s weeks; this one costs %s more, risk counted in. A week less is held to be worth %s.", number(w.Cheapest, 1), withCode(w.Costs), withCode(w.Worth))
	}
	return s + "No shorter wait is worth what it costs at " + withCode(w.Worth) + " a week."
}
