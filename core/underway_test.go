package core_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

func TestUnderway(t *testing.T) {
	at := func(unit, position string) core.Place {
		return core.Place{Subsystem: "gearbox", Unit: unit, Target: core.Target{Part: "shaft", Position: position}}
	}
	found := func(id string, p core.Place) core.Finding {
		return core.Finding{ID: id, Subsystem: p.Subsystem, Unit: p.Unit, Target: p.Target, Check: "cracks"}
	}
	req := core.PlanRequest{Job: core.Job{Extent: core.Extent{Apart: []string{"wheels-off"}},
		Moved: []core.Transplant{{From: at("spare", "front"), To: at("gearbox", "front"), Why: "the better one"}}},
		Findings: []core.Finding{found("worn", at("gearbox", "front")), found("kept", at("gearbox", "rear")), found("good", at("spare", "front"))}}
	story := core.Story{Steps: []core.StepDone{{Step: "gearbox-out", Is: core.StepIsDone}, {Step: "case-open", Unit: "gearbox", Is: core.StepIsDone},
		{Step: "engine-out", Is: core.StepIsDone}, {Step: "engine-out", Is: core.StepIsUndone}, {Step: "tank-out", Is: core.StepIsSkipped}}}
	got := req.Underway(story)
	require.Equal(t, []string{"wheels-off", "gearbox-out", "case-open@gearbox"}, got.Job.Extent.Apart)
	require.Equal(t, []string{"wheels-off"}, req.Job.Extent.Apart, "the job itself is as it was")
	var ids []string
	for _, f := range got.Findings {
		ids = append(ids, f.ID+" "+f.Place().String())
	}
	require.Equal(t, []string{"kept gearbox/shaft/rear", "good gearbox@spare/shaft/front", "good gearbox/shaft/front"}, ids)
}
