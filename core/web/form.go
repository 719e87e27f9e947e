package web

import (
	"net/http"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// formID is the id that a device made for a form, so that what is sent twice is taken once; "" from a browser without the script.
func formID(r *http.Request) (string, error) {
	id := r.FormValue("id")
	if id != "" && !uuid.MatchString(id) {
		return "", core.Errorf(core.Invalid, "load the page again", "what was sent has no id that can be used")
	}
	return id, nil
}

// writer is who writes: as the device says, or whoever serves the bench.
func (s *Server) writer(r *http.Request) string {
	if by := strings.TrimSpace(r.FormValue("by")); by != "" {
		return by
	}
	return s.By
}

// names parts the names that were written into one field.
func names(text string) []string {
	var out []string
	for n := range strings.SplitSeq(text, ",") {
		if n = strings.TrimSpace(n); n != "" {
			out = append(out, n)
		}
	}
	return out
}

// byScript reports whether a script asks, which wants no page.
func byScript(r *http.Request) bool {
	return strings.Contains(r.Header.Get("Accept"), "application/json")
}

// went says that a form was taken, and where to go now.
func went(w http.ResponseWriter, r *http.Request, to string) error {
	if byScript(r) {
		writeJSON(w, http.StatusOK, struct {
			OK   bool   `json:"ok"`
			Next string `json:"next"`
		}{true, to})
		return nil
	}
	http.Redirect(w, r, to, http.StatusSeeOther)
	return nil
}
