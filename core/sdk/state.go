package sdk

import (
	"fmt"
	"slices"

	"github.com/fettle-tools/fettle/core"
)

// closedNow lists the checks that a remedy has to answer as things stand. A safety-critical part closes on doubt;
// an ordinary one that must be measured again keeps reuse while it is more likely fit than not.
func (v *verdict) closedNow() []string {
	c := v.close
	ids := slices.Clone(c.condemned)
	switch {
	case v.part.SafetyCritical:
		ids = slices.Concat(ids, c.straddle, c.doubtful, c.unread)
	case c.pastNow >= .5:
		ids = append(ids, c.straddle...)
	}
	return ids
}

// open lists the remedies that answer the checks given and that no rule forbids.
func (v *verdict) open(closing []string) []string {
	if v.part.OneUse || v.gone && v.goneRule == nil {
		return v.doc.feasible(nil, []core.RemedyKind{core.Replace})
	}
	if v.gone {
		closing = v.doc.checkIDs()
	}
	ids := v.doc.feasible(closing, v.allowed)
	if v.allowed != nil {
		ids = slices.DeleteFunc(ids, func(id string) bool { return id == "reuse" })
	}
	if len(ids) > 0 {
		return ids
	}
	v.r.problem(core.Problem{Severity: core.SeverityWarning, Target: v.target, Summary: fmt.Sprintf("%s: no remedy that its rules allow answers all that is wrong", v.name()),
		Detail: "it is taken as to be replaced", Next: "ask whoever keeps the sheet"})
	return v.doc.feasible(v.doc.checkIDs(), []core.RemedyKind{core.Replace})
}

// states tells what the part may turn out to be, and what is open in each case.
func (v *verdict) states(c *core.Condition) []core.State {
	one := []core.State{{Chance: 1, Grade: c.Grade, Remedies: v.open(v.closedNow())}}
	doubt := len(v.close.straddle) > 0 || len(v.close.unread) > 0
	if v.part.OneUse || v.gone || v.condemning() || !doubt {
		return one
	}
	past, id := 0.0, ""
	if len(v.close.unread) > 0 {
		var e *registerDoc
		if past, e = v.r.doc.chance(v.doc); e != nil {
			id = e.event(v.target.Position)
		}
		if v.close.pastNow > 0 {
			id = ""
		}
	}
	past = 1 - (1-past)*(1-v.close.pastNow)
	bad := slices.Concat(v.close.condemned, v.close.straddle)
	if len(v.close.unread) > 0 {
		bad = append(bad, v.doc.neededChecks()...)
	}
	grade := v.goodGrade()
	good := slices.Clone(v.close.condemned)
	if v.part.SafetyCritical {
		good = append(good, v.close.doubtful...)
		if grade == core.NearLimit {
			good = append(good, v.close.straddle...)
		}
	}
	return twoStates(past, id,
		core.State{Grade: grade, Remedies: v.open(good)},
		core.State{Grade: core.PastLimit, Remedies: v.open(bad)})
}

// goodGrade is the part's grade if what is in doubt turns out not to be past its limit.
func (v *verdict) goodGrade() core.Grade {
	g := core.WithinNew
	for _, j := range v.checks {
		switch {
		case straddles(j):
			g = max(g, sideGrade(j))
		case j.Grade == core.GradeNone:
			if v.part.Checks[j.check].NeededForReuse {
				g = max(g, core.WornFit)
			}
		default:
			g = max(g, j.Grade)
		}
	}
	return g
}

// sideGrade is the grade of a straddling reading on the good side: by its wear, at most near the limit.
func sideGrade(j judged) core.Grade {
	if j.Wear == nil {
		return core.WithinNew
	}
	return gradeOfWear(*j.Wear)
}
