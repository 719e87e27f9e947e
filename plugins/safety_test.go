package plugins_test

import (
	"context"
	"fmt"
	"regexp"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/budget"
	"github.com/fettle-tools/fettle/core/decide"
	"github.com/fettle-tools/fettle/core/sdk"
)

// numbered finds the number of one of the trade's hard rules in the id that a sheet gives it.
var numbered = regexp.MustCompile(`^N\d\d`)

// hardRules gives the hard no-reuse rules of a sheet.
func hardRules(sheet core.Sheet) (rules []core.NoReuse) {
	for _, n := range sheet.NoReuse {
		if numbered.MatchString(n.ID) {
			rules = append(rules, n)
		}
	}
	return rules
}

// The trade's hard rules are N01 to N25 (common practice, no source): none is lost among the sheets.
func TestTheHardRulesAreWhole(t *testing.T) {
	var want, got []string
	for i := range 25 {
		want = append(want, fmt.Sprintf("N%02d", i+1))
	}
	for _, b := range builtIns() {
		_, sheet := b.described(t)
		for _, n := range hardRules(sheet) {
			got = append(got, numbered.FindString(n.ID))
		}
	}
	slices.Sort(got)
	require.Equal(t, want, slices.Compact(got))
}

// What fires a hard rule removes reuse from the plan, whatever is pinned, whatever the remedy costs, whatever may be spent.
func TestNoPlanReusesWhatAHardRuleCondemns(t *testing.T) {
	for _, b := range builtIns() {
		t.Run(b.name, func(t *testing.T) {
			t.Parallel()
			p, sheet := b.described(t)
			for _, n := range hardRules(sheet) {
				b.requireCondemned(t, p, sheet, n)
			}
		})
	}
}

func (b builtIn) requireCondemned(t *testing.T, p *sdk.Plugin, sheet core.Sheet, n core.NoReuse) {
	t.Helper()
	f := firing(t, sheet, n)
	f.Subsystem, f.Unit = b.name, sheet.UnitKind
	a, err := p.Assess(t.Context(), core.AssessRequest{Unit: f.Unit, Facts: b.facts, Findings: []core.Finding{f}})
	require.NoError(t, err, n.ID)
	_, remedies := of(a, f.Target)
	closed := slices.IndexFunc(remedies, func(r core.Remedy) bool { return r.Kind == core.Reuse })
	pin := core.Pin{Place: core.Place{Subsystem: b.name, Unit: f.Unit, Target: f.Target}, Remedy: "reuse", Reason: "it looks well enough", By: "a mechanic"}
	if closed >= 0 {
		pin.Remedy = remedies[closed].ID
	}
	pinned, dear := onlyThis(b, f), onlyThis(b, f)
	pinned.Job.Pins = []core.Pin{pin}
	dear.Terms = absurd(dear.Terms, slices.Concat(a.Operations, sheet.Operations))
	for _, c := range []struct {
		how     string
		req     core.PlanRequest
		decider core.Decider
	}{
		{"as it is", onlyThis(b, f), decide.Solver{}},
		{"with a pin to reuse", pinned, decide.Solver{}},
		{"at absurd prices", dear, decide.Solver{}},
		{"at absurd prices under the least cap there is", dear, leastMoney{}},
	} {
		planner := core.Planner{Assessors: []core.Named{{Subsystem: b.name, Assessor: p}}, Decider: c.decider, Budgeter: budget.Simulator{}}
		plan, err := planner.Plan(t.Context(), c.req)
		require.NoError(t, err, "%s %s", n.ID, c.how)
		i := slices.IndexFunc(plan.Choices, func(x core.Choice) bool { return x.Target == f.Target })
		require.GreaterOrEqual(t, i, 0, "%s %s: nothing is chosen", n.ID, c.how)
		if kind := plan.Choices[i].Kind; kind != core.Undecided { // between ways that the rule allows
			require.Contains(t, n.Allowed, kind, "%s %s, by %s", n.ID, c.how, f.Value)
		}
		requireStates(t, n, plan.Sheets[0].Assessment, f.Target)
		if len(c.req.Job.Pins) > 0 {
			require.True(t, slices.ContainsFunc(plan.Problems, func(p core.Problem) bool { return p.Target == f.Target && p.Severity == core.SeverityError }),
				"%s %s: nothing says that it does not hold", n.ID, c.how)
		}
	}
}

// requireStates wants no state left in which the plan, or a trial of its budget, could take what the rule does not allow.
func requireStates(t *testing.T, n core.NoReuse, a core.Assessment, target core.Target) {
	t.Helper()
	condition, remedies := of(a, target)
	require.NotEmpty(t, condition.States, n.ID)
	for _, s := range condition.States {
		for _, r := range remedies {
			if slices.Contains(s.Remedies, r.ID) {
				require.Contains(t, n.Allowed, r.Kind, "%s: a state of %s keeps %s", n.ID, s.Grade, r.ID)
			}
		}
	}
}

// firing is the finding that fires a rule.
func firing(t *testing.T, sheet core.Sheet, n core.NoReuse) core.Finding {
	t.Helper()
	part := sheet.Part(n.Part)
	require.NotNil(t, part, n.ID)
	check := part.Check(n.Check)
	if check == nil {
		require.Equal(t, core.ValueNotRead, n.Trigger.Kind, "%s: no check, and it is not fired by what is missing", n.ID)
		check = &part.Checks[0]
	}
	if n.Trigger.Kind == core.ValueWord { // past limit
		return condemning(*part, *check)
	}
	f := core.Finding{ID: "f-1", Target: part.Targets()[0], Check: check.ID, Value: n.Trigger}
	if len(check.Stations) > 0 {
		f.Station = check.Stations[0]
	}
	return f
}

// onlyThis asks for a plan of one subsystem's unit on the bench, of which one thing is known.
func onlyThis(b builtIn, f core.Finding) core.PlanRequest {
	rate, err := core.NewMoney("85", "USD")
	if err != nil {
		panic(err)
	}
	req := core.PlanRequest{
		Job: core.Job{Number: "J-001", Seed: 7, Extent: core.Extent{Kind: core.ExtentBench}, Brief: core.Brief{HorizonKM: 20000, HorizonYears: 5},
			Units: []core.Unit{{ID: f.Unit, Kind: f.Unit, Title: f.Unit, Facts: b.facts}}},
		Findings: []core.Finding{f},
		Terms:    core.Terms{Currency: "USD", Today: time.Date(2026, 11, 1, 0, 0, 0, 0, time.UTC)},
		Trials:   100,
	}
	req.Terms.Rates = []core.Rate{{Skill: "mechanic", Hour: rate}}
	return req
}

// absurd makes everything that any operation takes cost a million.
func absurd(t core.Terms, operations []core.Operation) core.Terms {
	million := core.Money3{Low: "1000000", Likely: "1000000", High: "1000000", Currency: "USD"}
	for _, o := range operations {
		for _, it := range o.Items {
			t.Prices = append(t.Prices, core.PriceEntry{Item: it.Key, Kind: "new", Price: million, Date: t.Today})
		}
	}
	hour, err := core.NewMoney("10000", "USD")
	if err != nil {
		panic(err)
	}
	t.Rates = slices.Clone(t.Rates)
	for i := range t.Rates {
		t.Rates[i].Hour = hour
	}
	return t
}

// leastMoney decides under a cap of the least that any choice costs.
type leastMoney struct{ decide.Solver }

func (d leastMoney) Decide(ctx context.Context, s core.Selection) (core.Selected, error) {
	free := s
	free.Parts = slices.Clone(s.Parts)
	for i, p := range free.Parts {
		free.Parts[i].Options = slices.Clone(p.Options)
		for j := range p.Options {
			free.Parts[i].Options[j].Risk = 0
		}
	}
	least, err := d.Solver.Decide(ctx, free)
	if err != nil {
		return least, err
	}
	s.Cap = &least.Money
	return d.Solver.Decide(ctx, s)
}
