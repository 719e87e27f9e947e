package sdk

import (
	"fmt"
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// waiting is a check that waits for a fact: its limit, or its formula.
type waiting struct {
	part, check string
	formula     bool
}

// wait notes what waits for a fact, once.
func (r *described) wait(fact string, w waiting) {
	if w.part != "" && !slices.Contains(r.asked[fact], w) {
		r.asked[fact] = append(r.asked[fact], w)
	}
}

// ask asks for the facts that something waits for, in the order of the sheet. A limit that the job, a pack or a rule gives
// to every position waits no longer.
func (r *described) ask(ls []*look) {
	for _, f := range r.doc.facts {
		var limits, formulas []string
		for _, w := range r.asked[f.name.text] {
			switch name := w.part + " " + w.check; {
			case w.formula:
				formulas = append(formulas, name)
			case !given(ls, w):
				limits = append(limits, name)
			}
		}
		var ws []string
		if len(limits) > 0 {
			ws = append(ws, "there is no limit for "+strings.Join(limits, ", "))
		}
		if len(formulas) > 0 {
			ws = append(ws, "nothing can be worked out for "+strings.Join(formulas, ", "))
		}
		if len(ws) == 0 {
			continue
		}
		r.problem(core.Problem{Severity: core.SeverityWarning,
			Summary: fmt.Sprintf("%s is not known: %s", f.name.text, f.means),
			Detail:  "without it " + strings.Join(ws, "; "),
			Next:    fmt.Sprintf("give the fact %s with its unit (%s), from the unit's marks, its manual or its pack", f.name.text, f.unit)})
	}
}

// given reports whether a check has a limit at each of its positions.
func given(ls []*look, w waiting) bool {
	any := false
	for _, l := range ls {
		if l.part.ID != w.part {
			continue
		}
		if any = true; l.noLimit(l.index(w.check)) {
			return false
		}
	}
	return any
}
