package cylinders

import (
	"fmt"
	"strings"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

// block is what was worked out for all bores together.
type block struct {
	rule  sdk.ReboreRule
	size  sdk.PresentSize
	bores []core.Target
	sdk.GroupRebore
}

// rebore closes what does not clean each bore up and says what the block comes to. Bores and pistons agree on one size
// through their set: the host takes the cheapest that is still open to all.
func rebore(b *sdk.Bench) {
	rule, ok := blockRule(b.Sheet, b)
	if !ok {
		return
	}
	k := block{rule: rule, bores: targets(b.Sheet, "bore")}
	all := bores(b.Sheet, b)
	k.size = rule.Present(marked(b.Sheet, b), all)
	k.GroupRebore = rule.Group(all, k.size.Step)
	if k.size.Step > 0 {
		k.standing(b)
	}
	for i, t := range k.bores {
		k.steps(b, t, k.Bores[i])
		k.sums(b, t, k.Bores[i])
	}
	k.pits(b)
	k.sleeve(b)
	k.say(b)
}

// standing makes reuse keep the size the block stands at, and closes boring to that size or less.
func (k block) standing(b *sdk.Bench) {
	at, why := sdk.Oversize(k.size.Step), core.Reason{Text: "the bores stand at " + sdk.Oversize(k.size.Step) + " already", Check: "present-oversize", Rule: boreSet, Source: common}
	for _, t := range k.bores {
		p := core.Target{Part: "piston", Position: t.Position}
		for _, ref := range []core.RemedyRef{{Target: t, Remedy: "reuse"}, {Target: t, Remedy: "hone"}, {Target: p, Remedy: "reuse"}, {Target: p, Remedy: "new-set"}} {
			r := b.Remedy(ref.Target, ref.Remedy)
			if r == nil {
				continue
			}
			for i := range r.Yields {
				if r.Yields[i].Key == key {
					r.Yields[i].Value = yield(k.size.Step)
				}
			}
			r.Name += ", at " + at
		}
		for _, s := range k.rule.Steps {
			if s <= k.size.Step+core.Slack {
				shut(b, t, stepID("rebore", s), why)
				why.Check = "skirt-clearance"
				shut(b, p, stepID("oversize", s), why)
				why.Check = "present-oversize"
			}
		}
	}
}

// steps closes the steps that do not clean one bore up, leave too thin a wall, or have no pistons.
func (k block) steps(b *sdk.Bench, t core.Target, n sdk.BoreNeed) {
	for _, s := range k.rule.Steps {
		why := core.Reason{FindingIDs: found(b, t), Check: "over-standard", Rule: boreSet, Source: common}
		switch {
		case k.rule.Pistons != nil && !has(k.rule.Pistons, s):
			why.Text = "no pistons are to be had at " + sdk.Oversize(s)
		case n.Taken > 0 && !core.LessOrEqual(n.Required, s):
			why.Text = fmt.Sprintf("%s does not clean it up: %s has to come out", sdk.Oversize(s), inches(n.Required))
		case k.rule.TooThin(n.Wall, k.size.Step, s):
			why.Check = "wall-thickness"
			why.Text = fmt.Sprintf("%s would leave %s of wall, where %s has to stand", sdk.Oversize(s), inches(sdk.WallAfter(*n.Wall, k.size.Step, s)), inches(k.rule.LeastWall))
		default:
			continue
		}
		shut(b, t, stepID("rebore", s), why)
	}
}

// sums keeps what was worked out for one bore.
func (k block) sums(b *sdk.Bench, t core.Target, n sdk.BoreNeed) {
	if n.Taken == 0 {
		return
	}
	add := func(name string, v float64, source string) {
		b.AddFact(t, core.Fact{Name: name, Source: source, Value: core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: v, Unit: "in"}}})
	}
	add("wear", n.Wear, "largest reading less the standard bore")
	add("required", n.Required, "wear + out-of-round + .0040 to clean up and hone, more for a pit (common practice, no source)")
	add("step-alone", n.Alone, "the smallest step that is enough for this bore by itself; 0 is beyond the largest")
	add("step-of-block", k.Step, "the smallest step that is enough for all bores; 0 is beyond the largest")
	if n.Wall != nil && k.Step > 0 {
		add("wall-after", sdk.WallAfter(*n.Wall, k.size.Step, k.Step), "thinnest wall less half of what boring takes")
	}
}

// bored reports that some bore can not be used as it is.
func (k block) bored(b *sdk.Bench) bool {
	for _, t := range k.bores {
		if r := b.Remedy(t, "reuse"); r != nil && !r.Feasible && len(found(b, t)) > 0 {
			if h := b.Remedy(t, "hone"); h == nil || !h.Feasible {
				return true
			}
		}
	}
	return false
}

// say puts the answer into the bores' reasons, and warns of what a person has to look at.
func (k block) say(b *sdk.Bench) {
	if k.Taken == 0 {
		return
	}
	warn := func(severity core.Severity, position, check, summary, next string) {
		b.Problem(core.Problem{Severity: severity, Target: core.Target{Part: "bore", Position: position}, Check: check, Summary: "bores: " + summary, Next: next})
	}
	if !k.Settled {
		warn(core.SeverityWarning, k.bores[0].Position, "over-standard", fmt.Sprintf("%d of %d read in full: no order until all are", k.complete(), len(k.bores)),
			"measure the others: one odd bore changes the size of all")
	}
	if len(k.Mismatched) > 0 && k.size.Step == 0 {
		warn(core.SeverityWarning, k.Mismatched[0], "over-standard", strings.Join(k.Mismatched, ", ")+" not at the size of the others", "read what stands on the crowns of the pistons")
	}
	if !k.bored(b) {
		return
	}
	words := "the bores as a block: " + strings.Join(k.Words(), "; ")
	for _, t := range k.bores {
		if c := b.Condition(t); c != nil {
			c.Reasons = append(c.Reasons, core.Reason{Text: words, FindingIDs: found(b, t), Check: "over-standard", Rule: boreSet, Source: common})
		}
	}
	switch {
	case k.Beyond:
		warn(core.SeverityWarning, k.Driver, "over-standard", fmt.Sprintf("bore %s needs %s out, more than the largest step that has pistons", k.Driver, inches(k.Required)),
			"sleeves, or another block: ask the borer")
	case k.Close:
		warn(core.SeverityWarning, k.Driver, "over-standard", fmt.Sprintf("close: only %s to spare at %s", inches(k.Margin), sdk.Oversize(k.Step)), "ask the borer before buying pistons")
	}
	if k.Uncertain {
		warn(core.SeverityWarning, k.Driver, "over-standard", "what has to come out lies within the instrument's uncertainty of a step", "measure bore "+k.Driver+" again with the best gauge")
	}
	for _, n := range k.Bores {
		if n.Wall == nil {
			warn(core.SeverityNote, n.Position, "wall-thickness", "not every wall is measured", "measure the walls before any bore is opened out: a thin one takes a sleeve")
			return
		}
	}
}

func (k block) complete() (n int) {
	for _, x := range k.Bores {
		if x.Taken == x.Needed {
			n++
		}
	}
	return n
}

// found lists what was read of one bore's size.
func found(b *sdk.Bench, t core.Target) []string {
	var ids []string
	for _, st := range stations {
		if _, id, ok := b.Reading(t, "over-standard", st); ok {
			ids = append(ids, id)
		}
	}
	return ids
}

func has(sizes []float64, s float64) bool {
	for _, x := range sizes {
		if d := x - s; d < core.Slack && d > -core.Slack {
			return true
		}
	}
	return false
}
