package core_test

import (
	"context"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/budget"
	"github.com/fettle-tools/fettle/core/decide"
)

func always(v float64) core.Range3 { return core.Range3{Low: v, Likely: v, High: v} }

// timed is the box whose overhaul takes 10 hours and 4 weeks, at a bench of 10 hours a week; it takes 4 hours to open and 3 to close.
func timed(kind string) (core.PlanRequest, fake) {
	req, b := request(), box()
	req.Pace.HoursWeek, req.Pace.From = 10, req.Terms.Today
	for i, hours := range []float64{0, 2, 1} {
		req.Strip.Steps[i].RefitHours = always(hours)
	}
	b.answer.Operations[0].Hours, b.answer.Operations[0].LeadWeeks, b.answer.Operations[0].OutworkKind = always(10), always(4), kind
	return req, b
}

// finished plans with a Timekeeper, and checks that the rest of the plan is what it is without.
func finished(t *testing.T, req core.PlanRequest, b fake) core.Finish {
	t.Helper()
	p := core.Planner{Decider: decide.Solver{}, Budgeter: budget.Simulator{}, Timekeeper: budget.Simulator{}, Assessors: []core.Named{{Subsystem: b.sheet.Subsystem, Assessor: b}}}
	out, err := p.Plan(context.Background(), req)
	require.NoError(t, err)
	require.NotNil(t, out.Finish)
	f := *out.Finish
	out.Finish = nil
	require.Equal(t, plan(t, req, b), out)
	require.Equal(t, req.Terms.Today, f.From)
	return f
}

// By hand, at the median labour ratio of 1: the box is open after .4 weeks.
func TestFinishOfAPlan(t *testing.T) {
	p50 := func(kind string, edit func(*core.PlanRequest, *fake)) float64 {
		req, b := timed(kind)
		if edit != nil {
			edit(&req, &b)
		}
		return finished(t, req, b).P50
	}
	begun := func(x core.Begun) func(*core.PlanRequest, *fake) {
		return func(req *core.PlanRequest, _ *fake) {
			x.Line = "work:box@box:overhaul"
			req.Begun = []core.Begun{{Line: "work:box@box:ring-alone", Ordered: true}, x}
		}
	}
	due := request().Terms.Today.AddDate(0, 0, 14)
	require.InDelta(t, .4+4+1.3, p50("grinding", nil), .02, "it goes out when the box is open, and comes back to 10 hours of work and 3 of closing")
	require.InDelta(t, 4+1.3, p50("", nil), .02, "goods that are needed for certain are ordered today")
	require.InDelta(t, 2+1.3, p50("grinding", begun(core.Begun{Ordered: true, Waiting: true, Due: &due})), .02, "it is out, and promised in two weeks")
	require.InDelta(t, 4+1.3, p50("grinding", begun(core.Begun{Ordered: true, Waiting: true})), .02, "it is out, and nobody promised a day")
	require.InDelta(t, .4+1.3, p50("grinding", begun(core.Begun{Ordered: true})), .02, "it is back")
	require.InDelta(t, .4+4+.7, p50("grinding", begun(core.Begun{Hours: 6})), .02, "6 hours are worked of 10")
	require.InDelta(t, .4+4+.3, p50("grinding", begun(core.Begun{Hours: 16})), .02, "no work takes less than nothing")
	require.InDelta(t, 4+1.3, p50("grinding", func(req *core.PlanRequest, _ *fake) { req.Job.Extent.Apart = []string{"wash", "box-out", "box-open"} }), .02, "it came apart")
	require.InDelta(t, 4.8+2.6, p50("grinding", func(req *core.PlanRequest, _ *fake) { req.Pace.HoursWeek = 5 }), .02)
	require.InDelta(t, .8+4+1.3, p50("grinding", func(req *core.PlanRequest, _ *fake) { req.Pace.Others = []float64{7, 0} }), .02,
		"half of the week until the other job's 7 hours are worked off in week 1.4, when this one is out; then all of it")
}

// Goods for a part that is not known are ordered when it has been seen: by hand, in week .4; in seven trials of ten it needs none.
func TestFinishOfWhatIsNotSettled(t *testing.T) {
	req, b := timed("")
	b.answer.Operations[2].LeadWeeks = always(9)
	b.answer.Conditions = b.answer.Conditions[2:]
	b.answer.Conditions[0].Grade = core.MeasureAgain
	b.answer.Conditions[0].States = []core.State{{Chance: .7, Grade: core.NearLimit, Remedies: []string{"reuse", "pair"}}, {Chance: .3, Grade: core.PastLimit, Remedies: []string{"pair"}}}
	req.Job.Brief = core.Brief{}
	f := finished(t, req, b)
	require.Zero(t, f.P50)
	require.InDelta(t, .4+9+.3, f.P90, .1)
	require.InDelta(t, .3, f.HeldUp[0].Chance, .03)
	require.Equal(t, "pair", f.HeldUp[0].Name)
	require.InDelta(t, .4, f.HeldUp[0].Begins, .05)
}

// A set that is ordered for together waits for its last member to be laid open.
func TestFinishOfASetThatGoesTogether(t *testing.T) {
	req, b := timed("grinding")
	b.sheet.Parts[2].Reach = []string{"far"}
	req.Strip.Steps = append(req.Strip.Steps, core.Step{ID: "far", Name: "far", StripHours: always(20), NoRefit: true, AllOf: []string{"box-open"}, BareFrame: true})
	req.Job.Extent.Kind = core.ExtentBareFrame
	require.InDelta(t, .4+4+1.3, finished(t, req, b).P50, .03, "the overhaul's own parts lie open before the 20 hours")
	b.sheet.Sets = []core.Set{{ID: "together", Members: []core.Target{{Part: "ring"}, {Part: "gear"}}, CompleteBeforeOrder: true}}
	require.InDelta(t, 2.4+4+1.3, finished(t, req, b).P50, .03)
}

func TestFinishIsNotSaidWithoutAWeek(t *testing.T) {
	req, b := timed("")
	req.Pace.HoursWeek = 0
	p := core.Planner{Decider: decide.Solver{}, Budgeter: budget.Simulator{}, Timekeeper: budget.Simulator{}, Assessors: []core.Named{{Subsystem: "box", Assessor: b}}}
	out, err := p.Plan(context.Background(), req)
	require.NoError(t, err)
	require.Nil(t, out.Finish)
}

func TestFinishByADay(t *testing.T) {
	zone := time.FixedZone("east", 10*3600)
	f := core.Finish{From: time.Date(2026, 11, 24, 20, 0, 0, 0, time.UTC), Curve: []float64{2, 3, 3, 5}}
	for weeks, chance := range map[float64]float64{1: 0, 2: 0, 2.5: 1. / 6, 3: 2. / 3, 4: 5. / 6, 5: 1, 6: 1} {
		require.InDelta(t, chance, f.By(weeks), 1e-12, "%g weeks", weeks)
	}
	require.Zero(t, core.Finish{}.By(3))
	// It is the 25th already in the zone.
	require.Equal(t, "2026-12-09", f.Day(2, zone).Format(time.DateOnly))
	require.Equal(t, "2026-12-10", f.Day(2.01, zone).Format(time.DateOnly))
	require.Equal(t, "2026-12-08", f.Day(2, time.UTC).Format(time.DateOnly))
	require.InDelta(t, 2, f.Weeks(time.Date(2026, 12, 9, 0, 0, 0, 0, zone), zone), 1e-12)
	require.InDelta(t, -1./7, f.Weeks(time.Date(2026, 11, 24, 23, 0, 0, 0, zone), zone), 1e-12)
}

// By hand: the overhaul is back in week 4.4 and takes until 5.4; only then the pair is ordered, and it is here in week 8.4.
func TestFinishOfWhatComesAfterOtherWork(t *testing.T) {
	req, b := timed("grinding")
	b.answer.Conditions[2].Grade, b.answer.Conditions[2].States = core.Failed, []core.State{{Chance: 1, Grade: core.Failed, Remedies: []string{"pair"}}}
	b.answer.Operations[2].ID, b.answer.Remedies[4].Operations = "pair/gear", []string{"pair/gear"}
	pair := &b.answer.Operations[2]
	pair.Hours, pair.LeadWeeks = always(4), always(3)
	require.InDelta(t, .4+4+1.3, finished(t, req, b).P50, .02)
	pair.After = []string{"overhaul"}
	f := finished(t, req, b)
	require.InDelta(t, 5.4+3+.7, f.P50, .02)
	require.Equal(t, "pair", f.HeldUp[0].Name)
	// A ring is cut where it closes.
	b.answer.Operations[0].After = []string{"pair"}
	require.Positive(t, finished(t, req, b).P50)
	b.answer.Operations[0].After = nil
	// What is here waits for nothing more.
	req.Begun = []core.Begun{{Line: "work:box@box:pair/gear", Ordered: true}}
	require.InDelta(t, .4+4+1.3, finished(t, req, b).P50, .02)
}

// A sheet that gives the likely alone, or a range that falls, is taken as far as it goes.
func TestFinishOfARangeThatDoesNotRise(t *testing.T) {
	req, b := timed("grinding")
	b.answer.Operations[0].LeadWeeks = core.Range3{Likely: 4}
	require.InDelta(t, .4+4+1.3, finished(t, req, b).P50, .02)
	b.answer.Operations[0].LeadWeeks = core.Range3{Low: 6, Likely: 4, High: 1}
	require.InDelta(t, .4+4+1.3, finished(t, req, b).P50, .02)
}
