package web

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

func (s *shop) Run(_ context.Context, _, _ string, t Running) error {
	s.ended = append(s.ended, t)
	if t.Distance != "" {
		return core.Errorf(core.Conflict, "let a second person check it: fettle build J-001 PART --second NAME", "not checked by a second person: gearbox/case")
	}
	return nil
}
func (s *shop) Settle(_ context.Context, _, _ string, t Settling) error {
	s.ended = append(s.ended, t)
	return nil
}
func (s *shop) HandOver(_ context.Context, _, _ string, h core.Handover) error {
	s.ended = append(s.ended, h)
	if h.Signed == "" {
		return core.Errorf(core.Invalid, "name who signed for it: --signed NAME", "nobody has signed for it")
	}
	return nil
}
func (s *shop) Pay(_ context.Context, _, _ string, p core.Payment, sum string) error {
	s.ended = append(s.ended, p, sum)
	if sum == "" {
		return core.Errorf(core.Invalid, "write an amount like 1200", "no sum is given")
	}
	return nil
}

// Each form of the page goes its own way; what is refused stays as it was typed, with the reason above.
func TestAJobIsEnded(t *testing.T) {
	x := &shop{story: func(s *core.Story) {
		s.Snags = []core.Snag{{ID: "G-001", What: "weeps at the seal"}, {ID: "G-002", What: "pulls left", Safety: true, Cleared: "shoes set"}}
		s.Outwork = []core.Outwork{{ID: "O-001", To: "Tern Lane Grinding", State: core.OutworkOut}}
	}}
	body := askOf(t, x, "GET", "/jobs/J-001/handover", "").Body.String()
	for _, says := range []string{"O-001 is out at Tern Lane Grinding", "Settle G-001", "Put right: shoes set", "The owner’s own words on what is still open", "M. Wellbeck, owner"} {
		require.Contains(t, body, says)
	}
	require.NotContains(t, body, "Settle G-002", "what is put right is settled")

	w := askOf(t, x, "POST", "/jobs/J-001/handover/run", "what=run&distance=20+miles&readings=oil+45+psi%0D%0Awater+180+F&safety=yes&snags=pulls", typedForm...)
	require.Equal(t, 409, w.Code)
	require.Contains(t, w.Body.String(), "Next: let a second person check it<")
	require.Contains(t, w.Body.String(), "oil 45 psi\nwater 180 F</textarea>")
	require.Contains(t, w.Body.String(), `name="safety" value="yes" checked`)
	require.Equal(t, 303, askOf(t, x, "POST", "/jobs/J-001/handover/snags/G-001", "do=clear&how=seal+seated", typedForm...).Code)
	require.Equal(t, 303, askOf(t, x, "POST", "/jobs/J-001/handover/snags/G-001", "do=leave&how=x&who=M.+Wellbeck", typedForm...).Code)
	w = askOf(t, x, "POST", "/jobs/J-001/handover/money", "is=asked&stage=deposit", typedForm...)
	require.Equal(t, 422, w.Code)
	require.Contains(t, w.Body.String(), `value="asked" checked`)
	w = askOf(t, x, "POST", "/jobs/J-001/handover", "old-parts=none&told=he+knows", typedForm...)
	require.Equal(t, 422, w.Code)
	require.Contains(t, w.Body.String(), `value="none" checked`)
	require.Contains(t, w.Body.String(), "he knows</textarea>")
	w = askOf(t, x, "POST", "/jobs/J-001/handover", "signed=M.+Wellbeck&old-parts=none", typedForm...)
	require.Equal(t, "/jobs/J-001/handover#end", w.Header().Get("Location"))
	require.Equal(t, []any{
		Running{What: "run", Distance: "20 miles", Readings: []string{"oil 45 psi", "water 180 F"}, Snags: []string{"pulls"}, Safety: true},
		Settling{Snag: "G-001", How: "seal seated"}, Settling{Snag: "G-001", Who: "M. Wellbeck"},
		core.Payment{Is: "asked", Stage: "deposit"}, "",
		core.Handover{OldParts: "none", Told: "he knows"}, core.Handover{Signed: "M. Wellbeck", OldParts: "none"},
	}, x.ended)
}
