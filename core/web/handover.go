package web

import (
	"context"
	"net/http"
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// Ending runs what was built, settles snags, takes money down and hands over. What is typed is read as the commands read it.
type Ending interface {
	// Run writes down a run, or the first start, with the snags that it showed.
	Run(ctx context.Context, job, by string, t Running) error
	// Settle writes a snag down as put right, or as left on somebody's word.
	Settle(ctx context.Context, job, by string, t Settling) error
	HandOver(ctx context.Context, job, by string, h core.Handover) error
	// Pay writes down money asked or moved; the party is who alone can be meant, where nobody is named.
	Pay(ctx context.Context, job, by string, p core.Payment, sum string) error
}

// Running is a run as it is typed.
type Running struct {
	What, Distance string
	Readings       []string // "oil pressure hot 45 psi"
	Again          string   // what was tightened a second time, parted by commas
	Snags          []string
	Safety         bool // lives hang on the snags
}

// Settling is what became of a snag: how it was put right, or on whose word it stays.
type Settling struct{ Snag, How, Who string }

// handoverPage shows what the job came to and what is still open, and hands it over.
type handoverPage struct {
	frame
	Faults   []told
	Runs     []core.RoadTest
	Snags    []core.Snag
	Trailer  []string // why it leaves on one
	Open     []string // what a handover would leave unaccounted for
	NotDone  []string
	Fitted   int
	Outcomes []core.Outcome
	Sum      core.Outcome
	Account  core.Account
	Stages   []core.Stage
	Payments []core.Payment
	Handover *core.Handover // nil before it
	Who      []speaker
	Over     bool

	Run    Running
	Close  core.Handover
	Pay    core.Payment
	PaySum string
}

// OldParts are what may have become of the old parts.
func (handoverPage) OldParts() []string { return core.OldPartsWords }

// Moves are what may become of money.
func (handoverPage) Moves() []string { return core.PaymentWords }

// Readings are as typed, one a line.
func (p handoverPage) Readings() string { return strings.Join(p.Run.Readings, "\n") }

// NewSnags are as typed, one a line.
func (p handoverPage) NewSnags() string { return strings.Join(p.Run.Snags, "\n") }

// Settled reports whether nothing is to be done about a snag any more.
func (handoverPage) Settled(g core.Snag) bool { return g.Cleared != "" || g.Owner != "" }

func (s *Server) showHandover(w http.ResponseWriter, r *http.Request) error {
	return s.handoverPage(w, r, handoverPage{}, nil)
}

// handoverPage fills the page; it has what was typed already.
func (s *Server) handoverPage(w http.ResponseWriter, r *http.Request, p handoverPage, fault error) error {
	story, err := s.Stories.Story(r.Context(), r.PathValue("job"))
	if err != nil {
		return err
	}
	status := http.StatusOK
	if fault != nil {
		if !wrong(fault) {
			return fault
		}
		p.Faults, status = faultsOf(fault), statuses[core.ErrorCode(fault)]
	}
	p.frame = s.jobFrame(r, "Handover", &story.Job)
	p.Runs, p.Snags, p.Trailer, p.Open, p.NotDone, p.Fitted = story.Tests, story.Snags, story.ByTrailer(), story.OpenAtHandover(), story.NotDone(), len(story.BuildSheet())
	p.Outcomes, p.Account, p.Stages, p.Payments, p.Handover = story.Outcomes(), story.Account(), story.Stages(s.Clock()), story.Payments, story.Handover
	p.Who, p.Over = speakers(story), story.Job.State == core.StateHandedOver
	agreed := int64(0)
	for _, o := range p.Outcomes {
		p.Sum.AgreedHours, p.Sum.Hours = p.Sum.AgreedHours+o.AgreedHours, p.Sum.Hours+o.Hours
		agreed += core.Minor(o.Agreed)
	}
	p.Sum.Agreed, p.Sum.Spent = core.MinorMoney(agreed, p.Account.Done.CurrencyCode()), p.Account.Done
	if p.Pay.Stage == "" {
		if i := slices.IndexFunc(p.Stages, func(x core.Stage) bool { return core.Minor(x.Asked) == 0 && core.Minor(x.Sum) > 0 }); i >= 0 {
			p.Pay.Stage = p.Stages[i].Name
		}
	}
	return s.show(w, status, "handover", p)
}

// done goes back to the page, or shows it again with what was typed and what is wrong.
func (s *Server) done(w http.ResponseWriter, r *http.Request, at string, typed handoverPage, err error) error {
	if err != nil {
		return s.handoverPage(w, r, typed, err)
	}
	http.Redirect(w, r, "/jobs/"+r.PathValue("job")+"/handover#"+at, http.StatusSeeOther)
	return nil
}

// takeRun writes down a run.
func (s *Server) takeRun(w http.ResponseWriter, r *http.Request) error {
	text := func(name string) string { return strings.TrimSpace(r.PostFormValue(name)) }
	t := Running{What: text("what"), Distance: text("distance"), Readings: lines(text("readings")), Again: text("again"), Snags: lines(text("snags")), Safety: text("safety") != ""}
	return s.done(w, r, "runs", handoverPage{Run: t}, s.Ending.Run(r.Context(), r.PathValue("job"), s.byWhom(r), t))
}

// settleSnag writes down what became of a snag.
func (s *Server) settleSnag(w http.ResponseWriter, r *http.Request) error {
	text := func(name string) string { return strings.TrimSpace(r.PostFormValue(name)) }
	t := Settling{Snag: r.PathValue("snag"), How: text("how")}
	if text("do") == "leave" {
		t.How, t.Who = "", text("who")
	}
	return s.done(w, r, "snags", handoverPage{}, s.Ending.Settle(r.Context(), r.PathValue("job"), s.byWhom(r), t))
}

// takePayment writes money down.
func (s *Server) takePayment(w http.ResponseWriter, r *http.Request) error {
	text := func(name string) string { return strings.TrimSpace(r.PostFormValue(name)) }
	p := core.Payment{Is: text("is"), Party: text("party"), Stage: text("stage"), How: text("how"), Ref: text("for"), Note: text("note")}
	return s.done(w, r, "money", handoverPage{Pay: p, PaySum: text("sum")}, s.Ending.Pay(r.Context(), r.PathValue("job"), s.byWhom(r), p, text("sum")))
}

// handOver ends the job.
func (s *Server) handOver(w http.ResponseWriter, r *http.Request) error {
	text := func(name string) string { return strings.TrimSpace(r.PostFormValue(name)) }
	h := core.Handover{Signed: text("signed"), OldParts: text("old-parts"), FirstService: text("first-service"), Told: text("told"), Trailer: text("trailer") != ""}
	return s.done(w, r, "end", handoverPage{Close: h}, s.Ending.HandOver(r.Context(), r.PathValue("job"), s.byWhom(r), h))
}
