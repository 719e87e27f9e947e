package core

import (
	"context"
	"slices"
	"time"
)

// BudgetDay is what a job's price looked like at the end of a day, before tax.
type BudgetDay struct {
	Day      string `json:"day,omitempty"` // 2026-10-01 in the shop's zone; "" before anything was read
	Findings int    `json:"findings"`
	Expected Money  `json:"expected"`
	P10      Money  `json:"p10"`
	P80      Money  `json:"p80"`
	P90      Money  `json:"p90"`
	NotSeen  int    `json:"not_seen"` // parts
}

// Spread is how far P10 and P90 lie apart.
func (d BudgetDay) Spread() Money { return MinorMoney(Minor(d.P90)-Minor(d.P10), d.P90.CurrencyCode()) }

// SpreadShare is the spread as a share of what is expected; 0 where nothing is.
func (d BudgetDay) SpreadShare() float64 {
	if Minor(d.Expected) == 0 {
		return 0
	}
	return float64(Minor(d.Spread())) / float64(Minor(d.Expected))
}

// ByDay plans a job anew with what had been read by the end of each day, in a zone, on which something was; the first is before anything was. Sheets,
// prices and steps are as they are now, and the seed is the same: what moves is what was found. Told, if not nil, is called with how many of how many
// plans are made. Errors are those of Plan.
func (p *Planner) ByDay(ctx context.Context, req PlanRequest, zone *time.Location, told func(n, of int)) ([]BudgetDay, error) {
	day := func(f Finding) string { return f.At.In(zone).Format(time.DateOnly) }
	days := []string{""}
	for _, f := range req.Findings {
		days = append(days, day(f))
	}
	slices.Sort(days)
	days = slices.Compact(days)
	var out []BudgetDay
	for i, d := range days {
		then := req
		then.Findings = slices.DeleteFunc(slices.Clone(req.Findings), func(f Finding) bool { return day(f) > d })
		plan, err := p.Plan(ctx, then)
		if err != nil {
			return nil, err
		}
		b := plan.Budget
		out = append(out, BudgetDay{d, len(then.Findings), b.Expected, b.P10, b.P80, b.P90, len(plan.NotSeen)})
		if told != nil {
			told(i+1, len(days))
		}
	}
	return out, nil
}
