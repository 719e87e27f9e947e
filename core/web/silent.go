package web

import (
	"net/http"
	"slices"

	"github.com/fettle-tools/fettle/core"
)

// askAgain has a subsystem that did not answer tried once more, and goes back to its bench.
func (s *Server) askAgain(w http.ResponseWriter, r *http.Request) error {
	s.Readings.Again(r.PathValue("subsystem"))
	return went(w, r, "/jobs/"+r.PathValue("job")+"/bench/"+r.PathValue("subsystem"))
}

// TitleOf is what a subsystem is called; one that never said so has its name.
func TitleOf(us core.UnitSheet) string {
	if us.Sheet.Title == "" {
		return core.Capital(plain(us.Subsystem))
	}
	return us.Sheet.Title
}

// silentOf are the subsystems that a plan knows nothing of, because they did not answer: in no sheet of it, and a problem says so.
func silentOf(plan core.Plan) []core.UnitSheet {
	var out []core.UnitSheet
	for _, us := range plan.Sheets {
		if us.Failed {
			out = append(out, us)
		}
	}
	for _, p := range plan.Problems {
		if p.Unit == "" && p.NotAssessed() && !slices.ContainsFunc(slices.Concat(plan.Sheets, out), func(us core.UnitSheet) bool { return us.Subsystem == p.Subsystem }) {
			out = append(out, core.UnitSheet{Subsystem: p.Subsystem, Failed: true})
		}
	}
	return out
}

// without names the subsystems that a plan's figures are made without, each with the way to where it can be tried again.
func without(plan core.Plan) []Subsystem {
	var out []Subsystem
	for _, us := range silentOf(plan) {
		out = append(out, Subsystem{Name: benchOf(us), Title: TitleOf(us), Silent: true})
	}
	return out
}
