package web

import (
	"context"
	"net/http"
	"slices"
	"strings"
	"time"

	"github.com/fettle-tools/fettle/core"
)

// Papers makes the papers of a job, keeps what is issued, and gives it back as it was issued.
type Papers interface {
	// Sorts lists what can be made of a job as it stands, in the order of a job's life.
	Sorts(story core.Story) []Sort
	// Begin makes a draft, in the background: Draft says how far it is. One that still holds is not made again.
	Begin(ctx context.Context, s Sort) error
	// Draft gives what Begin or Issue makes. It is NotFound if neither was asked for.
	Draft(ctx context.Context, s Sort) (Draft, error)
	// Issue issues a draft as it was looked at, in the background. The draft then says that it was a Conflict if what it was made from has changed since.
	Issue(ctx context.Context, s Sort, by string) error
	// Frozen lists what was issued for a job, in the order of issue.
	Frozen(ctx context.Context, job string) ([]Frozen, error)
	// AsIssued gives the very bytes that were issued. It is NotFound if they were not issued for that job.
	AsIssued(ctx context.Context, job, number string, revision int, media string) ([]byte, error)
	// Compare puts a revision beside an earlier one, line by line. It is a Conflict where the papers price nothing.
	Compare(ctx context.Context, job, number string, was, now int) (core.Comparison, error)
	// Agree writes down what somebody agreed to, up to a sum as typed.
	Agree(ctx context.Context, job, by string, a core.Agreement, sum string) error
	// Answer writes down what was answered to a change note.
	Answer(ctx context.Context, job, by string, a core.Answer) error
}

// Sort is one paper that can be made of a job.
type Sort struct {
	Job   string
	Kind  string // "scope", "outwork" ...
	About string // the number that it is about, "O-001"; "": the whole job
	Title string // "outwork ticket"
}

// Name is the sort as it is spoken.
func (s Sort) Name() string { return strings.TrimSpace(s.Title + " " + s.About) }

// Draft is a paper that is being made, or was made and is not issued yet.
type Draft struct {
	Sort
	Step, Of  int    // how far it is
	Doing     string // in words; "" when it is done
	Err       error  // why it could not be made or issued
	Number    string
	Revision  int
	Issued    bool
	PDF, HTML []byte // nil until it is done
	At        time.Time
}

// Frozen is a paper as issued: in each medium, with the hash of its bytes.
type Frozen struct {
	Kind     string
	Number   string
	Revision int
	By       string
	At       time.Time
	Media    []Medium
}

// Medium is an issued paper in one medium.
type Medium struct {
	Type   string // MIME
	SHA256 string
	Size   int // bytes
}

// File is the name that a medium has in an address.
func (m Medium) File() string {
	for file, kind := range paperFiles {
		if kind == m.Type {
			return file
		}
	}
	return ""
}

// Short begins the hash: enough to tell two papers apart by eye.
func (m Medium) Short() string { return m.SHA256[:min(12, len(m.SHA256))] }

// Words name a medium.
func (m Medium) Words() string {
	if m.Type == mediaHTML {
		return "for a screen"
	}
	return "PDF"
}

const (
	mediaPDF  = "application/pdf"
	mediaHTML = "text/html"
)

// paperFiles are the media by the name that stands in the address.
var paperFiles = map[string]string{"paper.html": mediaHTML, "paper.pdf": mediaPDF}

// papersPage shows what is agreed, what can be made, and what was issued.
type papersPage struct {
	frame
	Gates   []gate
	Account *account // nil before anything is agreed
	Refused []string
	Trailer []string
	Scope   *core.Issued // issued last; nil if none is
	Expired bool
	Sorts   []Sort // the scope apart
	Issued  []issuedPaper
}

// gate is one gate as it stands.
type gate struct {
	core.GateStanding
	Word     string   // in an address; "" where it is answered elsewhere
	Needs    string   // "" if nothing
	May      bool     // an answer can be written down
	Answered bool     // one is
	Notes    []string // change notes that wait for an answer, at the gate of changes
}

// account is how far what was agreed to goes. All with tax but the contingency.
type account struct{ Authorised, Committed, Left, Contingency, ContingencyLeft core.Money }

// issuedPaper is one number with its revisions, the last first.
type issuedPaper struct {
	Kind, Number string
	Revisions    []Frozen
	Priced       bool // its revisions can be compared
}

// gateWords are the gates as they stand in an address. A change is answered with its note.
var gateWords = map[string]string{core.GateStrip: "strip", core.GateBudget: "budget", core.GateFinish: "finish"}

// issuedOf is the job that an address names, with its issued papers.
func (s *Server) issuedOf(r *http.Request) (story core.Story, frozen []Frozen, err error) {
	if story, err = s.Stories.Story(r.Context(), r.PathValue("job")); err == nil {
		frozen, err = s.Papers.Frozen(r.Context(), story.Job.Number)
	}
	return story, frozen, err
}

func (s *Server) showPapers(w http.ResponseWriter, r *http.Request) error {
	story, frozen, err := s.issuedOf(r)
	if err != nil {
		return err
	}
	now := s.Clock()
	p := papersPage{frame: s.jobFrame(r, "Papers", &story.Job), Gates: gatesOf(story, now), Account: accountOf(story), Trailer: story.Trailer(), Scope: story.LastScope(), Issued: byNumber(frozen)}
	p.Expired = p.Scope != nil && p.Scope.Expired(now)
	if a := story.Agreed(core.GateBudget); a != nil {
		p.Refused = refusedWords(story, *a)
	}
	for _, x := range s.Papers.Sorts(story) {
		if x.Kind != "scope" {
			p.Sorts = append(p.Sorts, x)
		}
	}
	return s.show(w, http.StatusOK, "papers", p)
}

// gatesOf says how each gate stands and what it needs.
func gatesOf(story core.Story, now time.Time) []gate {
	var out []gate
	for _, g := range story.Gates() {
		x := gate{GateStanding: g, Word: gateWords[g.Gate], Needs: spoken(story.Needs(g.Gate, now)), Answered: story.Agreed(g.Gate) != nil}
		x.May = x.Word != "" && story.Job.State != core.StateHandedOver
		if g.Gate == core.GateChange {
			x.Notes = unanswered(story)
		}
		if g.Gate == core.GateBudget {
			x.May = x.May && story.LastScope() != nil
		}
		out = append(out, x)
	}
	return out
}

func accountOf(story core.Story) *account {
	if len(story.Agreements) == 0 {
		return nil
	}
	a := account{Authorised: story.Authorised(), Committed: story.Committed(), Left: story.Left()}
	a.Contingency, a.ContingencyLeft = story.Contingency()
	return &a
}

// refusedWords names what an agreement refused, by the lines of its paper.
func refusedWords(story core.Story, a core.Agreement) []string {
	var out []string
	p := story.Issued(a.Paper, a.Revision)
	for _, r := range a.Refused {
		if p != nil {
			if i := slices.IndexFunc(p.Lines, func(l core.Line) bool { return l.ID == r }); i >= 0 {
				r = p.Lines[i].Name
			}
		}
		out = append(out, r)
	}
	return out
}

// byNumber puts revisions together, the paper issued last first.
func byNumber(frozen []Frozen) []issuedPaper {
	var out []issuedPaper
	for _, f := range slices.Backward(frozen) {
		i := slices.IndexFunc(out, func(p issuedPaper) bool { return p.Number == f.Number })
		if i < 0 {
			i = len(out)
			out = append(out, issuedPaper{Kind: f.Kind, Number: f.Number, Priced: f.Kind == "scope" || f.Kind == "work order"})
		}
		out[i].Revisions = append(out[i].Revisions, f)
	}
	return out
}
