package web

import (
	"context"
	"net/http"
	"strings"
	"time"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/paper"
)

// Reckoning is what is asked of a job's money beside its plan.
type Reckoning interface {
	// Rates are what an hour costs, by skill.
	Rates() []core.Rate
	// SetWishes writes down the most that the owner will spend and what a week less of waiting is worth, as typed; "" takes back.
	SetWishes(ctx context.Context, job, by, most, weekWorth string) error
	// Suppose compares the plan with that of a supposition. What is typed wrong is Invalid, all of it at once. The answer is shared.
	Suppose(ctx context.Context, job string, s Supposition) (Supposed, error)
	// Weigh begins to weigh money against risk and waiting; Weighing says how far that is, and that somebody waits.
	Weigh(ctx context.Context, job string) error
	Weighing(ctx context.Context, job string) (Slow[core.Weighing], error)
	// Narrow begins to plan a job day by day as more was read; Narrowing says how far that is, and that somebody waits.
	Narrow(ctx context.Context, job string) error
	Narrowing(ctx context.Context, job string) (Slow[[]core.BudgetDay], error)
}

// moneyPage says what a job may come to, and how sure that is.
type moneyPage struct {
	frame
	Plan       core.Plan
	Code       string // of the currency
	Curve      *paper.Curve
	Errors     []figure // P10, P50, P80, P90 with their standard errors
	Quantiles  []quantile
	Agreed     core.Money // contingency agreed to, before tax; zero: none
	Drawn      core.Money
	Remains    core.Money
	Typical    float64 // share of the total that rests on typical prices, 0 to 1
	Finish     []finishDay
	Holds      []core.HoldUp // what the finish waits for, the most often first
	Pace       string        // what the bench has to do until then
	By, Done   string        // a day that was asked about, as typed, and the answer
	Sum        string        // asked about, as typed
	Asked      *core.Money
	Enough     string // the answer
	Most, Week string // as typed, or as they are
	Rates      []core.Rate
	Without    []Subsystem // that do not answer
	Lacks      string      // what the sums are made without; "" for nothing
	Faults     []told
	SumFaults  []told // of the sum that was asked about
	DayFaults  []told // of the day
}

// figure is a sum of the distribution.
type figure struct {
	Name, Words string
	Value, SE   core.Money
}

// quantile is a sum and how likely it is to be enough.
type quantile struct {
	Percent int
	Value   core.Money
}

// finishDay is a day of the distribution of the finish.
type finishDay struct {
	Name, Words string
	Weeks, SE   float64
	Day         time.Time
}

// mostHolds is how many of the things that the finish waits for are named.
const mostHolds = 6

// fillFinish lays out when the job is done.
func (p *moneyPage) fillFinish(f *core.Finish, zone *time.Location) {
	if f == nil {
		return
	}
	p.Pace = f.SayPace()
	for i, x := range []finishDay{{Name: "P10", Words: "one in ten are done by then", Weeks: f.P10}, {Name: "P50", Words: "as many done as not", Weeks: f.P50},
		{Name: "P80", Words: "four in five are done", Weeks: f.P80}, {Name: "P90", Words: "nine in ten are done", Weeks: f.P90}} {
		if i < len(f.StandardErrors) {
			x.SE = f.StandardErrors[i]
		}
		x.Day = f.Day(x.Weeks, zone)
		p.Finish = append(p.Finish, x)
	}
	for _, h := range f.HeldUp {
		if h.Chance >= .005 && len(p.Holds) < mostHolds {
			p.Holds = append(p.Holds, h)
		}
	}
}

// askSum answers how likely the sum typed is to be enough.
func (p *moneyPage) askSum() error {
	m, err := core.ReadAmount(p.Sum, p.Code)
	if err != nil {
		return err
	}
	p.Asked, p.Enough = &m, core.SayEnough(p.Plan.Budget.Enough(m))
	if p.Lacks != "" {
		p.Enough = "it cannot be told without " + p.Lacks
	}
	return nil
}

// askDay answers how likely the job is to be done by the day typed.
func (p *moneyPage) askDay(f *core.Finish, zone *time.Location) error {
	day, err := time.ParseInLocation(time.DateOnly, p.By, zone)
	switch {
	case err != nil:
		return core.Errorf(core.Invalid, "write it like 2027-06-30", "“%s” is no day", p.By)
	case f == nil:
		return core.Errorf(core.Invalid, "say at the shop how many hours a week the bench has", "when the job is done is not known")
	case f.Weeks(day, zone) < 0:
		return core.Errorf(core.Invalid, "name a day to come", "“%s” is past", p.By)
	}
	p.Done = core.SayDone(f.By(f.Weeks(day, zone)))
	return nil
}

// fill lays the plan's money out.
func (p *moneyPage) fill(story core.Story, plan core.Plan) {
	b, o := plan.Budget, plan.WorkOrder
	p.Plan, p.Code = plan, b.Expected.CurrencyCode()
	if c, ok := paper.BudgetCurve(b); ok {
		p.Curve = &c
	}
	for i, f := range []figure{{"P10", "nine in ten cost more", b.P10, core.Money{}}, {"P50", "as many over as under", b.P50, core.Money{}},
		{"P80", "four in five cost no more", b.P80, core.Money{}}, {"P90", "nine in ten cost no more", b.P90, core.Money{}}} {
		if i < len(b.StandardErrors) {
			f.SE = b.StandardErrors[i]
		}
		p.Errors = append(p.Errors, f)
	}
	if len(b.Curve) == 101 {
		for _, q := range []int{5, 10, 25, 50, 75, 80, 90, 95} {
			p.Quantiles = append(p.Quantiles, quantile{q, b.Curve[q]})
		}
	}
	p.Agreed, p.Remains = story.Contingency()
	p.Drawn = core.MinorMoney(core.Minor(p.Agreed)-core.Minor(p.Remains), p.Agreed.CurrencyCode())
	if total := core.Minor(o.TotalBeforeTax); total > 0 {
		p.Typical = float64(core.Minor(o.Typical)) / float64(total)
	}
}

func (s *Server) showMoney(w http.ResponseWriter, r *http.Request) error {
	p, err := s.moneyPage(r)
	if err != nil {
		return err
	}
	if most := r.FormValue("most"); most != "" { // a line of the weighing, to be looked over
		p.Most = most
	}
	status := http.StatusOK
	if p.Sum = strings.TrimSpace(r.FormValue("sum")); p.Sum != "" {
		if err := p.askSum(); err != nil {
			p.SumFaults, status = faultsOf(err), http.StatusUnprocessableEntity
		}
	}
	if p.By = strings.TrimSpace(r.FormValue("by")); p.By != "" {
		if err := p.askDay(p.Plan.Finish, s.Zone); err != nil {
			p.DayFaults, status = faultsOf(err), http.StatusUnprocessableEntity
		}
	}
	return s.show(w, status, "money", p)
}

// moneyPage makes the page as the job stands.
func (s *Server) moneyPage(r *http.Request) (moneyPage, error) {
	story, plan, err := s.planned(r)
	if err != nil {
		return moneyPage{}, err
	}
	p := moneyPage{frame: s.jobFrame(r, "Money", &story.Job), Most: typedMoney(story.Job.Brief.Most), Week: typedMoney(story.Job.Brief.WeekWorth), Rates: s.Reckoning.Rates(), Without: without(plan), Lacks: plan.Lacks()}
	p.fill(story, plan)
	p.fillFinish(plan.Finish, s.Zone)
	return p, nil
}

// typedMoney is an amount as it is typed; "" for none.
func typedMoney(m *core.Money) string {
	if m == nil {
		return ""
	}
	return m.Number()
}

// changeMoney writes the owner's wishes down; what cannot be read is told above the form.
func (s *Server) changeMoney(w http.ResponseWriter, r *http.Request) error {
	job := r.PathValue("job")
	err := s.Reckoning.SetWishes(r.Context(), job, s.by(r), r.FormValue("most"), r.FormValue("week-worth"))
	if err == nil {
		http.Redirect(w, r, "/jobs/"+job+"/money", http.StatusSeeOther)
		return nil
	}
	if core.ErrorCode(err) != core.Invalid {
		return err
	}
	p, bad := s.moneyPage(r)
	if bad != nil {
		return bad
	}
	p.Most, p.Week, p.Faults = r.FormValue("most"), r.FormValue("week-worth"), faultsOf(err)
	return s.show(w, http.StatusUnprocessableEntity, "money", p)
}
