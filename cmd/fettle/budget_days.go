package main

import (
	"cmp"
	"context"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"github.com/fettle-tools/fettle/core"
)

// budgetDaysJSON is what budget --by-day prints as JSON.
type budgetDaysJSON struct {
	Job  string      `json:"job"`
	Days []budgetDay `json:"days"` // the first is before anything was read
}

// budgetDay is what the job's price looked like at the end of a day, before tax.
type budgetDay struct {
	Day      string     `json:"day,omitempty"` // 2026-10-01 in the shop's zone; "" before anything was read
	Findings int        `json:"findings"`
	Expected core.Money `json:"expected"`
	P10      core.Money `json:"p10"`
	P80      core.Money `json:"p80"`
	P90      core.Money `json:"p90"`
	NotSeen  int        `json:"not_seen"` // parts
}

// byDay plans the job anew with what had been read by the end of each day on which something was. Sheets, prices and steps are as they are
// now, and the seed is the same: what moves is what was found. done is told after each plan.
func (s *shop) byDay(ctx context.Context, job core.Job, done func(n, of int)) ([]budgetDay, error) {
	req, err := s.request(ctx, job)
	if err != nil {
		return nil, err
	}
	day := func(f core.Finding) string { return f.At.In(s.settings.Zone).Format(time.DateOnly) }
	days := []string{""}
	for _, f := range req.Findings {
		days = append(days, day(f))
	}
	slices.Sort(days)
	days = slices.Compact(days)
	planner := s.planner()
	var out []budgetDay
	for i, d := range days {
		then := req
		then.Findings = slices.DeleteFunc(slices.Clone(req.Findings), func(f core.Finding) bool { return day(f) > d })
		p, err := planner.Plan(ctx, then)
		if err != nil {
			return nil, err
		}
		out = append(out, budgetDay{d, len(then.Findings), p.Budget.Expected, p.Budget.P10, p.Budget.P80, p.Budget.P90, len(p.NotSeen)})
		done(i+1, len(days))
	}
	return out, nil
}

func printBudgetDays(w io.Writer, job core.Job, days []budgetDay) {
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
	fmt.Fprintf(w, "\n  From P10 to P90: %s at first, %.0f %% of what was expected; %s now, %.0f %%.\n", near(spread(first)), spreadShare(first), near(spread(last)), spreadShare(last))
	fmt.Fprintln(w, "  What is read takes the chances out; what prices and hours may come to stays until they are asked and spent.")
}

// spread is how far P10 and P90 lie apart.
func spread(d budgetDay) core.Money {
	return core.MinorMoney(core.Minor(d.P90)-core.Minor(d.P10), d.P90.CurrencyCode())
}

// spreadShare is the spread in per cent of what is expected.
func spreadShare(d budgetDay) float64 {
	if core.Minor(d.Expected) == 0 {
		return 0
	}
	return 100 * float64(core.Minor(spread(d))) / float64(core.Minor(d.Expected))
}
