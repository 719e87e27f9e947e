package core_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/budget"
	"github.com/fettle-tools/fettle/core/decide"
)

// worn is the box with its gear past its limit too: to open and close costs 684.25, the overhaul 300, the pair of gears 320.
func worn() fake {
	b := box()
	b.answer.Conditions[2].Grade = core.PastLimit
	b.answer.Conditions[2].States = []core.State{{Chance: 1, Grade: core.PastLimit, Remedies: []string{"pair"}}}
	return b
}

func atMost(t *testing.T, sum string) core.PlanRequest {
	t.Helper()
	req := request()
	m, err := core.NewMoney(sum, "USD")
	require.NoError(t, err)
	req.Job.Brief.Most = &m
	return req
}

func TestTheMostThatMayBeSpentBindsNothingWhereItIsEnough(t *testing.T) {
	was, now := plan(t, request(), worn()), plan(t, atMost(t, "1400"), worn())
	require.Equal(t, was.Choices, now.Choices)
	require.Equal(t, was.WorkOrder, now.WorkOrder)
	require.Nil(t, was.Within)
	require.True(t, now.Within.Kept)
	require.Zero(t, now.Within.Left)
	require.Equal(t, "0.00", now.Within.LeastSafe.Number(), "three ordinary parts may all be left")
	require.Equal(t, now.Budget.Enough(now.Within.Most), now.Within.Enough)
	require.Greater(t, now.Within.Enough, .5)
}

// Within 1,000 the gear is left, which risks 1,004.25: to leave the other two would risk 984.25 and 734.25. Within 983 the ring alone is
// renewed, for 50.
func TestTheLeastRiskWithinTheMostThatMayBeSpent(t *testing.T) {
	p := plan(t, atMost(t, "1000"), worn())
	require.Equal(t, core.LeftAsIs, choice(t, p, "gear").Kind)
	require.Contains(t, choice(t, p, "gear").Reasons[1].Text, "no sound plan that costs as little carries less risk")
	require.Equal(t, core.Replace, choice(t, p, "spindle").Kind)
	require.Equal(t, "984.25", p.WorkOrder.TotalBeforeTax.Number())
	require.Equal(t, "1004.25", p.Within.Risk.Number())
	require.Equal(t, 1, p.Within.Left)
	require.True(t, p.Within.Kept)
	require.True(t, p.Proof.OfRisk)
	require.True(t, p.Proof.Proven)

	p = plan(t, atMost(t, "983"), worn())
	require.Equal(t, 2, p.Within.Left)
	require.Equal(t, "734.25", p.WorkOrder.TotalBeforeTax.Number())
	require.Equal(t, "1988.50", p.Within.Risk.Number())
}

// The ring is not seen, and takes the overhaul whatever is found: 984.25, and the half of 50. The spindle goes with it for nothing more, which a cap on
// the money of what is settled does not see: what fits is found all the same, though nothing but 0.75 is left.
func TestWithinTheMostIsDoneWhatIsPaidAnyway(t *testing.T) {
	b := worn()
	b.answer.Conditions[1] = core.Condition{Target: core.Target{Part: "ring"}, Grade: core.NotSeen, ReadingsNeeded: 1,
		States: []core.State{{Chance: .5, Grade: core.WornFit, Remedies: []string{"overhaul"}}, {Chance: .5, Grade: core.PastLimit, Remedies: []string{"both"}}}}
	b.answer.Remedies = append(b.answer.Remedies, core.Remedy{ID: "both", Target: core.Target{Part: "ring"}, Kind: core.Replace, Name: "both", Feasible: true, Operations: []string{"overhaul", "ring-alone"}})
	p := plan(t, atMost(t, "1010"), b)
	require.Equal(t, "1009.25", p.WorkOrder.TotalBeforeTax.Number())
	require.Equal(t, core.Replace, choice(t, p, "spindle").Kind)
	require.Equal(t, core.LeftAsIs, choice(t, p, "gear").Kind)
	require.Equal(t, 1, p.Within.Left)
}

// No sum leaves a safety-critical part: what would be enough is said.
func TestNoSumLeavesASafetyCriticalPart(t *testing.T) {
	b := worn()
	b.sheet.Parts[2].SafetyCritical = true
	p := plan(t, atMost(t, "1000"), b)
	require.Equal(t, core.Replace, choice(t, p, "gear").Kind)
	require.Equal(t, core.LeftAsIs, choice(t, p, "spindle").Kind)
	require.False(t, p.Within.Kept)
	require.Equal(t, "1004.25", p.Within.LeastSafe.Number())
	require.Equal(t, "1004.25", p.WorkOrder.TotalBeforeTax.Number())
	var told []string
	for _, x := range p.Problems {
		told = append(told, x.Summary)
	}
	require.Contains(t, told, "what may be spent, 1000.00 before tax, is not enough: the least with every safety item done is 1004.25")
}

// A pin holds within any sum, and so does the owner's word.
func TestAPinHoldsWithinTheMost(t *testing.T) {
	req := atMost(t, "1000")
	req.Job.Pins = []core.Pin{{Place: core.Place{Subsystem: "box", Unit: "box", Target: core.Target{Part: "gear"}}, Remedy: "pair", Reason: "noisy", By: "Jory"}}
	p := plan(t, req, worn())
	require.Equal(t, core.Replace, choice(t, p, "gear").Kind)
	require.Equal(t, 2, p.Within.Left)
}

// waiting is the worn box where the pair of gears takes 8 weeks, or a used pair 1 week for 80 more.
func waiting() fake {
	b := worn()
	b.answer.Operations[2].LeadWeeks = core.Range3{Low: 6, Likely: 8, High: 12}
	used := operation("used-pair", flat("400"))
	used.LeadWeeks = core.Range3{Low: 1, Likely: 1, High: 1}
	b.answer.Operations = append(b.answer.Operations, used)
	b.answer.Remedies = append(b.answer.Remedies, core.Remedy{ID: "used-pair", Target: core.Target{Part: "gear"}, Kind: core.Replace, Name: "used pair", Feasible: true, Operations: []string{"used-pair"}})
	b.answer.Conditions[2].States[0].Remedies = []string{"pair", "used-pair"}
	return b
}

func TestAWeekIsWeighedAgainstMoney(t *testing.T) {
	require.Nil(t, plan(t, request(), waiting()).Wait)
	for _, c := range []struct {
		worth, remedy string
		weeks         float64
		costs         string
	}{{"11", "pair", 8, "0.00"}, {"12", "used-pair", 1, "80.00"}} { // 80 for 7 weeks: 11.43 a week
		req := request()
		m, err := core.NewMoney(c.worth, "USD")
		require.NoError(t, err)
		req.Job.Brief.WeekWorth = &m
		p := plan(t, req, waiting())
		require.Equal(t, c.remedy, choice(t, p, "gear").Remedy, c.worth)
		require.Equal(t, c.weeks, p.Wait.Weeks)
		require.Equal(t, 8., p.Wait.Cheapest)
		require.Equal(t, c.costs, p.Wait.Costs.Number())
	}
}

// Within 1,250 one of the three is left, and 1,134.25 buys the pair that comes in a week: its 80 more fit, and no risk is added. Within 1,100 they
// do not: the wait goes only with the gear instead of the spindle left, which adds 20 of risk and saves 8 weeks. Within 1,320 nothing need be left
// with the pair that takes 8 weeks, and nothing is for a shorter wait.
func TestAWeekIsWeighedWithinTheMost(t *testing.T) {
	for _, c := range []struct {
		most, worth, gear, total string
		weeks                    float64
		costs                    string
	}{{"1250", "1", "used-pair", "1134.25", 1, "0.00"}, {"1100", "2", "pair", "1054.25", 8, "0.00"}, {"1100", "3", "left", "984.25", 0, "20.00"}, {"1320", "300", "pair", "1304.25", 8, "0.00"}} {
		req := atMost(t, c.most)
		m, err := core.NewMoney(c.worth, "USD")
		require.NoError(t, err)
		req.Job.Brief.WeekWorth = &m
		p := plan(t, req, waiting())
		require.Equal(t, c.gear, choice(t, p, "gear").Remedy, c)
		require.Equal(t, c.total, p.WorkOrder.TotalBeforeTax.Number(), c)
		require.True(t, p.Within.Kept)
		require.Equal(t, core.Wait{Weeks: c.weeks, Worth: m, Cheapest: 8, Costs: p.Wait.Costs, Within: true}, *p.Wait)
		require.Equal(t, c.costs, p.Wait.Costs.Number())
	}
}

func weigh(t *testing.T, req core.PlanRequest, f fake) core.Weighing {
	t.Helper()
	p := core.Planner{Decider: decide.Solver{}, Budgeter: budget.Simulator{}, Assessors: []core.Named{{Subsystem: "box", Assessor: f}}}
	w, err := p.Weigh(context.Background(), req)
	require.NoError(t, err)
	return w
}

// Money against risk: all left; the ring renewed; the gears left; the spindle left; nothing left. Money against waiting: the pair, the used pair.
func TestWhatMoreMoneyBuys(t *testing.T) {
	w := weigh(t, request(), waiting())
	var totals, risks []string
	for i, x := range w.Risks {
		totals, risks = append(totals, x.Total.Number()), append(risks, x.Risk.Number())
		require.Equal(t, []int{3, 2, 1, 1, 0}[i], x.Left)
	}
	require.Equal(t, []string{"0.00", "734.25", "984.25", "1054.25", "1304.25"}, totals)
	require.Equal(t, []string{"2722.75", "1988.50", "1004.25", "984.25", "0.00"}, risks)
	require.Equal(t, "250.00", w.Risks[2].More.Number())
	require.Equal(t, "984.25", w.Risks[2].Less.Number())
	require.Len(t, w.Risks[2].Differs, 2)
	require.Equal(t, "spindle", w.Risks[2].Differs[0].PartName, "what lowers the risk most is named first")
	require.Equal(t, core.ChoiceDifference{Place: w.Risks[4].Differs[0].Place, PartName: "spindle", Was: "left as it is", Now: "replace: overhaul"}, w.Risks[4].Differs[0])

	require.Len(t, w.Waits, 2)
	require.Equal(t, []float64{8, 1}, []float64{w.Waits[0].Weeks, w.Waits[1].Weeks})
	require.Equal(t, "80.00", w.Waits[1].More.Number())
	require.Equal(t, "replace: used pair", w.Waits[1].Differs[0].Now)
}

// One subsystem may be kept closer to as it was made than the rest.
func TestOriginalityOfOneSubsystem(t *testing.T) {
	b := waiting()
	b.answer.Remedies[len(b.answer.Remedies)-1].OriginalityMax = 2
	b.answer.Remedies[4].OriginalityMin = 3 // the pair
	req := request()
	req.Job.Brief.Originality = 1
	require.Equal(t, "used-pair", choice(t, plan(t, req, b), "gear").Remedy)
	req.Job.Brief.OriginalityOf = []core.SubsystemLevel{{Subsystem: "other", Level: 4}, {Subsystem: "box", Level: 3}}
	require.Equal(t, "pair", choice(t, plan(t, req, b), "gear").Remedy)
}
