package web

import (
	"net/http"

	"github.com/fettle-tools/fettle/core"
)

// yardPage shows every job that is in the yard.
type yardPage struct {
	frame
	Jobs []yardJob
}

type yardJob struct {
	core.Job
	Waits []string
}

func (s *Server) showYard(w http.ResponseWriter, r *http.Request) error {
	stories, err := s.Stories.Stories(r.Context())
	if err != nil {
		return err
	}
	p := yardPage{frame: s.frame(r, "Yard")}
	for _, story := range stories {
		if story.Job.State != core.StateHandedOver {
			p.Jobs = append(p.Jobs, yardJob{story.Job, story.Waits()})
		}
	}
	return s.show(w, http.StatusOK, "yard", p)
}
