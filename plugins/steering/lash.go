package steering

import (
	"fmt"
	"strings"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

var lash = core.Target{Part: "lash"}

// source is one place where play is measured and that the drop arm carries up to the rim.
type source struct {
	name   string
	target core.Target
	check  string
	joint  bool
}

var sources = []source{
	{"box and arm", core.Target{Part: "steering-gear"}, "arm-play", false},
	{"drag link's front end", core.Target{Part: "ball-joint", Position: "drag-link-front"}, "axial-play", true},
	{"drag link's rear end", core.Target{Part: "ball-joint", Position: "drag-link-rear"}, "axial-play", true},
}

// lashRules says where too much play at the rim comes from, each play measured at its own place and carried up to the rim,
// and closes adjusting where something is worn: adjusting is for a box and joints within their limits (common practice,
// no source).
func lashRules(b *sdk.Bench) {
	c := b.Condition(lash)
	q, id, read := b.Reading(lash, "free-play", "")
	if c == nil || !read || !c.Grade.ClosesReuse(true) {
		return
	}
	measured, ids := measuredSources(b)
	if len(measured) == 0 {
		b.Problem(core.Problem{Severity: core.SeverityNote, Target: lash, Check: "free-play", FindingID: id,
			Summary: "where the play at the rim comes from is not known yet", Detail: "box, joints, swivels and column each have a share",
			Next: "read the play at the tip of the drop arm and at both ends of the drag link before the links come off"})
		return
	}
	if shares, ok := sharesOf(b, q.Value, measured); ok {
		c.Reasons = append(c.Reasons, core.Reason{Text: shares.Words(), FindingIDs: append([]string{id}, ids...), Check: "free-play", Source: common})
		for _, p := range shares.Parts {
			b.AddFact(lash, core.Fact{Name: "share of " + p.Name, Source: "play carried up to the rim by drop arm, box ratio and wheel (" + common + ")",
				Value: core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: p.AtRim, Unit: "in"}}})
		}
	}
	putRight(b)
}

// measuredSources are the plays that were read, with their findings.
func measuredSources(b *sdk.Bench) (list []sdk.LashSource, ids []string) {
	for _, s := range sources {
		if q, id, ok := b.Reading(s.target, s.check, ""); ok {
			list = append(list, sdk.LashSource{Name: s.name, Play: q.Value})
			ids = append(ids, id)
		}
	}
	return list, ids
}

// sharesOf carries the plays up to the rim; ok is false while drop arm, ratio or wheel is not known.
func sharesOf(b *sdk.Bench, rim float64, measured []sdk.LashSource) (sdk.LashShares, bool) {
	wheel, ok1 := size(b.Fact("W"))("in")
	arm, ok2 := size(b.Fact("drop_arm"))("in")
	ratio, ok3 := size(b.Fact("box_ratio"))("1")
	if !ok1 || !ok2 || !ok3 || rim <= 0 {
		return sdk.LashShares{}, false
	}
	return sdk.SteeringTrain{Wheel: wheel, DropArm: arm, Ratio: ratio}.Shares(rim, measured), true
}

// putRight makes the cure of the play that of the places found worn.
func putRight(b *sdk.Bench) {
	var worn, ops []string
	joints := false
	for _, s := range sources {
		if !past(b, s.target, s.check) {
			continue
		}
		worn = append(worn, s.name)
		switch {
		case !s.joint:
			ops = append(ops, b.Operation("box-overhaul", ""))
		case !joints:
			joints = true
			ops = append(ops, b.Operation("ball-joints", s.target.Position), b.Operation("set-toe", ""))
		}
	}
	r := b.Remedy(lash, "put-right")
	if len(worn) == 0 || r == nil {
		return
	}
	names := strings.Join(worn, ", ")
	r.Name = fmt.Sprintf("What is worn put right (%s), set, and play read again", names)
	r.Operations = append(ops, b.Operation("adjust-and-grease", ""))
	if joints && len(worn) > 0 && !past(b, sources[0].target, sources[0].check) {
		r.Steps = []string{"links-off"}
	}
	b.Close(lash, "adjust", core.Reason{Text: "worn past its limit: " + names + "; adjusting is for a box and joints within theirs", Check: "free-play", Source: common})
}

// past reports that a reading closes reuse of its part by itself.
func past(b *sdk.Bench, t core.Target, check string) bool {
	q, _, read := b.Reading(t, check, "")
	c := b.Sheet.Check(t.Part, check)
	l, limited := b.Limit(t, check)
	if !read || c == nil || !limited {
		return false
	}
	g := sdk.Judge(q.Value, sdk.StandardUncertainty(q.Bound), l, c.Kind, c.TwoSided).Grade
	return g >= core.TooTight || g == core.NearLimit
}
