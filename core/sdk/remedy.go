package sdk

import (
	"fmt"
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// remedies makes the remedies of one look, in the order reuse, rebuild, replace, each with why it is open or closed.
func (v *verdict) remedies(c *core.Condition) []core.Remedy {
	closed := v.closedNow()
	open := v.open(closed)
	var rs []core.Remedy
	for rank := 0; rank <= 2; rank++ {
		for i := range v.doc.remedies {
			if d := &v.doc.remedies[i]; d.kind.Rank() == rank {
				r := v.remedy(d)
				r.Feasible = slices.Contains(open, d.id.text)
				r.Why = v.why(d, r.Feasible, closed, c)
				rs = append(rs, r)
			}
		}
	}
	return rs
}

// remedy makes one remedy for this position.
func (v *verdict) remedy(d *remedyDoc) core.Remedy {
	r := core.Remedy{ID: d.id.text, Target: v.target, Kind: d.kind, Name: d.name, ResidualChance: d.residual,
		Yields: slices.Clone(d.yields), OriginalityMin: d.originality[0], OriginalityMax: d.originality[1], PinOnly: d.pinOnly}
	for _, o := range d.operations {
		r.Operations = append(r.Operations, v.r.instances.serving(o.text, v.target.Position))
	}
	for _, o := range d.collateral {
		r.CollateralOperations = append(r.CollateralOperations, v.r.instances.serving(o.text, v.target.Position))
	}
	for _, s := range d.steps {
		r.Steps = append(r.Steps, atPosition(s.text, v.target.Position))
	}
	if d.wearAfter != nil {
		w := *d.wearAfter
		r.WearAfter = &w
	}
	r.Requires, r.Excludes = v.refs(d.requires, d.id.text), v.refs(d.excludes, d.id.text)
	return r
}

// atPosition puts the position into a name that asks for it.
func atPosition(name, position string) string {
	return strings.ReplaceAll(name, "{position}", position)
}

// refs names remedies of other parts: at the position given, at this one, or at all.
func (v *verdict) refs(ds []refDoc, own string) []core.RemedyRef {
	var refs []core.RemedyRef
	for _, d := range ds {
		name := d.part
		if d.position != "" {
			name += "/" + atPosition(d.position, v.target.Position)
		}
		for _, t := range v.r.members(name) {
			if t != v.target || d.remedy != own {
				refs = append(refs, core.RemedyRef{Target: t, Remedy: d.remedy})
			}
		}
	}
	return refs
}

// why gives the reasons for a remedy: what it answers, or what stands against it.
func (v *verdict) why(d *remedyDoc, feasible bool, closed []string, c *core.Condition) []core.Reason {
	var rs []core.Reason
	if v.gone {
		return []core.Reason{v.goneReason()}
	}
	if v.part.OneUse {
		return c.Reasons[:1]
	}
	for _, j := range v.byWorst {
		id := v.part.Checks[j.check].ID
		if !slices.Contains(closed, id) {
			continue
		}
		cures := d.kind != core.Reuse && d.cures(id) && (j.rule == nil || slices.Contains(j.rule.allowed, d.kind))
		if feasible == cures {
			rs = append(rs, v.reason(j))
		}
	}
	if !feasible && v.part.SafetyCritical && d.kind == core.Reuse && len(v.close.condemned) == 0 {
		rs = append(rs, core.Reason{Text: "a safety-critical part is not used again on a doubt", Check: c.GoverningCheck, Source: commonPractice})
	}
	if feasible && len(rs) == 0 && len(c.Reasons) > 0 {
		rs = append(rs, c.Reasons[0])
	}
	if !feasible && len(rs) == 0 {
		rs = append(rs, core.Reason{Text: fmt.Sprintf("%s is not open as things stand", d.name), Check: c.GoverningCheck})
	}
	return rs
}
