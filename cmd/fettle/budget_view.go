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
	Lacks  string       `json:"made_without,omitempty"` // what the sums are made without, in words
	Finish *core.Finish `json:"finish,omitempty"`       // when it may be done; left out where the bench's hours a week are not known
	By     *finishAsked `json:"by,omitempty"`           // the day asked about
	Sum    *core.Money  `json:"sum,omitempty"`          // asked about, before tax
	// HeldBack is the contingency as it was agreed: drawn by change notes, and left; none before a main budget is agreed.
	HeldBack *core.Contingency `json:"held_back,omitempty"`
	Enough   *float64          `json:"enough,omitempty"` // the chance that it is enough, 0 to 1
	// Learned is what closed jobs have taught of it; none where no job was closed.
	Learned *core.LearnedHere `json:"learned,omitempty"`
}

// printHeldBack says what was agreed to be held back, which change note drew what of it, and what is left.
func printHeldBack(w io.Writer, s *shop, c *core.Contingency) {
	if c == nil {
		return
	}
	fmt.Fprintln(w, "\nCONTINGENCY AS AGREED, before tax: the owner's, drawn by change note alone")
	t := newTable("", ">", "")
	t.add("held back", amount(c.Held), fmt.Sprintf("%s revision %d, agreed by %s, %s", c.Paper, c.Revision, c.Who, s.day(c.Agreed)))
	for _, d := range c.Drawn {
		word := "drawn"
		if core.Minor(d.Sum) < 0 {
			word = "saved"
		}
		t.add(d.Note, amount(d.Sum), fmt.Sprintf("%s: approved by %s, %s", word, d.Who, s.day(d.At)))
	}
	t.add("left", amount(c.Left), "")
	t.print(w, "  ", screen)
}

// printEnough says how likely the sum asked about is to be enough.
func printEnough(w io.Writer, b budgetJSON) {
	fmt.Fprintf(w, "\n%s BEFORE TAX: %s.\n", amount(*b.Sum), core.SayEnough(*b.Enough))
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
		se := b.StandardErrors
		fmt.Fprintf(w, "  %d trials, seed %d; P10 is known to +/- %s, P50 to %s, P80 to %s, P90 to %s.\n", b.Trials, b.Seed, amount(se[0]), amount(se[1]), amount(se[2]), amount(se[3]))
	}
	fmt.Fprintln(w, "  Failures of reused parts are costed one by one, which errs on the high side.")
	if len(b.Widest) > 0 {
		fmt.Fprintln(w, "\nWHAT WIDENS IT MOST")
		t := newTable("line", ">share")
		for _, x := range b.Widest {
			t.add(x.Name, fmt.Sprintf("%.0f %%", 100*x.Share))
		}
		t.print(w, "  ", screen)
		rest := 1.0
		for _, x := range b.Widest {
			rest -= x.Share
		}
		if rest > .005 {
			fmt.Fprintf(w, "  The other %.0f %% lies in many lines, none of which widens it more than the last of these.\n", 100*rest)
		}
	}
}
