package web

import (
	"html"
	"net/http/httptest"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// A change note waits on the page of papers for its answer, which is written down option by option; a fault gives back what was typed.
func TestAChangeNoteIsAnswered(t *testing.T) {
	x := &shop{story: func(s *core.Story) {
		s.Surprises = []core.Surprise{{ID: "C-001", Found: "cracked at the web", NotBefore: "under the paint", Safety: true, Note: "N-001",
			Options: []core.SurpriseOption{{Do: "weld it", Sum: core.MinorMoney(42000, "USD"), Weeks: 1}, {Do: "leave it", Leaves: true, Risk: "it will break"}}}}
		s.Notes = []core.Note{{ID: "N-001", State: core.NoteSent, Surprises: []string{"C-001"}}, {ID: "N-002", State: core.NoteDeclined}}
	}}
	require.Contains(t, askOf(t, x, "GET", "/jobs/J-001/papers", "").Body.String(), `href="/jobs/J-001/papers/answer/N-001"`)
	page := html.UnescapeString(askOf(t, x, "GET", "/jobs/J-001/papers/answer/N-001", "").Body.String())
	for _, words := range []string{"C-001: cracked at the web", "Not seen before: under the paint", "Weld it: +420.00, 1 week later", "it will break", "None of these", "leaves on a trailer"} {
		require.Contains(t, page, words)
	}
	send := func(form string) *httptest.ResponseRecorder {
		return askOf(t, x, "POST", "/jobs/J-001/papers/answer/N-001", form, "Content-Type", "application/x-www-form-urlencoded")
	}
	page = send("C-001=1&who=M.+Wellbeck").Body.String()
	require.Contains(t, page, "How was it answered?")
	require.Contains(t, page, `name="C-001" value="1" checked`)
	require.Empty(t, x.ended)
	w := send("C-001=1&who=M.+Wellbeck&how=phone")
	require.Equal(t, "/jobs/J-001/papers#gate-change", w.Header().Get("Location"))
	send("C-001=0&who=M.+Wellbeck&how=phone")
	answer := core.Answer{Note: "N-001", State: core.NoteApproved, Who: "M. Wellbeck", How: "phone", Options: []core.NoteAnswer{{Surprise: "C-001", Option: 1}}}
	no := answer
	no.State, no.Options = core.NoteDeclined, []core.NoteAnswer{{Surprise: "C-001"}}
	require.Equal(t, []any{answer, no}, x.ended)

	// It is taken back, or nobody answered in time; either has its reason.
	w = send("over=withdrawn&who=M.+Wellbeck&C-001=1")
	require.Equal(t, 422, w.Code)
	require.Contains(t, w.Body.String(), "No reason is given")
	for _, over := range []string{core.NoteWithdrawn, core.NoteExpired} {
		w = send("over=" + over + "&why=looked+at+again")
		require.Equal(t, "/jobs/J-001/papers#gate-change", w.Header().Get("Location"))
		require.Equal(t, core.Answer{Note: "N-001", State: over, Why: "looked at again"}, x.ended[len(x.ended)-1])
	}

	require.Equal(t, 409, askOf(t, x, "GET", "/jobs/J-001/papers/answer/N-002", "").Code)
	require.Equal(t, 404, askOf(t, x, "GET", "/jobs/J-001/papers/answer/N-009", "").Code)
}
