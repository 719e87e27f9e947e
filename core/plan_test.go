package core_test

import (
	"context"
	"encoding/json"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/budget"
	"github.com/fettle-tools/fettle/core/decide"
)

// fake is a subsystem with fixed answers.
type fake struct {
	sheet  core.Sheet
	answer core.Assessment
	err    error
}

func (f fake) Describe(context.Context, []core.Fact) (core.Sheet, []core.Problem, error) {
	return f.sheet, nil, nil
}

func (f fake) Assess(context.Context, core.AssessRequest) (core.Assessment, error) {
	return f.answer, f.err
}

func usd(low, likely, high string) core.Money3 {
	return core.Money3{Low: low, Likely: likely, High: high, Currency: "USD"}
}

func flat(n string) core.Money3 { return usd(n, n, n) }

func operation(id string, price core.Money3, includes ...string) core.Operation {
	return core.Operation{ID: id, Name: id, Skill: "mechanic", Items: []core.Item{{Key: id, Name: id, Count: 1, TypicalEach: price, TaxClass: "parts"}}, ServedPer: "job", Includes: includes}
}

// box is a unit with two parts that share an overhaul, and a gear of its own.
func box() fake {
	one := func(id string, grade core.Grade, remedies ...string) core.Condition {
		return core.Condition{Target: core.Target{Part: id}, Grade: grade, ReadingsTaken: 1, ReadingsNeeded: 1, GoverningCheck: "wear",
			Reasons: []core.Reason{{Text: "worn past the limit", FindingIDs: []string{"f-" + id}, Check: "wear"}},
			States:  []core.State{{Chance: 1, Grade: grade, Remedies: remedies}}}
	}
	part := func(id string) core.Part {
		return core.Part{ID: id, Name: id, Count: 1, Reach: []string{"box-open"}, Checks: []core.Check{{ID: "wear", Name: "wear", Kind: core.Judged}}}
	}
	remedy := func(part, id string, kind core.RemedyKind, ops ...string) core.Remedy {
		return core.Remedy{ID: id, Target: core.Target{Part: part}, Kind: kind, Name: id, Feasible: true, Operations: ops}
	}
	return fake{
		sheet: core.Sheet{Subsystem: "box", Title: "Box", UnitKind: "box", Parts: []core.Part{part("spindle"), part("ring"), part("gear")}},
		answer: core.Assessment{
			Conditions: []core.Condition{one("spindle", core.PastLimit, "overhaul"), one("ring", core.PastLimit, "overhaul", "ring-alone"), one("gear", core.WithinNew, "reuse", "pair")},
			Remedies: []core.Remedy{remedy("spindle", "overhaul", core.Replace, "overhaul"), remedy("ring", "overhaul", core.Replace, "overhaul"),
				remedy("ring", "ring-alone", core.Replace, "ring-alone"), remedy("gear", "reuse", core.Reuse), remedy("gear", "pair", core.Replace, "pair")},
			Operations: []core.Operation{operation("overhaul", usd("200", "300", "400"), "reseal"), operation("ring-alone", flat("50")), operation("pair", flat("320")), operation("reseal", flat("70"))},
		},
	}
}

func request() core.PlanRequest {
	rate, _ := core.NewMoney("85", "USD")
	return core.PlanRequest{
		Job: core.Job{Number: "J-001", Vehicle: &core.Vehicle{Title: "a truck"}, Seed: 7, Extent: core.Extent{Kind: core.ExtentAsNeeded},
			Brief: core.Brief{HorizonKM: 20000, HorizonYears: 10}},
		Strip: core.StripPlan{Steps: []core.Step{
			{ID: "wash", Name: "wash", StripHours: core.Range3{Low: 1, Likely: 1, High: 1}, NoRefit: true},
			{ID: "box-out", Name: "box out", StripHours: core.Range3{Low: 2, Likely: 2, High: 2}, AllOf: []string{"wash"}},
			{ID: "box-open", Name: "box open", StripHours: core.Range3{Low: 1, Likely: 1, High: 1}, AllOf: []string{"box-out"}, Scope: "box"},
		}},
		Terms: core.Terms{Currency: "USD", Rates: []core.Rate{{Skill: "mechanic", Hour: rate}},
			Taxes: []core.Tax{{Class: "labour", Percent: "0", Name: "none"}, {Class: "parts", Percent: "8.25", Name: "sales tax"}}, Today: time.Date(2026, 11, 1, 0, 0, 0, 0, time.UTC)},
		Trials: 4000,
	}
}

func plan(t *testing.T, req core.PlanRequest, fakes ...fake) core.Plan {
	t.Helper()
	p := core.Planner{Decider: decide.Solver{}, Budgeter: budget.Simulator{}}
	for _, f := range fakes {
		p.Assessors = append(p.Assessors, core.Named{Subsystem: f.sheet.Subsystem, Assessor: f})
	}
	out, err := p.Plan(context.Background(), req)
	require.NoError(t, err)
	sum, labour := int64(0), int64(0)
	for _, l := range out.WorkOrder.Lines {
		sum += core.Minor(l.Amount)
		shares := int64(0)
		for _, s := range l.TaxShares {
			shares += core.Minor(s.Amount)
			if s.Class == "labour" {
				labour += core.Minor(s.Amount)
			}
		}
		require.Equal(t, core.Minor(l.Amount), shares, "the tax shares of %s", l.ID)
	}
	require.Equal(t, core.Minor(out.WorkOrder.TotalBeforeTax), sum, "lines sum to the total")
	require.Equal(t, out.WorkOrder.TotalBeforeTax, out.Budget.Expected)
	if len(req.Terms.Rates) == 1 {
		require.InDelta(t, float64(labour)/float64(core.Minor(req.Terms.Rates[0].Hour)), out.WorkOrder.HoursExpected, .02, "the hours expected are those that are priced")
	}
	return out
}

func choice(t *testing.T, p core.Plan, part string) core.Choice {
	t.Helper()
	for _, c := range p.Choices {
		if c.Part == part {
			return c
		}
	}
	t.Fatalf("no choice for %s", part)
	return core.Choice{}
}

func line(p core.Plan, id string) *core.Line {
	for i := range p.WorkOrder.Lines {
		if p.WorkOrder.Lines[i].ID == id {
			return &p.WorkOrder.Lines[i]
		}
	}
	return nil
}

// One overhaul serves both worn parts: it is paid once, and the ring's own remedy is no longer the cheap one.
func TestPlanPaysOnce(t *testing.T) {
	p := plan(t, request(), box())
	require.Equal(t, "overhaul", choice(t, p, "spindle").Remedy)
	ring := choice(t, p, "ring")
	require.Equal(t, "overhaul", ring.Remedy)
	require.Equal(t, "50.00", ring.RunnerUp.CostsMore.Number())
	require.Equal(t, core.Reuse, choice(t, p, "gear").Kind)
	work := line(p, "work:box@box:overhaul")
	require.Equal(t, "300.00", work.Amount.Number())
	require.Equal(t, "24.75", work.Tax.Number())
	require.Equal(t, 2, work.Shared)
	require.ElementsMatch(t, []string{"f-spindle", "f-ring"}, work.FindingIDs)
	require.Nil(t, line(p, "work:box@box:reseal"))
	// Wash 1 h, out 2 h, open 1 h at 85; back 3 h x (1.2 + 4 x 1.35 + 1.5) / 6 at 85.
	require.Equal(t, "984.25", p.WorkOrder.TotalBeforeTax.Number())
	require.True(t, p.Proof.Proven)
	// No other remedy is open to the spindle: no runner-up, and no price turns it.
	require.Nil(t, choice(t, p, "spindle").RunnerUp)
	require.Nil(t, choice(t, p, "spindle").FlipPrice)
}

// A reading straddles its limit: the part is undecided, and what it may need is held back at its chance.
func TestPlanReservesUndecided(t *testing.T) {
	b := box()
	b.answer.Conditions = b.answer.Conditions[2:]
	c := &b.answer.Conditions[0]
	c.Grade = core.MeasureAgain
	c.States = []core.State{{Chance: .7, Grade: core.NearLimit, Remedies: []string{"reuse", "pair"}}, {Chance: .3, Grade: core.PastLimit, Remedies: []string{"pair"}}}
	req := request()
	req.Job.Brief = core.Brief{} // no horizon: reuse costs no risk beyond its residual
	p := plan(t, req, b)
	require.Equal(t, core.Undecided, choice(t, p, "gear").Kind)
	r := line(p, "reserve:box@box:pair")
	require.Equal(t, "96.00", r.Amount.Number())
	require.InDelta(t, .3, *r.Chance, 1e-12)
	require.Equal(t, core.LineReserve, line(p, "reserve:box-open").Kind)
}

// Two unseen parts hang on one register row: the overhaul that both would need is held back once, at the row's chance.
func TestPlanReservesOneEventOnce(t *testing.T) {
	b := box()
	for i := range b.sheet.Parts {
		b.sheet.Parts[i].Outlook = []core.State{{Chance: .3, Grade: core.WornFit, Remedies: []string{"reuse", "overhaul"}}, {Chance: .7, Grade: core.PastLimit, Remedies: []string{"overhaul"}, RegisterID: "R1"}}
	}
	b.sheet.Hidden = []core.Hidden{{ID: "R1", Name: "spindle and ring worn", Chance: .7, Parts: []core.Target{{Part: "spindle"}, {Part: "ring"}}, HistoryKeys: []string{"water"}}}
	b.answer.Conditions = b.answer.Conditions[:2]
	for i := range b.answer.Conditions {
		c := &b.answer.Conditions[i]
		c.Grade, c.ReadingsTaken, c.GoverningCheck = core.NotSeen, 0, ""
		c.States = b.sheet.Parts[i].Outlook
		b.answer.Remedies = append(b.answer.Remedies, core.Remedy{ID: "reuse", Target: c.Target, Kind: core.Reuse, Name: "reuse", Feasible: true})
	}
	req := request()
	req.Job.Brief = core.Brief{}
	p := plan(t, req, b)
	r := line(p, "reserve:box@box:overhaul")
	require.InDelta(t, .7, *r.Chance, 1e-9)
	require.Equal(t, "210.00", r.Amount.Number())
	require.Len(t, p.NotSeen, 2)
	require.Equal(t, core.Undecided, choice(t, p, "ring").Kind)

	req.Job.Brief.Stored = "outdoors" // the row is one that water raises: .7 x 1.3 = .91
	require.InDelta(t, .91, *line(plan(t, req, b), "reserve:box@box:overhaul").Chance, 1e-9)
}

// A register row that speaks of no part is an event of its own.
func TestPlanOwnEvents(t *testing.T) {
	b := box()
	b.sheet.Hidden = []core.Hidden{{ID: "R2", Name: "broken studs", Chance: .5, Operations: []string{"ring-alone"}, Times: 1.5}}
	p := plan(t, request(), b)
	require.Equal(t, "37.50", line(p, "reserve:box@box:R2").Amount.Number())
}

func TestPlanDeadSubsystem(t *testing.T) {
	dead := box()
	dead.sheet.Subsystem = "dead"
	dead.err = core.Errorf(core.Unavailable, "run it again", "the plugin stopped while answering")
	req := request()
	req.Findings = []core.Finding{{ID: "x", Subsystem: "dead", Target: core.Target{Part: "ring"}}, {ID: "y", Subsystem: "nobody", Target: core.Target{Part: "ring"}}}
	p := plan(t, req, dead, box())
	require.Len(t, p.Choices, 3, "the healthy subsystem is planned all the same")
	told := 0
	for _, q := range p.Problems {
		if q.Subsystem == "dead" {
			require.Equal(t, "not assessed: the plugin stopped while answering", q.Summary)
			require.Equal(t, "run it again", q.Next)
			told++
		}
		if q.FindingID == "y" {
			require.Contains(t, q.Summary, "kept but not used")
			told++
		}
	}
	require.Equal(t, 4, told, "one for each part, and one for the finding that nobody serves")
}

func TestPlanPinsAndLeft(t *testing.T) {
	req := request()
	place := func(part string) core.Place {
		return core.Place{Subsystem: "box", Unit: "box", Target: core.Target{Part: part}}
	}
	req.Job.Pins = []core.Pin{{Place: place("gear"), Remedy: "pair", Reason: "noisy on the road", By: "Jory"}}
	p := plan(t, req, box())
	gear := choice(t, p, "gear")
	require.Equal(t, core.Replace, gear.Kind)
	require.NotNil(t, gear.PinCosts)
	require.Positive(t, core.Minor(*gear.PinCosts))

	req.Job.Pins = []core.Pin{{Place: place("ring"), Remedy: "reuse", Reason: "looks well", By: "Jory"}}
	p = plan(t, req, box())
	require.Equal(t, "overhaul", choice(t, p, "ring").Remedy, "no pin reopens what the grade closed")
	require.Contains(t, p.Problems[0].Summary, "does not hold")

	req.Job.Pins, req.Job.Left = nil, []core.Left{{Place: place("ring"), Reason: "next winter", By: "owner"}}
	p = plan(t, req, box())
	require.Equal(t, core.LeftAsIs, choice(t, p, "ring").Kind)
}

func TestPlanExtents(t *testing.T) {
	req := request()
	req.Job.Extent.Apart = []string{"box-out", "wash"}
	p := plan(t, req, box())
	require.Nil(t, line(p, "strip:box-out"), "what arrived apart costs refit only")
	require.NotNil(t, line(p, "refit:box-out"))

	req = request()
	req.Job.Vehicle, req.Job.Units = nil, []core.Unit{{ID: "b1", Kind: "box"}, {ID: "b2", Kind: "box"}}
	req.Job.Extent.Kind = core.ExtentBench
	p = plan(t, req, box())
	require.Nil(t, line(p, "strip:wash"), "without a vehicle its steps do not exist")
	require.NotNil(t, line(p, "strip:box-open"))
	require.NotNil(t, line(p, "strip:box-open@b2"), "each unit has its own bench work")
	require.NotNil(t, line(p, "work:box@b2:overhaul"))

	req = request()
	req.Job.Extent = core.Extent{Kind: core.ExtentNamed, Names: []string{"something else"}}
	require.Empty(t, plan(t, req, box()).Choices)
}

func TestPlanWithoutPrices(t *testing.T) {
	req := request()
	req.Terms.Currency, req.Terms.Rates, req.Terms.Taxes = "EUR", nil, nil
	p := plan(t, req, box())
	var said []string
	for _, q := range p.Problems {
		said = append(said, q.Summary)
	}
	require.Contains(t, said, "no price in EUR for overhaul", "a typical price is never relabelled into another currency")
	require.Contains(t, said, `no hourly rate for "mechanic": that work is priced without its labour`)
	labour, things := p.Unpriced()
	require.True(t, labour)
	require.Positive(t, things)
	labour, things = plan(t, request(), box()).Unpriced()
	require.False(t, labour)
	require.Zero(t, things)
}

func TestPlanSameTwice(t *testing.T) {
	a, err := json.Marshal(plan(t, request(), box()))
	require.NoError(t, err)
	b, err := json.Marshal(plan(t, request(), box()))
	require.NoError(t, err)
	require.Equal(t, string(a), string(b))
}

// A one-use part opens nothing by itself: it is new where its reach is opened, and stays where it is not.
func TestPlanOneUseFollows(t *testing.T) {
	joint := func(b fake) fake {
		b.sheet.Parts = append(b.sheet.Parts, core.Part{ID: "joint", Name: "joint", Count: 1, OneUse: true, Reach: []string{"box-open"}, Checks: []core.Check{{ID: "new", Kind: core.OneUse}}})
		b.answer.Conditions = append(b.answer.Conditions, core.Condition{Target: core.Target{Part: "joint"}, Grade: core.WornFit, States: []core.State{{Chance: 1, Grade: core.WornFit, Remedies: []string{"new"}}}})
		b.answer.Remedies = append(b.answer.Remedies, core.Remedy{ID: "new", Target: core.Target{Part: "joint"}, Kind: core.Replace, Name: "new", Feasible: true, Operations: []string{"reseal"}})
		return b
	}
	sound := box()
	sound.answer.Conditions = sound.answer.Conditions[2:]
	p := plan(t, request(), joint(sound))
	require.Equal(t, core.Reuse, choice(t, p, "joint").Kind)
	require.Empty(t, p.WorkOrder.Lines, "nothing is opened for a joint")

	p = plan(t, request(), joint(box()))
	require.Equal(t, core.Replace, choice(t, p, "joint").Kind)
	require.Nil(t, line(p, "work:box@box:reseal"), "the overhaul includes it")

	req := request()
	req.Job.Extent = core.Extent{Kind: core.ExtentNamed, Names: []string{"box"}}
	p = plan(t, req, joint(sound))
	require.Equal(t, core.Replace, choice(t, p, "joint").Kind, "the extent opens the box, so the joint is new")
	require.NotNil(t, line(p, "work:box@box:reseal"))
}

// unasked is a subsystem that must not be asked.
type unasked struct{ t *testing.T }

func (u unasked) Describe(context.Context, []core.Fact) (core.Sheet, []core.Problem, error) {
	u.t.Error("it was asked")
	return core.Sheet{}, nil, nil
}

func (u unasked) Assess(context.Context, core.AssessRequest) (core.Assessment, error) {
	u.t.Error("it was asked")
	return core.Assessment{}, nil
}

// A subsystem of which the job has no unit is not started where that is known without it.
func TestWhatCannotLieInTheJobIsNotAsked(t *testing.T) {
	for _, c := range []struct {
		vehicle bool
		extent  core.Extent
		units   []core.Unit
		kind    string
	}{
		{false, core.Extent{Kind: core.ExtentAsNeeded}, []core.Unit{{ID: "box", Kind: "box"}}, "vehicle"},
		{false, core.Extent{Kind: core.ExtentAsNeeded}, []core.Unit{{ID: "box", Kind: "box"}, {ID: "old", Kind: "axle", Role: core.UnitSpare}}, "axle"},
		{true, core.Extent{Kind: core.ExtentNamed, Names: []string{"box", "engine"}}, nil, "axle"},
	} {
		req := request()
		req.Job.Extent, req.Job.Units = c.extent, c.units
		if !c.vehicle {
			req.Job.Vehicle = nil
		}
		f := box()
		p := core.Planner{Decider: decide.Solver{}, Budgeter: budget.Simulator{}, Assessors: []core.Named{
			{Subsystem: "box", UnitKind: "box", Assessor: f}, {Subsystem: "other", UnitKind: c.kind, Assessor: unasked{t}}}}
		out, err := p.Plan(t.Context(), req)
		require.NoError(t, err)
		require.Len(t, out.Sheets, 1)
		require.Equal(t, "box", out.Sheets[0].Subsystem)
	}
}

// A whole job that comes out far from what whole jobs take is asked about, and nothing else is.
func TestPlanEnvelope(t *testing.T) {
	req := request()
	req.Job.Extent.Kind = core.ExtentBareFrame
	asked := 0
	for _, q := range plan(t, req, box()).Problems {
		if q.Severity == core.SeverityWarning {
			require.Contains(t, q.Next, "what is left out?")
			asked++
		}
	}
	require.Equal(t, 2, asked)
	for _, q := range plan(t, request(), box()).Problems {
		require.NotContains(t, q.Next, "left out")
	}
}
