package web

import (
	"fmt"
	"net/http"
	"slices"
	"strconv"

	"github.com/fettle-tools/fettle/core"
)

// paperPolicy lets a paper use what stands in it, its own style and its own pictures, and nothing else: no script, no form, no way out.
const paperPolicy = "default-src 'none'; style-src 'unsafe-inline'; img-src data:; form-action 'none'; base-uri 'none'; frame-ancestors 'none'; sandbox"

// issuedPage shows one revision of an issued paper.
type issuedPage struct {
	frame
	Paper   Frozen
	Offer   *core.Issued // of a scope: what it came to, and until when it holds
	Expired bool
	Last    bool  // no later revision was issued
	Others  []int // revisions that it can be compared with
	Answer  bool  // the owner's answer to it can be written down
	Agreed  *core.Agreement
}

// SHA256 is the hash of a medium, in groups that can be read out.
func (m Medium) Groups() []string {
	var out []string
	for chunk := range slices.Chunk([]byte(m.SHA256), 8) {
		out = append(out, string(chunk))
	}
	return out
}

func (s *Server) showIssued(w http.ResponseWriter, r *http.Request) error {
	story, frozen, err := s.issuedOf(r)
	if err != nil {
		return err
	}
	number, revision := r.PathValue("number"), revisionOf(r, "revision")
	p := issuedPage{frame: s.jobFrame(r, "Papers", &story.Job), Last: true}
	found := false
	for _, f := range frozen {
		if f.Number != number {
			continue
		}
		if f.Revision == revision {
			p.Paper, found = f, true
			continue
		}
		p.Last = p.Last && f.Revision < revision
		if f.Kind == "scope" || f.Kind == "work order" {
			p.Others = append(p.Others, f.Revision)
		}
	}
	if !found {
		return neverIssued(story.Job.Number, number, r.PathValue("revision"))
	}
	p.Title = fmt.Sprintf("%s revision %d", number, revision)
	if x := story.Issued(number, revision); x != nil && p.Paper.Kind == "scope" {
		p.Offer, p.Expired = x, x.Expired(s.Clock())
		p.Answer = p.Last && !p.Expired && story.Job.State != core.StateHandedOver
		for i, a := range story.Agreements {
			if a.Paper == number && a.Revision == revision {
				p.Agreed = &story.Agreements[i]
			}
		}
	}
	return s.show(w, http.StatusOK, "issued", p)
}

func neverIssued(job, number, revision string) error {
	return core.Errorf(core.NotFound, "choose one of those on the page of papers", "%s has no issued paper %s revision %s", job, number, revision)
}

// revisionOf reads a revision from the address; 0 is none.
func revisionOf(r *http.Request, name string) int {
	n, _ := strconv.Atoi(r.PathValue(name)) // what is no number is no revision
	return max(n, 0)
}

// showIssuedFile gives an issued paper's bytes out of the book.
func (s *Server) showIssuedFile(w http.ResponseWriter, r *http.Request) error {
	media := paperFiles[r.PathValue("file")]
	if media == "" {
		return s.nothingHere(w, r)
	}
	number, revision := r.PathValue("number"), revisionOf(r, "revision")
	bytes, err := s.Papers.AsIssued(r.Context(), r.PathValue("job"), number, revision, media)
	if err != nil {
		return err
	}
	return showPaper(w, r.PathValue("file"), fmt.Sprintf("%s-r%d", number, revision), bytes)
}

// showPaper gives out a paper's bytes under a policy of their own.
func showPaper(w http.ResponseWriter, file, name string, bytes []byte) error {
	h := w.Header()
	h.Set("Content-Security-Policy", paperPolicy)
	h.Set("Cache-Control", "no-cache")
	switch paperFiles[file] {
	case mediaHTML:
		h.Set("Content-Type", "text/html; charset=utf-8")
	case mediaPDF:
		h.Set("Content-Type", mediaPDF)
		h.Set("Content-Disposition", `attachment; filename="`+name+`.pdf"`)
	default:
		return core.Errorf(core.NotFound, "load the page again", "no such file")
	}
	_, err := w.Write(bytes)
	return err
}

// mostLines is how many lines that differ are shown one by one.
const mostLines = 120

// comparePage puts a revision beside another, line by line.
type comparePage struct {
	frame
	Number   string
	Was, Now int
	core.Comparison
	More      int // lines that differ and are not shown
	MoreMoney core.Money
}

func (s *Server) showCompare(w http.ResponseWriter, r *http.Request) error {
	story, err := s.Stories.Story(r.Context(), r.PathValue("job"))
	if err != nil {
		return err
	}
	p := comparePage{frame: s.jobFrame(r, "Papers", &story.Job), Number: r.PathValue("number"), Was: revisionOf(r, "other"), Now: revisionOf(r, "revision")}
	if p.Was > p.Now {
		p.Was, p.Now = p.Now, p.Was
	}
	if p.Comparison, err = s.Papers.Compare(r.Context(), story.Job.Number, p.Number, p.Was, p.Now); err != nil {
		return err
	}
	p.Title = fmt.Sprintf("%s: revision %d beside %d", p.Number, p.Now, p.Was)
	if rest := len(p.Lines) - mostLines; rest > 0 {
		sum := int64(0)
		for _, l := range p.Lines[mostLines:] {
			sum += core.Minor(l.More)
		}
		p.More, p.MoreMoney, p.Lines = rest, core.MinorMoney(sum, p.Lines[0].More.CurrencyCode()), p.Lines[:mostLines]
	}
	return s.show(w, http.StatusOK, "compare", p)
}
