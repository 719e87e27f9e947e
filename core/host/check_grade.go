package host

import (
	"slices"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

// regrade refuses a safety-critical part graded better than its own readings allow. Readings that need a formula are
// not worked out again; readings that the plugin says it could not use, as errors, are left out: those are in sight.
func (c *answerCheck) regrade(d core.Condition) {
	part := c.sheet.parts[d.Target.Part]
	if !part.SafetyCritical || part.OneUse {
		return
	}
	read := map[string]bool{}
	for i := range c.req.Findings {
		f := &c.req.Findings[i]
		check := part.Check(f.Check)
		if f.Target != d.Target || check == nil || c.unusable(f.ID) {
			continue
		}
		if check.Kind == core.Derived && f.Station != "" {
			continue // the limit is the result's, not the station's
		}
		read[f.Check] = read[f.Check] || f.Value.Kind != core.ValueNotRead
		if g := c.gradeOf(check, f); g > d.Grade {
			c.add("%s is graded %s, but %s %s (finding %s) is %s", d.Target, d.Grade, check.ID, f.Value, f.ID, g)
		}
	}
	for _, check := range part.Checks {
		if needed(check) && !read[check.ID] && d.Grade < core.NotSeen && !c.readAs(d, check) {
			c.add("%s is graded %s, but %s was not read", d.Target, d.Grade, check.ID)
		}
	}
}

// needed reports whether a safety-critical part counts as not seen without a reading of this very check. A derived
// one may come from other readings.
func needed(c core.Check) bool {
	switch c.Kind {
	case core.GoNoGo:
		return true
	case core.Derived, core.OneUse:
		return false
	}
	return c.NeededForReuse
}

// readAs reports that a size was read as another size of the same part: the plugin judges it, and names the readings that it
// judges it by, as of a bonded lining where a riveted one is asked for.
func (c *answerCheck) readAs(d core.Condition, check core.Check) bool {
	if check.Kind != core.Measured {
		return false
	}
	for _, why := range d.Reasons {
		for _, f := range c.req.Findings {
			if why.Check == check.ID && f.Target == d.Target && f.Value.Kind == core.ValueQuantity && slices.Contains(why.FindingIDs, f.ID) && !c.unusable(f.ID) {
				return true
			}
		}
	}
	return false
}

// unusable reports whether the plugin names the finding as one it could not use.
func (c *answerCheck) unusable(id string) bool {
	for _, p := range c.answer.Problems {
		if p.FindingID == id && p.Severity == core.SeverityError {
			return true
		}
	}
	return false
}

// gradeOf is the grade of one reading by the limit that holds; GradeNone where it says nothing.
func (c *answerCheck) gradeOf(check *core.Check, f *core.Finding) core.Grade {
	limit := core.LimitFor(*check, f.Target, c.req.Overrides)
	switch f.Value.Kind {
	case core.ValueNotRead:
		if f.Value.NotRead == core.PartMissing {
			return core.Missing
		}
	case core.ValuePass:
		x := 0.0
		if f.Value.Pass {
			x = 1
		}
		return sdk.Judge(x, 0, limit, core.GoNoGo, false).Grade
	case core.ValueClass:
		if limit.WorstClass != nil {
			return sdk.Judge(float64(f.Value.Class), 0, limit, core.Judged, false).Grade
		}
	case core.ValueCount:
		if bounded(limit) {
			return sdk.Judge(float64(f.Value.Count), 0, limit, core.Counted, check.TwoSided).Grade
		}
	case core.ValueQuantity:
		q, err := f.Value.Quantity.In(limit.Unit)
		if err == nil && bounded(limit) {
			return sdk.Judge(q.Value, sdk.StandardUncertainty(q.Bound), limit, check.Kind, check.TwoSided).Grade
		}
	}
	return core.GradeNone
}

func bounded(l core.Limit) bool {
	return l.NewLow != nil || l.NewHigh != nil || l.WearLow != nil || l.WearHigh != nil
}
