package web

import (
	"net/http"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/paper"
)

// labelsPage is tags to print, cut out and wire on: those of the job, and blank ones.
type labelsPage struct {
	frame
	Labels paper.LabelSheet
	Blank  []struct{} // one each
}

// blankLabels fill what a page of paper has room for.
const blankLabels = 8

func (s *Server) showLabels(w http.ResponseWriter, r *http.Request) error {
	story, err := s.Stories.Story(r.Context(), r.PathValue("job"))
	if err != nil {
		return err
	}
	p := labelsPage{frame: s.jobFrame(r, "Sheets", &story.Job)}
	p.Title = "Tags, " + story.Job.Number
	d, err := paper.Labels(paper.StoryInput{Story: story, Date: s.Clock(), Zone: s.Zone}, "")
	switch core.ErrorCode(err) {
	case "":
		for _, b := range d.Blocks {
			if l, ok := b.(paper.LabelSheet); ok {
				p.Labels.Items = append(p.Labels.Items, l.Items...)
			}
		}
	case core.NotFound: // nothing is tagged yet
	default:
		return err
	}
	if len(p.Labels.Items) == 0 || r.FormValue("blank") != "" {
		p.Labels.Items, p.Blank = nil, make([]struct{}, blankLabels)
	}
	return s.show(w, http.StatusOK, "labels", p)
}
