package web

import (
	"context"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// Looking says what to look at next.
type Looking interface {
	// Looks ranks what could be looked at, what settles most for its time first.
	Looks(ctx context.Context, job string) ([]core.Look, error)
}

// lookPage says what to look at next.
type lookPage struct {
	frame
	Looks   []look
	More    int         // that are not shown
	Lacks   string      // what the sums are made without; "" for nothing
	Without []Subsystem // that do not answer
}

// look is one thing to look at, with the way to its questions.
type look struct {
	core.Look
	Questions []lookQuestion // of each part, as its checks come
}

// lookQuestion is a part of a look and the first of its questions on the bench.
type lookQuestion struct {
	core.LookedAt
	Path string // of the bench, with the question's key
}

// Name of the part with its position.
func (q lookQuestion) Name() string { return strings.TrimSpace(q.PartName + " " + q.Position) }

// fewLooks is how many are shown unless all are asked for.
const fewLooks = 12

func (s *Server) showLook(w http.ResponseWriter, r *http.Request) error {
	ctx := r.Context()
	story, err := s.Stories.Story(ctx, r.PathValue("job"))
	if err != nil {
		return err
	}
	looks, err := s.Looking.Looks(ctx, story.Job.Number)
	if err != nil {
		return err
	}
	plan, err := s.Plans.Plan(ctx, story.Job.Number)
	if err != nil {
		return err
	}
	p := lookPage{frame: s.jobFrame(r, "Look next", &story.Job), Without: without(plan), Lacks: plan.Lacks()}
	if n := len(looks) - fewLooks; n > 0 && r.FormValue("all") == "" {
		looks, p.More = looks[:fewLooks], n
	}
	for _, l := range looks {
		x := look{Look: l}
		for _, part := range l.Parts {
			x.Questions = append(x.Questions, lookQuestion{part, questionPath(plan, part)})
		}
		p.Looks = append(p.Looks, x)
	}
	return s.show(w, http.StatusOK, "look", p)
}

// questionPath is where the first question of a look at a part stands: the first station without a reading, or the first where it is read again.
func questionPath(plan core.Plan, at core.LookedAt) string {
	first := at.Checks[0]
	q := question{Place: at.Place, Check: core.Check{ID: first.Check}}
	if sheet := plan.SheetOf(at.Place); sheet != nil {
		if c := sheet.Sheet.Check(at.Part, first.Check); c != nil && len(c.Stations) > 0 {
			q.Station = c.Stations[0]
			for _, station := range c.Stations {
				read := slices.ContainsFunc(plan.Findings, func(f core.Finding) bool {
					return f.Subsystem == at.Subsystem && (f.Unit == at.Unit || f.Unit == "") && f.Target == at.Target && f.Check == first.Check && f.Station == station
				})
				if !read && !first.Again {
					q.Station = station
					break
				}
			}
		}
	}
	return benchPath(plan.Job, at.Place) + "#" + url.PathEscape(q.Key())
}

// benchPath is the bench of a place.
func benchPath(job core.Job, p core.Place) string {
	return "/jobs/" + job.Number + "/bench/" + p.Bench()
}
