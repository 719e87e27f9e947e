package sdk

import (
	"fmt"
	"slices"

	"github.com/fettle-tools/fettle/core"
)

// override puts limits in place of the sheet's, weakest first: by origin, then for all positions, then for one.
func (r *described) override(ls []*look, os []core.Override) {
	type ranked struct {
		core.Override
		rank int
	}
	var sorted []ranked
	for _, o := range os {
		if o.Limit.Origin == "" {
			o.Limit.Origin = "job"
		}
		rank := o.Rank()
		if rank < 2 {
			r.badOverride(o, `say job, unit or vehicle`, fmt.Sprintf("%q is no origin of a limit", o.Limit.Origin))
			continue
		}
		sorted = append(sorted, ranked{o, rank})
	}
	slices.SortStableFunc(sorted, func(a, b ranked) int { return a.rank - b.rank })
	for _, o := range sorted {
		r.applyOverride(ls, o.Override)
	}
}

func (r *described) badOverride(o core.Override, next, why string) {
	r.problem(core.Problem{Severity: core.SeverityError, Target: o.Target, Check: o.Check, Next: next, Detail: "the limit before it stays",
		Summary: fmt.Sprintf("the limit of %s %s given by the %s cannot be used: %s", o.Target, o.Check, o.Limit.Origin, why)})
}

func (r *described) applyOverride(ls []*look, o core.Override) {
	p := r.sheet.Part(o.Target.Part)
	if p == nil {
		r.badOverride(o, didYouMean(o.Target.Part, r.doc.partIDs()), "there is no such part")
		return
	}
	c := p.Check(o.Check)
	if c == nil {
		r.badOverride(o, didYouMean(o.Check, r.doc.part(p.ID).checkIDs()), "there is no such check")
		return
	}
	if o.Target.Position != "" && !slices.Contains(p.Positions, o.Target.Position) {
		r.badOverride(o, didYouMean(o.Target.Position, p.Positions), "there is no such position")
		return
	}
	limit, why := limitIn(o.Limit, c)
	if why != "" {
		r.badOverride(o, "give the limit again", why)
		return
	}
	if limit.Source == "" {
		limit.Source = "no source given"
		r.problem(core.Problem{Severity: core.SeverityWarning, Target: o.Target, Check: o.Check, Next: "name the manual and page, or write that it is common practice",
			Summary: fmt.Sprintf("the limit of %s %s given by the %s names no source", o.Target, o.Check, o.Limit.Origin)})
	}
	for _, l := range ls {
		if l.part.ID == p.ID && (o.Target.Position == "" || o.Target.Position == l.target.Position) {
			l.limits[l.index(c.ID)] = limit
		}
	}
}

// limitIn gives a limit in the check's unit, with pointers of its own; why says what is wrong with it.
func limitIn(l core.Limit, c *core.Check) (core.Limit, string) {
	from := l.Unit
	if from == "" {
		from = c.Unit
	}
	for _, b := range []**float64{&l.NewLow, &l.NewHigh, &l.WearLow, &l.WearHigh} {
		if *b == nil {
			continue
		}
		v, err := core.Convert(**b, from, c.Unit)
		if err != nil {
			return l, err.Error()
		}
		*b = &v
	}
	l.Unit = c.Unit
	switch c.Kind {
	case core.Judged:
		if l.WorstClass == nil {
			return l, "a judged check needs a worst class"
		}
	case core.Measured, core.Derived, core.Counted:
		if l.NewLow == nil && l.NewHigh == nil && l.WearLow == nil && l.WearHigh == nil {
			return l, "it has no bounds"
		}
	}
	return l, upsideDown(l)
}
