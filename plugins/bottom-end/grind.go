package bottomend

import (
	"fmt"
	"strings"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

// grind closes what is too small for each journal and says what the group comes to. The group itself agrees on one
// size through its set: the host takes the smallest that is still open to all.
func (g group) grind(b *sdk.Bench) {
	rule, ok := g.rule(b.Sheet, b)
	ts := g.targets(b.Sheet)
	if !ok || !anyRead(b, ts) {
		return
	}
	journals := g.journals(b.Sheet, b)
	mark, _ := g.marked(b.Sheet, b)
	size := rule.Present(mark, journals)
	if size.Agreed && size.Step > 0 {
		g.standing(b, ts, size.Step)
	}
	answer := rule.Group(journals)
	for i, t := range ts {
		g.journal(b, t, rule, answer.Journals[i], answer)
	}
	if answer.Beyond {
		g.weld(b, ts, answer)
	}
	g.say(b, ts, answer, size)
}

// standing makes reuse keep the size the group stands at, and closes grinding to that size or less.
func (g group) standing(b *sdk.Bench, ts []core.Target, step float64) {
	for _, t := range ts {
		if r := b.Remedy(t, "reuse"); r != nil {
			r.Yields = []core.Yield{{Key: g.key, Value: yield(step)}}
			r.Name = fmt.Sprintf("Polished and used at %s, with new %s shells", sdk.Undersize(step), sdk.Undersize(step))
		}
		for _, s := range sdk.MainsRule(0).Steps {
			if s <= step+core.Slack {
				b.Close(t, regrindID(s), core.Reason{Text: "the " + g.name + " stand at " + sdk.Undersize(step) + " already", Check: "present-undersize", Rule: g.set, Source: common})
			}
		}
	}
}

// journal closes the steps that do not clean one journal up, and keeps the sums.
func (g group) journal(b *sdk.Bench, t core.Target, rule sdk.GrindRule, j sdk.JournalGrind, answer sdk.GroupGrind) {
	ids := g.findings(b, t)
	for _, s := range rule.Steps {
		r := b.Remedy(t, regrindID(s))
		if r == nil || !r.Feasible {
			continue
		}
		switch {
		case j.Taken > 0 && !core.LessOrEqual(j.Required, s):
			b.Close(t, r.ID, core.Reason{Text: fmt.Sprintf("%s does not clean it up: %s has to come off", sdk.Undersize(s), inches(j.Required)),
				FindingIDs: ids, Check: "diameter", Rule: g.set, Source: common})
		case rule.Shells != nil && !has(rule.Shells, s):
			b.Close(t, r.ID, core.Reason{Text: "no shells are to be had at " + sdk.Undersize(s), Check: "diameter", Rule: g.set, Source: common})
		}
	}
	if j.Taken == 0 {
		return
	}
	for _, f := range []struct {
		name   string
		value  float64
		source string
	}{
		{"wear", j.Wear, "top of the standard size less the smallest reading"},
		{"required", j.Required, "wear + out-of-round + .0020 to clean up, more for a deep score (common practice, no source)"},
		{"step-alone", j.Alone, "the smallest step that is enough for this journal by itself; 0 is beyond the largest"},
		{"step-of-group", answer.Step, "the smallest step that is enough for all of the group; 0 is beyond the largest"},
	} {
		b.AddFact(t, core.Fact{Name: f.name, Source: f.source, Value: core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: f.value, Unit: "in"}}})
	}
}

// weld offers building up and grinding to standard, where no step is enough: all of the group or none. The risk of it is
// medium, once for the group.
func (g group) weld(b *sdk.Bench, ts []core.Target, answer sdk.GroupGrind) {
	why := core.Reason{Text: fmt.Sprintf("%s needs %s off, more than the largest step", answer.Driver, inches(answer.Required)), Check: "diameter", Rule: g.set, Source: common}
	for _, t := range ts {
		if c := b.Condition(t); c == nil || c.Grade == core.Missing {
			continue
		}
		b.AddRemedy(core.Remedy{ID: "weld-and-grind", Target: t, Kind: core.Rebuild, Name: "Built up by welding and ground to standard with the whole group",
			Feasible: true, Why: []core.Reason{why}, Operations: []string{b.Operation("weld-and-grind", t.Position)}, WearAfter: new(0.0), ResidualChance: .10 / float64(len(ts)),
			Yields: []core.Yield{{Key: g.key, Value: "welded"}}, Excludes: []core.RemedyRef{{Target: core.Target{Part: "crankshaft"}, Remedy: "replace-crankshaft"}}})
	}
}

// say puts the answer into the journals' reasons, and warns of what a person has to look at.
func (g group) say(b *sdk.Bench, ts []core.Target, answer sdk.GroupGrind, size sdk.PresentSize) {
	grinds := false
	for _, t := range ts {
		r := b.Remedy(t, "reuse")
		grinds = grinds || r != nil && !r.Feasible && len(g.findings(b, t)) > 0
	}
	words := answer.Words()
	for _, t := range ts {
		if c := b.Condition(t); grinds && c != nil {
			c.Reasons = append(c.Reasons, core.Reason{Text: "the " + g.name + " as a group: " + strings.Join(words, "; "), FindingIDs: g.findings(b, t),
				Check: "diameter", Rule: g.set, Source: grindSource})
		}
	}
	warn := func(at core.Target, summary, next string) {
		b.Problem(core.Problem{Severity: core.SeverityWarning, Target: at, Check: "diameter", Summary: g.name + ": " + summary, Next: next})
	}
	driver := core.Target{Part: g.part, Position: answer.Driver}
	if !answer.Settled {
		warn(ts[0], fmt.Sprintf("%d of %d journals read in full: no order until all are", complete(answer), len(ts)), "measure the others: one odd journal changes the size of all")
	}
	if len(answer.Mismatched) > 0 && !(size.Agreed && size.Step > 0) {
		warn(core.Target{Part: g.part, Position: answer.Mismatched[0]}, strings.Join(answer.Mismatched, ", ")+" reads as ground before, the others do not: a mismatched set", "check the stamps on the shells")
	}
	if !grinds {
		return
	}
	switch {
	case answer.Beyond:
		warn(driver, fmt.Sprintf("%s needs %s off, more than the largest step", answer.Driver, inches(answer.Required)), "weld and grind, or another crankshaft: ask the grinder")
	case answer.Close:
		warn(driver, fmt.Sprintf("close: only %s to spare at %s", inches(answer.Margin), sdk.Undersize(answer.Step)), "ask the grinder before buying shells")
	}
	if answer.Uncertain {
		warn(driver, "what has to come off lies within the instrument's uncertainty of a step", "measure "+answer.Driver+" again with the best micrometer")
	}
	if len(answer.ScoreLeft) > 0 {
		warn(core.Target{Part: g.part, Position: answer.ScoreLeft[0]}, "the score may not clean up at "+sdk.Undersize(answer.Step), "ask the grinder before buying shells")
	}
}

// findings lists what was read of one journal's size.
func (g group) findings(b *sdk.Bench, t core.Target) []string {
	var ids []string
	for _, st := range stations {
		if _, id, ok := b.Reading(t, "diameter", st); ok {
			ids = append(ids, id)
		}
	}
	return ids
}

func complete(answer sdk.GroupGrind) (n int) {
	for _, j := range answer.Journals {
		if j.Taken == j.Needed {
			n++
		}
	}
	return n
}

func has(sizes []float64, s float64) bool {
	for _, x := range sizes {
		if d := x - s; d < core.Slack && d > -core.Slack {
			return true
		}
	}
	return false
}

// inches writes a size as the trade does, without the noise of its sum: ".0094 in".
func inches(v float64) string {
	return strings.Replace(strings.TrimRight(fmt.Sprintf("%.5f", v), "0"), "0.", ".", 1) + " in"
}
