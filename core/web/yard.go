package web

import (
	"context"
	"math"
	"net/http"

	"github.com/fettle-tools/fettle/core"
)

// Yard knows what is known of the whole shop without planning anything.
type Yard interface {
	// WeeklyHours is how many hours a week there are for all jobs together; 0 if that is not said.
	WeeklyHours() float64
	// KeptPlan is the last plan that was made of a job while the shop is open, fresh if nothing was written down since; or nil, and whether one is coming.
	KeptPlan(ctx context.Context, job string) (p *core.Plan, fresh, coming bool)
}

// yardPage shows every job that is in the yard.
type yardPage struct {
	frame
	Yard   core.Yard
	Money  map[string]yardMoney // by job, where a plan is kept
	Done   int                  // jobs handed over
	Coming bool                 // some of the money is being worked out
}

// yardMoney is what a job may come to, by the plan that is kept.
type yardMoney struct {
	P50, P80 core.Money
	Fresh    bool
	Lacks    string // what it is made without; "" for nothing
}

// Weeks is how long the hours that are left take.
func (p yardPage) Weeks() string {
	return core.FormatNumber(math.Round(p.Yard.HoursLeft/p.Yard.HoursWeek*10) / 10)
}

// Of is the money of a job.
func (p yardPage) Of(job string) *yardMoney {
	if m, ok := p.Money[job]; ok {
		return &m
	}
	return nil
}

// keptLacks says what the sums of the last plan of a job are made without; "" for nothing, or where none is kept.
func (s *Server) keptLacks(r *http.Request, job string) string {
	plan, _, _ := s.Config.Yard.KeptPlan(r.Context(), job)
	if plan == nil {
		return ""
	}
	return plan.Lacks()
}

// toYard leads who made the shop with one touch too many to what is made.
func (s *Server) toYard(w http.ResponseWriter, r *http.Request) error {
	http.Redirect(w, r, "/", http.StatusSeeOther)
	return nil
}

func (s *Server) showYard(w http.ResponseWriter, r *http.Request) error {
	stories, err := s.Stories.Stories(r.Context())
	if err != nil {
		return err
	}
	p := yardPage{frame: s.frame(r, "Yard"), Yard: core.YardOf(stories, s.Config.Yard.WeeklyHours(), s.Clock()), Money: map[string]yardMoney{}}
	p.Done = len(stories) - len(p.Yard.Jobs)
	for _, j := range p.Yard.Jobs {
		if !p.InCharge {
			break // money is the owner's
		}
		plan, fresh, coming := s.Config.Yard.KeptPlan(r.Context(), j.Job)
		p.Coming = p.Coming || coming
		if plan != nil {
			p.Money[j.Job] = yardMoney{plan.Budget.P50, plan.Budget.P80, fresh, plan.Lacks()}
		}
	}
	return s.show(w, http.StatusOK, "yard", p)
}
