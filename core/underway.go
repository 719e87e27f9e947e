package core

import "slices"

// Underway lays what has happened to a job over what its plan is made from: steps that are done cost refit only, and what was found on a part
// that moves to another unit counts there; what is out, on order or worked on shortens what is to come.
func (r PlanRequest) Underway(s Story) PlanRequest {
	r.Job.Extent.Apart = slices.Clone(r.Job.Extent.Apart)
	for _, key := range s.Off() {
		r.Job.Extent.Apart = appendNew(r.Job.Extent.Apart, key)
	}
	r.Findings = transplanted(r.Findings, r.Job.Moved)
	r.StripSpent, r.Begun = s.StripHours(), s.Begun()
	return r
}

// transplanted gives the findings as they count once parts have moved: those of a part that makes room do not, those of the part that
// takes its place are its.
func transplanted(findings []Finding, moved []Transplant) []Finding {
	if len(moved) == 0 {
		return findings
	}
	var out []Finding
	for _, f := range findings {
		if !slices.ContainsFunc(moved, func(t Transplant) bool { return f.Place() == t.To }) {
			out = append(out, f)
		}
	}
	for _, t := range moved {
		for _, f := range findings {
			if f.Place() == t.From {
				f.Subsystem, f.Unit, f.Target = t.To.Subsystem, t.To.Unit, t.To.Target
				out = append(out, f)
			}
		}
	}
	return out
}

// charged gives the terms as they hold for the work of a subsystem: somebody may do it at an hour's charge of their own.
func (t Terms) charged(labour []Labour, subsystem string) Terms {
	i := slices.IndexFunc(labour, func(l Labour) bool { return l.Subsystem == subsystem })
	if i < 0 {
		return t
	}
	t.own = &labour[i]
	return t
}
