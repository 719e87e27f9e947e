package web

import (
	"encoding/json"
	"errors"
	"net/http"

	"github.com/fettle-tools/fettle/core"
)

// statuses is what a code is called in HTTP (RFC 9110, section 15).
var statuses = map[core.Code]int{
	core.Invalid:     http.StatusUnprocessableEntity,
	core.NotFound:    http.StatusNotFound,
	core.Conflict:    http.StatusConflict,
	core.Unavailable: http.StatusServiceUnavailable,
	core.Newer:       http.StatusServiceUnavailable,
	core.Internal:    http.StatusInternalServerError,
}

// told is one fault as a page and a script are told of it.
type told struct {
	What string `json:"what"`
	Next string `json:"next,omitempty"`
}

// faultPage says what went wrong and what to do next.
type faultPage struct {
	frame
	Faults  []told
	Decided bool // the job has pins or parts left: they may be what no plan can be made with
}

// faultsOf parts an error that holds several.
func faultsOf(err error) []told {
	var many interface{ Unwrap() []error }
	if errors.As(err, &many) {
		var out []told
		for _, e := range many.Unwrap() {
			out = append(out, faultsOf(e)...)
		}
		return out
	}
	if core.ErrorCode(err) == core.Internal {
		return []told{{"The program failed.", "try again; if it stays, see the log in the shop folder"}}
	}
	return []told{{plainWhat(err.Error()), spoken(core.ErrorNext(err))}}
}

// tell answers with a fault.
func (s *Server) tell(w http.ResponseWriter, r *http.Request, err error) {
	if r.Context().Err() != nil {
		panic(http.ErrAbortHandler) // nobody waits for it any more, or the shop closes: an empty page would be taken, and kept, as the page
	}
	code := core.ErrorCode(err)
	if code == core.Internal {
		s.Log.Error("page", "path", r.URL.Path, "error", err)
	}
	var tooLarge *http.MaxBytesError
	if errors.As(err, &tooLarge) {
		err, code = core.Errorf(core.Invalid, "send less at once", "more was sent than is taken at once"), core.Invalid
	}
	if byScript(r) {
		writeJSON(w, statuses[code], struct {
			Faults []told `json:"faults"`
		}{faultsOf(err)})
		return
	}
	title := "That did not work"
	if code == core.NotFound {
		title = "Nothing here"
	}
	p := faultPage{frame: s.frame(r, title), Faults: faultsOf(err)}
	if number := r.PathValue("job"); number != "" {
		if story, err := s.Stories.Story(r.Context(), number); err == nil {
			p.frame = s.jobFrame(r, "", &story.Job)
			p.Title = title
			p.Decided = p.InCharge && code == core.Invalid && len(story.Job.Pins)+len(story.Job.Left) > 0
		}
	}
	if err := s.show(w, statuses[code], "fault", p); err != nil {
		s.Log.Error("fault page", "error", err)
		http.Error(w, title, statuses[code])
	}
}

func (s *Server) nothingHere(http.ResponseWriter, *http.Request) error {
	return core.Errorf(core.NotFound, "go to the yard, and from there to a job", "no page has this address")
}

func writeJSON(w http.ResponseWriter, status int, v any) {
	w.Header().Set("Content-Type", "application/json")
	w.Header().Set("Cache-Control", "no-store")
	w.WriteHeader(status)
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	_ = e.Encode(v) // who does not listen any more needs no answer
}
