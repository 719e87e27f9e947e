package web

import (
	"net/http"
	"time"

	"github.com/fettle-tools/fettle/core"
)

// daysPage shows how the price moved and narrowed as more was read.
type daysPage struct {
	frame
	Slow Slow[[]core.BudgetDay]
	Days []dayLine
}

// dayLine is a day with the bar of its P10 to P90 in a picture 200 wide.
type dayLine struct {
	core.BudgetDay
	From, Wide, At float64 // of P10 to P90, and of what is expected
}

// When is the day in words.
func (l dayLine) When() string {
	day, err := time.Parse(time.DateOnly, l.Day)
	if err != nil {
		return "Nothing read"
	}
	return day.Format("2 January 2006")
}

// First and Last are the ends of the list, for what is said of both.
func (p daysPage) First() core.BudgetDay { return p.Days[0].BudgetDay }
func (p daysPage) Last() core.BudgetDay  { return p.Days[len(p.Days)-1].BudgetDay }

func dayLines(days []core.BudgetDay) []dayLine {
	low, high := core.Minor(days[0].P10), core.Minor(days[0].P90)
	for _, d := range days {
		low, high = min(low, core.Minor(d.P10)), max(high, core.Minor(d.P90))
	}
	at := func(m core.Money) float64 { return 200 * float64(core.Minor(m)-low) / float64(max(high-low, 1)) }
	var out []dayLine
	for _, d := range days {
		l := dayLine{BudgetDay: d, From: at(d.P10), At: min(max(at(d.Expected), 0), 200)}
		l.Wide = at(d.P90) - l.From
		out = append(out, l)
	}
	return out
}

func (s *Server) showDays(w http.ResponseWriter, r *http.Request) error {
	story, err := s.Stories.Story(r.Context(), r.PathValue("job"))
	if err != nil {
		return err
	}
	p := daysPage{frame: s.jobFrame(r, "Money", &story.Job)}
	p.Title = "As more was read, " + story.Job.Number
	if p.Slow, err = s.Reckoning.Narrowing(r.Context(), story.Job.Number); err != nil {
		return err
	}
	if p.Slow.Value != nil && len(*p.Slow.Value) > 0 {
		p.Days = dayLines(*p.Slow.Value)
	}
	return s.show(w, http.StatusOK, "days", p)
}

func (s *Server) beginDays(w http.ResponseWriter, r *http.Request) error {
	if err := s.Reckoning.Narrow(r.Context(), r.PathValue("job")); err != nil {
		return err
	}
	http.Redirect(w, r, "/jobs/"+r.PathValue("job")+"/money/days", http.StatusSeeOther)
	return nil
}
