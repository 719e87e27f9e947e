package main

import (
	"fmt"
	"io"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// budgetJSON is what budget --json prints.
type budgetJSON struct {
	Job    string       `json:"job"`
	Budget core.Budget  `json:"budget"`
	Tax    core.Money   `json:"tax"`
	Total  core.Money   `json:"total"`
	Finish *core.Finish `json:"finish,omitempty"` // when it may be done; left out where the bench's hours a week are not known
	By     *finishAsked `json:"by,omitempty"`     // the day asked about
	Sum    *core.Money  `json:"sum,omitempty"`    // asked about, before tax
	Enough *float64     `json:"enough,omitempty"` // the chance that it is enough, 0 to 1
	// Learned is what closed jobs have taught of it; none where no job was closed.
	Learned *core.LearnedHere `json:"learned,omitempty"`
}

// printEnough says how likely the sum asked about is to be enough.
func printEnough(w io.Writer, b budgetJSON) {
	odds := "it is nearly sure to be enough"
	switch p := *b.Enough; {
	case p == 0:
		odds = "no trial came to so little: it is not enough"
	case p < .005:
		odds = "hardly ever enough"
	case p < .995:
		odds = fmt.Sprintf("enough in %.0f of 100 such jobs, too little in %.0f", 100*p, 100-100*p)
	}
	fmt.Fprintf(w, "\n%s BEFORE TAX: %s.\n", amount(*b.Sum), odds)
}

// printBudget draws the distribution with words: how likely each sum is to be enough.
func printBudget(w io.Writer, p core.Plan) {
	fmt.Fprintf(w, "%s  %s\n\n", p.Job.Number, p.Job.Title)
	printMoney(w, p)
	b := p.Budget
	if len(b.Curve) == 101 {
		fmt.Fprintf(w, "\n  chance that the sum is enough\n")
		lo, hi := core.Minor(b.Curve[1]), core.Minor(b.Curve[99])
		for _, q := range []int{5, 10, 25, 50, 75, 80, 90, 95} {
			v := core.Minor(b.Curve[q])
			n := 0
			if hi > lo {
				n = int(48 * (v - lo) / (hi - lo))
			}
			fmt.Fprintf(w, "  %3d %%  %s| %s\n", q, strings.Repeat("-", n), near(b.Curve[q]))
		}
	}
	fmt.Fprintf(w, "\n  Over the sum of the likelies (%s) P80 stands %s higher: likelies leave out what goes wrong.\n", amount(b.SumOfLikelies), amount(b.OverLikelies))
	if len(b.StandardErrors) == 4 {
		fmt.Fprintf(w, "  %d trials, seed %d; P80 is known to +/- %s.\n", b.Trials, b.Seed, amount(b.StandardErrors[2]))
	}
	fmt.Fprintln(w, "  Failures of reused parts are costed one by one, which errs on the high side.")
	if len(b.Widest) > 0 {
		fmt.Fprintln(w, "\nWHAT WIDENS IT MOST")
		t := newTable("line", ">share")
		for _, x := range b.Widest {
			t.add(x.Name, fmt.Sprintf("%.0f %%", 100*x.Share))
		}
		t.print(w, "  ", screen)
	}
}
