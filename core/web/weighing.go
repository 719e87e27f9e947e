package web

import (
	"net/http"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/paper"
)

// weighingPage lays money against risk, and against waiting.
type weighingPage struct {
	frame
	Slow  Slow[core.Weighing]
	Curve *paper.Curve
	Risks []weighedLine
	Waits []weighedLine
}

// weighedLine is one plan with what is done for the money that it costs more.
type weighedLine struct {
	core.Weighed
	First  bool
	For    []string // the parts that are decided otherwise than in the line before
	Others int      // that are not named
	Most   string   // what is to be said to get it
}

// fewParts is how many parts a line names.
const fewParts = 8

func weighedLines(list []core.Weighed) []weighedLine {
	var out []weighedLine
	for i, x := range list {
		l := weighedLine{Weighed: x, First: i == 0}
		if i > 0 {
			l.For = core.SayDifferences(x.Differs)
			if n := len(l.For) - fewParts; n > 0 {
				l.For, l.Others = l.For[:fewParts], n
			}
		}
		l.Most = x.Total.Number()
		out = append(out, l)
	}
	return out
}

func (s *Server) showWeighing(w http.ResponseWriter, r *http.Request) error {
	story, err := s.Stories.Story(r.Context(), r.PathValue("job"))
	if err != nil {
		return err
	}
	p := weighingPage{frame: s.jobFrame(r, "Money", &story.Job)}
	p.Title = "What more money buys, " + story.Job.Number
	if p.Slow, err = s.Reckoning.Weighing(r.Context(), story.Job.Number); err != nil {
		return err
	}
	if g := p.Slow.Value; g != nil {
		p.Risks, p.Waits = weighedLines(g.Risks), weighedLines(g.Waits)
		if c, ok := paper.RiskCurve(g.Risks); ok {
			p.Curve = &c
		}
	}
	return s.show(w, http.StatusOK, "weighing", p)
}

func (s *Server) beginWeighing(w http.ResponseWriter, r *http.Request) error {
	if err := s.Reckoning.Weigh(r.Context(), r.PathValue("job")); err != nil {
		return err
	}
	http.Redirect(w, r, "/jobs/"+r.PathValue("job")+"/money/weighing", http.StatusSeeOther)
	return nil
}
