package core_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// stripJob is a truck with a gearbox and a spare one: bonnet or wires before the box, two hands at the hub.
func stripJob() (core.PlanRequest, []core.UnitSheet) {
	hours := core.Range3{Low: 1, Likely: 2, High: 3}
	step := func(id string, allOf ...string) core.Step {
		return core.Step{ID: id, Name: "Name of " + id, StripHours: hours, People: 1, AllOf: allOf}
	}
	out := step("box-out", "wash")
	out.AnyOf, out.People, out.Load, out.ConfirmHelp = [][]string{{"wires", "bonnet"}}, 2, "box", "The engine's rear is held."
	hubL, hubR := step("hub-off/LF"), step("hub-off/RF")
	hubL.Destroys, hubR.Destroys = []string{"hubs/bearing/end-float", "hubs/bearing/drag"}, []string{"hubs/bearing/end-float"}
	split := step("box-split", "box-out")
	split.Scope = "box"
	req := core.PlanRequest{People: 2, Job: core.Job{Number: "J-001", Vehicle: &core.Vehicle{Title: "a truck"}, Extent: core.Extent{Kind: core.ExtentAsNeeded},
		Units: []core.Unit{{ID: "box", Kind: "box"}, {ID: "box-2", Kind: "box"}}},
		Strip:       core.StripPlan{Steps: []core.Step{step("arrival"), step("wash", "arrival"), step("wires"), step("bonnet"), out, hubL, hubR, split}, BeforeAgreement: []string{"arrival"}},
		VehiclePack: &core.Pack{Weights: []core.Weight{{Key: "box", Weight: core.Quantity{Value: 100, Unit: "lb"}, Source: "manual page 3"}}}}
	bearing := core.Part{ID: "bearing", Name: "Hub bearings", Positions: []string{"LF", "RF"}, Checks: []core.Check{{ID: "end-float", Name: "end float", BeforeStrip: true},
		{ID: "drag", Name: "drag", Kind: core.Derived, BeforeStrip: true}, {ID: "pitting", Name: "pitting"}}}
	return req, []core.UnitSheet{{Subsystem: "hubs", Unit: "vehicle", Sheet: core.Sheet{Subsystem: "hubs", UnitKind: "vehicle", Parts: []core.Part{bearing}}}}
}

func stepAt(t *testing.T, steps []core.StripStep, key string) core.StripStep {
	t.Helper()
	s, err := core.FindStep(steps, key)
	require.NoError(t, err)
	return *s
}

func done(step, unit, is string) *core.StepDone {
	return &core.StepDone{Step: step, Unit: unit, Is: is, Hours: 1.5}
}

// TestStepsWaitForAllOfAndOneOfAny: every step of all-of, one of each any-of; skipped counts as gone by, undone as not done.
func TestStepsWaitForAllOfAndOneOfAny(t *testing.T) {
	req, sheets := stripJob()
	story := core.Story{Job: req.Job}
	steps := core.StripSteps(req, sheets, story)
	require.Equal(t, []string{"wash", "wires or bonnet"}, stepAt(t, steps, "box-out").Waits)
	require.Equal(t, []string{"arrival"}, stepAt(t, steps, "wash").Waits)
	require.True(t, stepAt(t, steps, "arrival").Free)
	require.False(t, stepAt(t, steps, "wash").Free)

	story.Fold(done("wash", "", core.StepIsSkipped), core.Stamp{})
	require.Equal(t, []string{"arrival", "wires or bonnet"}, stepAt(t, core.StripSteps(req, sheets, story), "box-out").Waits, "what the skipped step waited for still comes first")
	story.Fold(done("arrival", "", core.StepIsDone), core.Stamp{})
	story.Fold(done("bonnet", "", core.StepIsDone), core.Stamp{})
	steps = core.StripSteps(req, sheets, story)
	require.Empty(t, stepAt(t, steps, "box-out").Waits)
	require.Equal(t, core.StepIsSkipped, stepAt(t, steps, "wash").Is)
	require.Equal(t, 1.5, stepAt(t, steps, "bonnet").Spent)

	story.Fold(done("bonnet", "", core.StepIsUndone), core.Stamp{})
	require.Equal(t, []string{"wires or bonnet"}, stepAt(t, core.StripSteps(req, sheets, story), "box-out").Waits)

	req.Job.Extent.Apart = []string{"box-out"}
	steps = core.StripSteps(req, sheets, story)
	require.Equal(t, core.StepCameApart, stepAt(t, steps, "box-out").Is)
	require.Empty(t, stepAt(t, steps, "box-split").Waits)
}

// TestBenchStepsAreOfTheirUnit: each unit of a kind has the step; the first bears its plain name, and what is done to one is not done to the other.
func TestBenchStepsAreOfTheirUnit(t *testing.T) {
	req, sheets := stripJob()
	req.Job.Extent.Apart = []string{"box-out"}
	story := core.Story{Job: req.Job}
	story.Fold(done("box-split", "box", core.StepIsDone), core.Stamp{})
	steps := core.StripSteps(req, sheets, story)
	require.Equal(t, "box", stepAt(t, steps, "box-split").Unit)
	require.Equal(t, core.StepIsDone, stepAt(t, steps, "box-split@box").Is)
	require.Empty(t, stepAt(t, steps, "box-split@box-2").Is)
	_, err := core.FindStep(steps, "hub-off")
	require.Equal(t, core.Invalid, core.ErrorCode(err))
	_, err = core.FindStep(steps, "box-spilt")
	require.Contains(t, core.ErrorNext(err), `did you mean "box-split"`)

	req.Job.Vehicle, req.Job.Extent = nil, core.Extent{Kind: core.ExtentBench}
	steps = core.StripSteps(req, sheets, core.Story{Job: req.Job})
	require.Len(t, steps, 2, "without a vehicle only the bench steps exist")
	require.Empty(t, steps[0].Waits)
}

// TestAStepTellsAllThatKeepsItBack: what comes first, hands, support before the last fastener, readings before the spanner (common practice, no source).
func TestAStepTellsAllThatKeepsItBack(t *testing.T) {
	req, sheets := stripJob()
	steps := core.StripSteps(req, sheets, core.Story{Job: req.Job})
	box := stepAt(t, steps, "box-out")
	require.Len(t, box.Faults("J-001", core.Doing{People: 1}), 4)
	for _, err := range box.Faults("J-001", core.Doing{People: 1}) {
		require.Equal(t, core.Conflict, core.ErrorCode(err))
		require.NotEmpty(t, core.ErrorNext(err))
	}
	require.Len(t, box.Faults("J-001", core.Doing{People: 2, Confirmed: true}), 2)
	// Two legs at 60 degrees from the horizontal: W / (2 sin 60) = 57.7; the whole weight on one leg at 45: W / sin 45 = 141.4 (statics).
	require.Equal(t, 58.0, box.Lift.Leg60.Value)
	require.Equal(t, 141.0, box.Lift.LopSided45.Value)
	require.Equal(t, "manual page 3", box.Weight)
	req.VehiclePack = nil
	require.Equal(t, core.WeightUnknown, stepAt(t, core.StripSteps(req, sheets, core.Story{Job: req.Job}), "box-out").Weight)
}

// TestAStepDestroysWhatIsReadAtItsOwnPosition: not what another wheel's reading answers, not what is worked out from others.
func TestAStepDestroysWhatIsReadAtItsOwnPosition(t *testing.T) {
	req, sheets := stripJob()
	lost := func(fs ...core.Finding) []string {
		req.Findings = fs
		return stepAt(t, core.StripSteps(req, sheets, core.Story{Job: req.Job}), "hub-off/LF").Lost
	}
	read := func(position string, v core.Value) core.Finding {
		return core.Finding{ID: "f-" + position, Subsystem: "hubs", Target: core.Target{Part: "bearing", Position: position}, Check: "end-float", Value: v}
	}
	quantity := core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: .004, Unit: "in"}}
	not := func(n core.NotRead) core.Value { return core.Value{Kind: core.ValueNotRead, NotRead: n} }
	require.Equal(t, []string{"Hub bearings LF: end float"}, lost())
	require.Equal(t, []string{"Hub bearings LF: end float"}, lost(read("RF", quantity)))
	require.Empty(t, lost(read("LF", quantity)))
	require.Empty(t, lost(read("LF", not(core.CouldNotReach))))
	require.Empty(t, lost(read("LF", not(core.PartMissing))))
	require.Len(t, lost(read("LF", not(core.NotMeasured))), 1, "not measured only puts it off")
	hub := stepAt(t, core.StripSteps(req, sheets, core.Story{Job: req.Job}), "hub-off/LF")
	f := hub.Unread[0].Lost("Jory")
	require.Equal(t, core.Lost, f.Value.NotRead)
	require.Equal(t, []string{"f-LF"}, f.Supersedes, "it stands in the place of what put it off")
	require.Len(t, hub.Faults("J-001", core.Doing{People: 2}), 1)
	require.Empty(t, hub.Faults("J-001", core.Doing{People: 2, Lost: true}))
	req.Findings = append(req.Findings, f)
	require.Empty(t, stepAt(t, core.StripSteps(req, sheets, core.Story{Job: req.Job}), "hub-off/LF").Unread)

	story := core.Story{Job: req.Job}
	story.Fold(done("hub-off/LF", "", core.StepIsDone), core.Stamp{})
	open := core.UnreadBeforeStrip(req.Job, sheets, nil)
	require.True(t, open[0].Gone(core.StripSteps(req, sheets, story)))
	require.False(t, open[1].Gone(core.StripSteps(req, sheets, story)), "the other wheel is on")
	require.Equal(t, []string{"Hub bearings LF, RF: end float"}, core.ReadingNames(open))
	req.Job.Extent = core.Extent{Kind: core.ExtentNamed, Names: []string{"box"}}
	require.Empty(t, core.UnreadBeforeStrip(req.Job, sheets, nil), "outside the extent nothing is asked")
}

// TestNextAndSum: next are the plan's steps that wait for nothing; hours so far stand against the likely ones of the same steps.
func TestNextAndSum(t *testing.T) {
	req, sheets := stripJob()
	story := core.Story{Job: req.Job}
	story.Fold(done("arrival", "", core.StepIsDone), core.Stamp{})
	steps := core.StripSteps(req, sheets, story)
	var planned []core.PlannedStep
	for _, key := range []string{"arrival", "wash", "wires", "box-out"} {
		planned = append(planned, stepAt(t, steps, key).PlannedStep)
	}
	core.MarkPlanned(steps, planned)
	var next []string
	for _, s := range core.NextSteps(steps) {
		next = append(next, s.Key)
	}
	require.Equal(t, []string{"wash", "wires"}, next)
	require.Equal(t, core.StripSum{Done: 1, All: 4, Spent: 1.5, LikelyDone: 2, LikelyLeft: 6}, core.SumSteps(steps))
}
