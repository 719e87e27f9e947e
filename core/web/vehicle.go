package web

import (
	"net/http"

	"github.com/fettle-tools/fettle/core"
)

// vehiclePage shows what came, what it is by its marks, and how far it comes apart.
type vehiclePage struct {
	frame
	Story core.Story
	Waits []string
}

func (s *Server) showVehicle(w http.ResponseWriter, r *http.Request) error {
	story, err := s.Stories.Story(r.Context(), r.PathValue("job"))
	if err != nil {
		return err
	}
	return s.show(w, http.StatusOK, "vehicle", vehiclePage{s.jobFrame(r, "Vehicle", &story.Job), story, story.Waits()})
}
