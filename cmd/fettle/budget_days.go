package main

import (
	"cmp"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"strings"
	"time"

	"github.com/fettle-tools/fettle/core"
)

// budgetDaysJSON is what budget --by-day prints as JSON.
type budgetDaysJSON struct {
	Job  string           `json:"job"`
	Days []core.BudgetDay `json:"days"` // the first is before anything was read
	// Issued are the scopes as they were issued, the first revision first.
	Issued []budgetIssued `json:"issued"`
}

// budgetIssued is what was believed of the price when a scope was issued, before tax: its own figures, whatever sheets and prices say now.
type budgetIssued struct {
	Paper    string     `json:"paper"`
	Revision int        `json:"revision"`
	Day      string     `json:"day"` // 2026-10-01 in the shop's zone
	Findings int        `json:"findings"`
	Expected core.Money `json:"expected"`
	P10      core.Money `json:"p10"`
	P50      core.Money `json:"p50"`
	P80      core.Money `json:"p80"`
	P90      core.Money `json:"p90"`
}

// asIssued reads the figures of the job's scopes back from what they were made from.
func (s *shop) asIssued(ctx context.Context, job core.Job) ([]budgetIssued, error) {
	papers, err := s.book.Papers(ctx, job.Number)
	if err != nil {
		return nil, err
	}
	out := []budgetIssued{}
	for _, p := range papers {
		if p.Kind != scopePaper.title || p.Media != "application/pdf" {
			continue
		}
		var from struct {
			Findings []json.RawMessage `json:"findings"`
			Budget   core.Budget       `json:"budget"`
		}
		if err := json.Unmarshal(p.Inputs, &from); err != nil {
			return nil, fmt.Errorf("what %s revision %d was made from: %w", p.Number, p.Revision, err)
		}
		b := from.Budget
		out = append(out, budgetIssued{p.Number, p.Revision, p.At.In(s.settings().Zone).Format(time.DateOnly), len(from.Findings), b.Expected, b.P10, b.P50, b.P80, b.P90})
	}
	return out, nil
}

// byDay shows how a job's price moved as more was read. done is told after each plan.
func (s *shop) byDay(ctx context.Context, job core.Job, done func(n, of int)) ([]core.BudgetDay, error) {
	req, err := s.request(ctx, job)
	if err != nil {
		return nil, err
	}
	return s.planner().ByDay(ctx, req, s.settings().Zone, done)
}

func printBudgetDays(w io.Writer, job core.Job, days []core.BudgetDay, issued []budgetIssued) {
	fmt.Fprintf(w, "%s  %s\n\nAS MORE WAS READ, before tax: with what had been read by the end of each day, and the sheets and prices of today\n", job.Number, job.Title)
	if len(issued) > 0 {
		fmt.Fprintln(w, "* as the scope was issued: its own figures, with the sheets and prices of that day")
	}
	fmt.Fprintln(w)
	bar := barsOf(days, issued)
	t := newTable("day", ">findings", ">not seen", ">expected", ">P80", "P10 to P90")
	rest := issued
	for i, d := range days {
		t.add(cmp.Or(d.Day, "nothing read"), fmt.Sprint(d.Findings), fmt.Sprint(d.NotSeen), amount(d.Expected), amount(d.P80), bar(d.P10, d.Expected, d.P90))
		for len(rest) > 0 && (i == len(days)-1 || rest[0].Day < days[i+1].Day) {
			p := rest[0]
			t.add(fmt.Sprintf("* %s, %s revision %d", p.Day, p.Paper, p.Revision), fmt.Sprint(p.Findings), "", amount(p.Expected), amount(p.P80), bar(p.P10, p.Expected, p.P90))
			rest = rest[1:]
		}
	}
	t.print(w, "  ", screen)
	first, last := days[0], days[len(days)-1]
	fmt.Fprintf(w, "\n  From P10 to P90: %s at first, %.0f %% of what was expected; %s now, %.0f %%.\n", near(first.Spread()), 100*first.SpreadShare(), near(last.Spread()), 100*last.SpreadShare())
	fmt.Fprintln(w, "  What is read takes the chances out; what prices and hours may come to stays until they are asked and spent.")
}

// barsOf gives what draws P10 to P90 with the expected sum in it, all to one scale.
func barsOf(days []core.BudgetDay, issued []budgetIssued) func(p10, expected, p90 core.Money) string {
	low, high := core.Minor(days[0].P10), core.Minor(days[0].P90)
	for _, d := range days {
		low, high = min(low, core.Minor(d.P10), core.Minor(d.Expected)), max(high, core.Minor(d.P90), core.Minor(d.Expected))
	}
	for _, p := range issued {
		low, high = min(low, core.Minor(p.P10), core.Minor(p.Expected)), max(high, core.Minor(p.P90), core.Minor(p.Expected))
	}
	const wide = 30
	at := func(m core.Money) int {
		if high == low {
			return 0
		}
		return int(wide * (core.Minor(m) - low) / (high - low))
	}
	return func(p10, expected, p90 core.Money) string {
		bar := []byte(strings.Repeat(" ", wide+1))
		for i := at(p10); i <= at(p90); i++ {
			bar[i] = '-'
		}
		bar[at(expected)] = '|'
		return strings.TrimRight(string(bar), " ")
	}
}
