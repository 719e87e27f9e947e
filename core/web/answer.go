package web

import (
	"maps"
	"net/http"
	"slices"
	"strconv"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// answerPage takes down what the owner answered to a change note. After a fault it has what was typed.
type answerPage struct {
	frame
	Faults []told
	Note   core.Note
	Asks   []noteAsk
	Who    []speaker
	Ways   []string
	Typed  core.Answer
}

// noteAsk is one surprise that a note puts to the owner.
type noteAsk struct {
	core.Surprise
	Taken int // of its options, 1 the first, 0 none; -1: not answered yet
}

func (s *Server) showAnswer(w http.ResponseWriter, r *http.Request) error {
	return s.answerForm(w, r, http.StatusOK, core.Answer{}, nil)
}

// answerNote writes an answer down, or that there will be none, or shows the form again with what is wrong.
func (s *Server) answerNote(w http.ResponseWriter, r *http.Request) error {
	if err := r.ParseForm(); err != nil {
		return core.Errorf(core.Invalid, "load the page again", "what was sent cannot be read")
	}
	text := func(name string) string { return strings.TrimSpace(r.PostForm.Get(name)) }
	a := core.Answer{Note: noteOf(r), State: core.NoteDeclined, Who: text("who"), How: text("how")}
	for _, name := range slices.Sorted(maps.Keys(r.PostForm)) {
		if !strings.HasPrefix(name, "C-") || text(name) == "" {
			continue
		}
		n, err := strconv.Atoi(text(name))
		if err != nil {
			return core.Errorf(core.Invalid, "load the page again", "%q is no option of %s", text(name), name)
		}
		if n > 0 {
			a.State = core.NoteApproved
		}
		a.Options = append(a.Options, core.NoteAnswer{Surprise: name, Option: n})
	}
	if over := text("over"); over == core.NoteWithdrawn || over == core.NoteExpired { // nobody answered
		a = core.Answer{Note: a.Note, State: over, Why: text("why")}
	}
	err := s.Papers.Answer(r.Context(), r.PathValue("job"), s.byWhom(r), a)
	if err == nil {
		http.Redirect(w, r, "/jobs/"+r.PathValue("job")+"/papers#gate-change", http.StatusSeeOther)
		return nil
	}
	if code := core.ErrorCode(err); code != core.Invalid && code != core.Conflict {
		return err
	}
	return s.answerForm(w, r, statuses[core.ErrorCode(err)], a, err)
}

func noteOf(r *http.Request) string { return strings.ToUpper(r.PathValue("note")) }

func (s *Server) answerForm(w http.ResponseWriter, r *http.Request, status int, typed core.Answer, fault error) error {
	story, err := s.Stories.Story(r.Context(), r.PathValue("job"))
	if err != nil {
		return err
	}
	n := story.Note(noteOf(r))
	switch {
	case n == nil:
		return core.Errorf(core.NotFound, "see the page of papers for what waits for an answer", "%s has no change note %s", story.Job.Number, noteOf(r))
	case n.State != core.NoteSent && fault == nil:
		return core.Errorf(core.Conflict, "see the page of papers", "%s is %s already", n.ID, n.State)
	}
	p := answerPage{frame: s.jobFrame(r, "Papers", &story.Job), Note: *n, Who: speakers(story), Ways: core.Ways, Typed: typed}
	p.Title = "The answer to " + n.ID + ", " + story.Job.Number
	if fault != nil {
		p.Faults = faultsOf(fault)
	}
	if typed.Who == "" && len(p.Who) == 1 {
		p.Typed.Who = p.Who[0].Name
	}
	for _, id := range n.Surprises {
		x := noteAsk{Taken: -1}
		if q := story.Surprise(id); q != nil {
			x.Surprise = *q
		}
		for _, o := range typed.Options {
			if o.Surprise == id {
				x.Taken = o.Option
			}
		}
		p.Asks = append(p.Asks, x)
	}
	return s.show(w, status, "answer", p)
}

// unanswered are the numbers of the change notes that wait for an answer.
func unanswered(story core.Story) []string {
	var out []string
	for _, n := range story.Notes {
		if n.State == core.NoteSent {
			out = append(out, n.ID)
		}
	}
	return out
}
