package web

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// Fitting knows one shaft.
func (s *shop) Fitting(_ context.Context, _, what string) (core.Fit, core.UnitSheet, error) {
	sheet := core.UnitSheet{Subsystem: "gearbox", Sheet: core.Sheet{Subsystem: "gearbox", Parts: []core.Part{{ID: "shaft", Name: "Shaft", Checks: []core.Check{
		{ID: "end-float", Name: "end float", Kind: core.Measured, Unit: "in", Limit: core.Limit{NewLow: new(.004), NewHigh: new(.01), Unit: "in", Source: "manual"}},
		{ID: "scored", Name: "scoring", Kind: core.Judged}}}}}}
	if what != "gearbox/shaft" {
		return core.Fit{}, core.UnitSheet{}, core.Errorf(core.NotFound, "name a part like gearbox/case, or a tag: fettle tag J-001", "J-001 has no tag or part %q", what)
	}
	return core.Fit{Subsystem: "gearbox", Target: core.Target{Part: "shaft"}}, sheet, nil
}

func (s *shop) Fit(_ context.Context, _, by string, t Fitting) error {
	s.fitted = append(s.fitted, t)
	if t.Second == by {
		return core.Errorf(core.Conflict, "let somebody else look it over: --second NAME", "%s fitted it", by)
	}
	return nil
}

func (s *shop) Work(_ context.Context, _, _ string, t Working) error {
	if t.Hours == "" {
		return core.Errorf(core.Invalid, "write them like 1.5 or 1:30", "%q are no hours", t.Hours)
	}
	return nil
}

// The sizes of a part are asked one by one, against what they are held to; a bare figure is in the unit that the form names.
func TestWhatWasFittedIsTakenDown(t *testing.T) {
	x := &shop{}
	at := "/jobs/J-001/build/fit?what=gearbox%2Fshaft"
	body := askOf(t, x, "GET", at, "").Body.String()
	require.Contains(t, body, "0.004 to 0.01 in, manual")
	require.Contains(t, body, `value="class 3"`)
	w := askOf(t, x, "POST", at, "reading0=.006&reading1=class+0&torques=lid+20+lbf+ft&used=Gasket&others=seal,+clip&second=Jory&by=Jory", typedForm...)
	require.Equal(t, 409, w.Code)
	for _, kept := range []string{`value=".006"`, `value="class 0" checked`, "lid 20 lbf ft</textarea>", `value="seal, clip"`, "Next: let somebody else look it over<"} {
		require.Contains(t, w.Body.String(), kept)
	}
	require.Equal(t, []string{"end-float .006 in", "scored class 0"}, x.fitted[0].Readings)
	require.Equal(t, []string{"Gasket", "seal", "clip"}, x.fitted[0].Used)
	w = askOf(t, x, "POST", at, "reading0=6+thou&second=Wren&by=Jory", typedForm...)
	require.Equal(t, "/jobs/J-001/build", w.Header().Get("Location"))
	require.Equal(t, []string{"end-float 6 thou"}, x.fitted[1].Readings)
	w = askOf(t, x, "GET", "/jobs/J-001/build/fit?what=x", "")
	require.Equal(t, 404, w.Code)
	require.Contains(t, w.Body.String(), "Next: name a part like gearbox/case, or a tag<")
	require.Contains(t, w.Body.String(), `list="parts" value="x"`)

	// Parts are offered by their names; where two have one name, by their addresses.
	body = askOf(t, x, "GET", "/jobs/J-001/build", "").Body.String()
	for _, one := range []string{`<option value="Shaft">gearbox/shaft</option>`, `<option value="gearbox/case">Case</option>`, `<option value="transfer-box/case">Case</option>`} {
		require.Contains(t, body, one)
	}

	w = askOf(t, x, "POST", "/jobs/J-001/hours", "task=sorting", typedForm...)
	require.Equal(t, 422, w.Code)
	require.Contains(t, w.Body.String(), `value="sorting"`)
	require.Equal(t, 303, askOf(t, x, "POST", "/jobs/J-001/hours", "task=sorting&hours=1:30", typedForm...).Code)
}
