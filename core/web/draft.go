package web

import (
	"context"
	"net/http"
	"net/url"

	"github.com/fettle-tools/fettle/core"
)

// draftPage shows how far a paper is, and then lets it be looked at and issued.
type draftPage struct {
	frame
	Draft
	Lacks  string // what its sums are made without; "" for nothing, or where there are none
	Faults []told
}

// Query names the draft in an address.
func (s Sort) Query() string { return url.Values{"kind": {s.Kind}, "about": {s.About}}.Encode() }

func (s *Server) showDraft(w http.ResponseWriter, r *http.Request) error {
	d, err := s.draft(r)
	if err != nil {
		return err
	}
	p := draftPage{frame: s.frame(r, core.Capital(d.Name())+", "+d.Job), Draft: d}
	story, err := s.Stories.Story(r.Context(), d.Job)
	if err != nil {
		return err
	}
	p.frame.Job, p.Here = &story.Job, "Papers"
	if d.Kind == "scope" && !d.Issued {
		p.Lacks = s.keptLacks(r, d.Job)
	}
	if d.Err != nil {
		if core.ErrorCode(d.Err) == core.Internal {
			s.Log.Error("paper", "job", d.Job, "kind", d.Kind, "error", d.Err)
		}
		p.Faults = faultsOf(d.Err)
	}
	return s.show(w, http.StatusOK, "draft", p)
}

// draft is the one that a request is about.
func (s *Server) draft(r *http.Request) (Draft, error) {
	return s.Papers.Draft(r.Context(), Sort{Job: r.PathValue("job"), Kind: r.FormValue("kind"), About: r.FormValue("about")})
}

// beginDraft makes a paper that is looked at before it is issued.
func (s *Server) beginDraft(w http.ResponseWriter, r *http.Request) error {
	return s.toDraft(w, r, s.Papers.Begin)
}

// issueDraft issues what was looked at.
func (s *Server) issueDraft(w http.ResponseWriter, r *http.Request) error {
	return s.toDraft(w, r, func(ctx context.Context, x Sort) error { return s.Papers.Issue(ctx, x, s.byWhom(r)) })
}

// toDraft does something to a sort of paper that the job may have, and goes to its draft.
func (s *Server) toDraft(w http.ResponseWriter, r *http.Request, do func(context.Context, Sort) error) error {
	story, err := s.Stories.Story(r.Context(), r.PathValue("job"))
	if err != nil {
		return err
	}
	for _, x := range s.Papers.Sorts(story) {
		if x.Kind == r.FormValue("kind") && x.About == r.FormValue("about") {
			if err := do(r.Context(), x); err != nil {
				return err
			}
			http.Redirect(w, r, "/jobs/"+x.Job+"/papers/draft?"+x.Query(), http.StatusSeeOther)
			return nil
		}
	}
	return core.Errorf(core.NotFound, "choose one of those on the page of papers", "%s has no such paper to make", story.Job.Number)
}

// showDraftFile gives a draft's bytes.
func (s *Server) showDraftFile(w http.ResponseWriter, r *http.Request) error {
	d, err := s.draft(r)
	if err != nil {
		return err
	}
	bytes := d.HTML
	if r.PathValue("file") == "paper.pdf" {
		bytes = d.PDF
	}
	if bytes == nil {
		return core.Errorf(core.NotFound, "make it again", "the draft is not made")
	}
	return showPaper(w, r.PathValue("file"), d.Job+"-"+d.Kind+"-draft", bytes)
}
