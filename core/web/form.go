package web

import (
	"net/http"
	"slices"
	"strconv"
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

// byWhom is who writes a form down: named in it, or whoever writes where nobody is named.
func (s *Server) byWhom(r *http.Request) string {
	if by := strings.TrimSpace(r.PostFormValue("by")); by != "" {
		return by
	}
	return s.by(r)
}

// wholeNumber reads a whole number; what is none is 0.
func wholeNumber(text string) int {
	n, err := strconv.Atoi(strings.TrimSpace(text))
	if err != nil {
		return 0
	}
	return n
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

// Named is what may be called by its key or by its name.
type Named struct{ Key, Name string }

// offered is one to choose from, and what is said beside it.
type offered struct{ Value, Beside string }

// offers are things by their names, each with its key beside it; where several have one name, by their keys.
func offers(things []Named) []offered {
	called := map[string]int{}
	for _, n := range things {
		called[strings.ToLower(n.Name)]++
	}
	var out []offered
	for _, n := range things {
		if called[strings.ToLower(n.Name)] > 1 {
			out = append(out, offered{n.Key, n.Name})
		} else {
			out = append(out, offered{n.Name, n.Key})
		}
	}
	slices.SortFunc(out, func(a, b offered) int { return strings.Compare(strings.ToLower(a.Value), strings.ToLower(b.Value)) })
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
