package main

import (
	"cmp"
	"context"
	"fmt"
	"io"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// budgetDaysJSON is what budget --by-day prints as JSON.
type budgetDaysJSON struct {
	Job  string           `json:"job"`
	Days []core.BudgetDay `json:"days"` // the first is before anything was read
}

// byDay shows how a job's price moved as more was read. done is told after each plan.
func (s *shop) byDay(ctx context.Context, job core.Job, done func(n, of int)) ([]core.BudgetDay, error) {
	req, err := s.request(ctx, job)
	if err != nil {
		return nil, err
	}
	return s.planner().ByDay(ctx, req, s.settings.Zone, done)
}

func printBudgetDays(w io.Writer, job core.Job, days []core.BudgetDay) {
	fmt.Fprintf(w, "%s  %s\n\nAS MORE WAS READ, before tax: with what had been read by the end of each day, and the sheets and prices of today\n\n", job.Number, job.Title)
	low, high := core.Minor(days[0].P10), core.Minor(days[0].P90)
	for _, d := range days {
		low, high = min(low, core.Minor(d.P10)), max(high, core.Minor(d.P90))
	}
	const wide = 30
	at := func(m core.Money) int {
		if high == low {
			return 0
		}
		return int(wide * (core.Minor(m) - low) / (high - low))
	}
	t := newTable("day", ">findings", ">not seen", ">expected", ">P80", "P10 to P90")
	for _, d := range days {
		bar := []byte(strings.Repeat(" ", wide+1))
		for i := at(d.P10); i <= at(d.P90); i++ {
			bar[i] = '-'
		}
		bar[at(d.Expected)] = '|'
		t.add(cmp.Or(d.Day, "nothing read"), fmt.Sprint(d.Findings), fmt.Sprint(d.NotSeen), amount(d.Expected), amount(d.P80), strings.TrimRight(string(bar), " "))
	}
	t.print(w, "  ", screen)
	first, last := days[0], days[len(days)-1]
	fmt.Fprintf(w, "\n  From P10 to P90: %s at first, %.0f %% of what was expected; %s now, %.0f %%.\n", near(first.Spread()), 100*first.SpreadShare(), near(last.Spread()), 100*last.SpreadShare())
	fmt.Fprintln(w, "  What is read takes the chances out; what prices and hours may come to stays until they are asked and spent.")
}
