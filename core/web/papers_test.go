package web

import (
	"context"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// scopeAt is a scope as issued, of two lines of work.
var scopeAt = core.Issued{Kind: "scope", Number: "J-001-S", Revision: 2, At: time.Date(2026, 11, 20, 9, 0, 0, 0, time.UTC), Total: core.MinorMoney(1240000, "USD"),
	Lines: []core.Line{{ID: "strip:1", Kind: core.LineStrip, Name: "Lid off"}, {ID: "work:gearbox@gearbox:overhaul", Kind: core.LineWork, Subsystem: "gearbox", Name: "Full overhaul", Outwork: "gear work"},
		{ID: "work:brakes@:reline", Kind: core.LineWork, Subsystem: "brakes", Name: "Shoes relined", Safety: true}}}

func (s *shop) Sorts(story core.Story) []Sort {
	return []Sort{{Job: story.Job.Number, Kind: "scope", Title: "scope"}, {Job: story.Job.Number, Kind: "outwork", About: "O-001", Title: "outwork ticket"}}
}
func (s *shop) Begin(context.Context, Sort) error { return nil }
func (s *shop) Draft(_ context.Context, x Sort) (Draft, error) {
	switch x.About {
	case "O-001":
		return Draft{Sort: x, Step: 2, Of: 4, Doing: "printing it"}, nil
	case "O-009":
		return Draft{}, core.Errorf(core.NotFound, "make it", "no draft of it is kept any more")
	}
	return Draft{Sort: x, HTML: []byte("<!doctype html><style>p{}</style>"), PDF: []byte("%PDF"), Number: "J-001-S", Revision: 3}, nil
}
func (s *shop) Issue(context.Context, Sort, string) error { return nil }
func (s *shop) Frozen(context.Context, string) ([]Frozen, error) {
	media := []Medium{{Type: mediaPDF, SHA256: strings.Repeat("0123456789abcdef", 4), Size: 4}}
	return []Frozen{{Kind: "scope", Number: "J-001-S", Revision: 1, Media: media}, {Kind: "scope", Number: "J-001-S", Revision: 2, Media: media}}, nil
}
func (s *shop) AsIssued(_ context.Context, _, number string, _ int, _ string) ([]byte, error) {
	if number != "J-001-S" {
		return nil, core.Errorf(core.NotFound, "choose one", "no such paper")
	}
	return []byte("<!doctype html><style>p{}</style>"), nil
}
func (s *shop) Compare(context.Context, string, string, int, int) (core.Comparison, error) {
	return core.Comparison{Lines: make([]core.LineDifference, mostLines+2)}, nil
}

// Answer refuses what does not say how, and keeps the rest.
func (s *shop) Answer(_ context.Context, _, _ string, a core.Answer) error {
	over := a.State == core.NoteWithdrawn || a.State == core.NoteExpired
	if over && a.Why == "" {
		return core.Errorf(core.Invalid, "say why: --why WORDS", "no reason is given")
	}
	if !over && a.How == "" {
		return core.Errorf(core.Invalid, "say one", "how was it answered? It is not said")
	}
	s.ended = append(s.ended, a)
	return nil
}

// Agree refuses what has no sum, and keeps the rest.
func (s *shop) Agree(_ context.Context, _, by string, a core.Agreement, sum string) error {
	if sum == "" {
		return core.Errorf(core.Invalid, "say it: fettle agree J-001 budget --sum AMOUNT", "no sum is authorised")
	}
	a.By = by
	s.agreed = append(s.agreed, a)
	return nil
}

// A paper may use its own style and its own pictures, and nothing else.
func TestAPaperIsShownUnderAPolicyOfItsOwn(t *testing.T) {
	for _, address := range []string{"/jobs/J-001/papers/draft/paper.html?kind=scope&about=", "/jobs/J-001/papers/J-001-S/1/paper.html"} {
		w := ask(t, "GET", address, "")
		require.Equal(t, 200, w.Code)
		require.Equal(t, "<!doctype html><style>p{}</style>", w.Body.String())
		require.Equal(t, []string{"default-src 'none'; style-src 'unsafe-inline'; img-src data:; form-action 'none'; base-uri 'none'; frame-ancestors 'none'; sandbox"}, w.Header()["Content-Security-Policy"])
	}
	w := ask(t, "GET", "/jobs/J-001/papers/J-001-S/1/paper.pdf", "")
	require.Equal(t, "application/pdf", w.Header().Get("Content-Type"))
	require.Equal(t, `attachment; filename="J-001-S-r1.pdf"`, w.Header().Get("Content-Disposition"))
	for _, address := range []string{"/jobs/J-001/papers/J-009-S/1/paper.pdf", "/jobs/J-001/papers/J-001-S/1/paper.exe", "/jobs/J-001/papers/J-001-S/7", "/jobs/J-001/papers/J-001-S/x", "/jobs/J-001/papers/draft?kind=outwork&about=O-009",
		"/jobs/J-001/papers/agree/paint", "/jobs/J-009/papers"} {
		require.Equal(t, 404, ask(t, "GET", address, "").Code, address)
	}
}

func TestPapersAreListedAndMade(t *testing.T) {
	body := ask(t, "GET", "/jobs/J-001/papers", "").Body.String()
	require.Contains(t, body, "J-001-S revision 2, issued on 20 November 2026: 12\u00a0400.00 USD with tax")
	require.Contains(t, body, "Outwork ticket O-001")
	require.Less(t, strings.Index(body, "Revision 2,"), strings.Index(body, "Revision 1,"), "the last first")
	require.NotContains(t, body, "fettle ", "a page has a button for what a command does")

	w := ask(t, "POST", "/jobs/J-001/papers/draft", "kind=outwork&about=O-001", "Content-Type", "application/x-www-form-urlencoded")
	require.Equal(t, 303, w.Code)
	body = ask(t, "GET", w.Header().Get("Location"), "").Body.String()
	require.Contains(t, body, `<progress aria-label="How far it is" max="4" value="2">`)
	require.Contains(t, body, "Printing it")
	require.NotContains(t, body, "Issue it")
	require.Contains(t, ask(t, "GET", "/jobs/J-001/papers/draft?kind=scope&about=", "").Body.String(), "Issue it")
	require.Equal(t, 404, ask(t, "POST", "/jobs/J-001/papers/draft", "kind=love-letter&about=", "Content-Type", "application/x-www-form-urlencoded").Code)

	body = ask(t, "GET", "/jobs/J-001/papers/J-001-S/1", "").Body.String()
	require.Contains(t, body, "a later revision took its place")
	require.Contains(t, body, "01234567 89abcdef")
	require.NotContains(t, body, "Write the answer down", "what was replaced is not agreed to")
	require.Contains(t, ask(t, "GET", "/jobs/J-001/papers/J-001-S/2", "").Body.String(), "Write the answer down")
	require.Contains(t, ask(t, "GET", "/jobs/J-001/papers/J-001-S/1/beside/2", "").Body.String(), "and 2 more lines")
}

// An answer goes to the paper that was on the page, with the lines refused; what was typed stays when something is wrong with it.
func TestAnAnswerIsTakenDown(t *testing.T) {
	x := &shop{}
	form := "paper=J-001-S&revision=2&who=M.+Wellbeck&how=signed&refuse=2&refuse=77&refuse=x&words=no+brakes&by=Wren"
	w := askOf(t, x, "POST", "/jobs/J-001/papers/agree/budget", form, "Content-Type", "application/x-www-form-urlencoded")
	require.Equal(t, 422, w.Code)
	body := w.Body.String()
	require.Contains(t, body, "No sum is authorised")
	require.Contains(t, body, "Next: say it</p>")
	for _, kept := range []string{`value="M. Wellbeck" checked`, `value="signed" checked`, `value="2" checked`, "no brakes</textarea>", "Shoes relined, 0 · safety"} {
		require.Contains(t, body, kept)
	}
	require.NotContains(t, body, "Lid off", "what comes apart follows from the work")
	require.Empty(t, x.agreed)

	w = askOf(t, x, "POST", "/jobs/J-001/papers/agree/budget", form+"&sum=9+000", "Content-Type", "application/x-www-form-urlencoded")
	require.Equal(t, 303, w.Code)
	require.Len(t, x.agreed, 1)
	a := x.agreed[0]
	require.Equal(t, []string{"work:brakes@:reline"}, a.Refused)
	require.Equal(t, "main budget J-001-S 2 Wren", strings.Join([]string{a.Gate, a.Paper, "2", a.By}, " "))
}

// A job that is handed over is asked for no agreement, at whatever address.
func TestNothingIsAgreedToOfAJobThatIsHandedOver(t *testing.T) {
	x := &shop{story: func(s *core.Story) { s.Job.State, s.Papers = core.StateHandedOver, nil }}
	for _, gate := range []string{"strip", "budget", "finish"} {
		page := askOf(t, x, "GET", "/jobs/J-001/papers/agree/"+gate, "").Body.String()
		require.Contains(t, page, "J-001 is handed over: what was agreed to stands.", gate)
		require.NotContains(t, page, "<form", gate)
	}
}

// What the sums are made without is said before the scope is issued, and before somebody agrees to it.
func TestWhatASumIsMadeWithoutIsSaidBeforeItIsAgreedTo(t *testing.T) {
	x := &shop{keptPlans: keptPlans{plan: &core.Plan{Problems: []core.Problem{{Lacks: core.LacksPrice, Summary: "no price in USD for a seal"}}}}}
	for _, at := range []string{"/jobs/J-001/papers/draft?kind=scope&about=", "/jobs/J-001/papers/agree/budget"} {
		w := askOf(t, x, "GET", at, "")
		require.Equal(t, 200, w.Code, at)
		require.Contains(t, w.Body.String(), "The sums are made without 1 price.", at)
		require.Contains(t, w.Body.String(), `href="/shop/prices?job=J-001"`, at)
		require.NotContains(t, ask(t, "GET", at, "").Body.String(), "are made without", at)
	}
}
