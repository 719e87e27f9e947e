package web

import (
	"net/http"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// Supposition is what a plan is compared with, as typed; "" is as it is.
type Supposition struct {
	Skill, Rate     string // an hour's
	Most, WeekWorth string
	Years, KM       string // it is to last
	Place           string // of a part that is decided otherwise
	Remedy          string // fixed on it
	Leave           bool   // it is left as it is
}

// Empty reports that nothing is supposed.
func (s Supposition) Empty() bool {
	s.Skill = "" // by itself it supposes nothing
	return s == Supposition{}
}

// Supposed is what a supposition would do.
type Supposed struct {
	Words []string // what is supposed
	core.Comparison
	MoreChoices, MoreLines int // that are not listed
}

// MoreHours is how many hours more are expected.
func (s Supposed) MoreHours() float64 { return s.Hours[1] - s.Hours[0] }

// MoreWeeks is how many weeks more until the finish.
func (s Supposed) MoreWeeks() float64 { return s.Weeks[1] - s.Weeks[0] }

// fewDifferences is how many parts and lines that differ a page lists.
const fewDifferences = 20

// shortened lists the largest differences alone.
func (s Supposed) shortened() *Supposed {
	if n := len(s.Choices) - fewDifferences; n > 0 {
		s.Choices, s.MoreChoices = s.Choices[:fewDifferences], n
	}
	if n := len(s.Lines) - fewDifferences; n > 0 {
		s.Lines, s.MoreLines = s.Lines[:fewDifferences], n
	}
	return &s
}

// whatIfPage compares the plan with what is supposed. Nothing is written down.
type whatIfPage struct {
	frame
	Typed  Supposition
	Rates  []core.Rate
	Brief  core.Brief
	Faults []told
	If     *Supposed // nil: nothing is supposed yet
}

func (s *Server) showWhatIf(w http.ResponseWriter, r *http.Request) error {
	story, err := s.Stories.Story(r.Context(), r.PathValue("job"))
	if err != nil {
		return err
	}
	typed := func(name string) string { return strings.TrimSpace(r.FormValue(name)) }
	p := whatIfPage{frame: s.jobFrame(r, "Money", &story.Job), Rates: s.Reckoning.Rates(), Brief: story.Job.Brief,
		Typed: Supposition{Skill: typed("skill"), Rate: typed("rate"), Most: typed("most"), WeekWorth: typed("week-worth"), Years: typed("years"), KM: typed("km")}}
	p.Title = "What if, " + story.Job.Number
	if p.Typed.Empty() {
		return s.show(w, http.StatusOK, "whatif", p)
	}
	status := http.StatusOK
	is, err := s.Reckoning.Suppose(r.Context(), story.Job.Number, p.Typed)
	switch {
	case err == nil:
		p.If = is.shortened()
	case core.ErrorCode(err) == core.Invalid:
		p.Faults, status = faultsOf(err), http.StatusUnprocessableEntity
	default:
		return err
	}
	return s.show(w, status, "whatif", p)
}
