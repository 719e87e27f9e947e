package sdk

import (
	"fmt"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// GroupRebore is the one answer for a whole block: all its bores take one step, by the worst of them.
type GroupRebore struct {
	Bores         []BoreNeed // in the order given
	Taken, Needed int        // readings of the whole block
	Complete      bool       // every bore has all its readings
	Settled       bool       // nothing that is still unread can change the answer

	Step     float64   // oversize on diameter; 0 if beyond the largest, or nothing was read
	Beyond   bool      // no step is large enough: sleeves, or another block
	Skipped  []float64 // steps that would have done and have no pistons
	Finished float64   // low limit of the bored size; 0 if there is no step. Each bore is finished to its own piston
	Required float64   // of the worst bore
	Driver   string    // the worst bore
	Margin   float64   // Step - Required

	NextDriver string  // the next-worst bore
	NextStep   float64 // the step it would need without the driver; 0 if it has none

	Close      bool     // the margin is under the rule's
	Uncertain  bool     // Required is within its expanded uncertainty (k = 2) of a step
	Mismatched []string // bores not at the size that most are near to: wrong pistons, or one sleeved
	Thin       []string // bores whose wall would be too thin at Step: these are sleeved
	Sleeves    []SleeveOffer
}

// SleeveOffer is the other offer: some bores are sleeved, and all are then bored to a smaller step.
type SleeveOffer struct {
	Step      float64
	Positions []string // the bores to sleeve
}

// Group works out the step of a whole block that stands at an oversize (0 for standard) from the readings taken so
// far. The order is blocked until Settled; pistons are in hand before a hole is bored (common practice, no source).
func (r ReboreRule) Group(bores []Bore, present float64) GroupRebore {
	g := GroupRebore{Complete: len(bores) > 0}
	worst, next := -1, -1
	for i, b := range bores {
		n := r.need(b)
		g.Bores = append(g.Bores, n)
		g.Taken += n.Taken
		g.Needed += n.Needed
		g.Complete = g.Complete && n.Needed > 0 && n.Taken == n.Needed
		switch {
		case n.Taken == 0:
		case worst < 0 || n.Required > g.Bores[worst].Required:
			worst, next = i, worst
		case next < 0 || n.Required > g.Bores[next].Required:
			next = i
		}
	}
	if worst < 0 {
		return g
	}
	g.settle(r, worst, present)
	if next >= 0 {
		g.NextDriver, g.NextStep = g.Bores[next].Position, g.Bores[next].Alone
	}
	g.mismatch(r)
	g.sleeves(r, present)
	return g
}

// settle takes the step by the worst bore.
func (g *GroupRebore) settle(r ReboreRule, worst int, present float64) {
	w := g.Bores[worst]
	g.Driver, g.Required = w.Position, w.Required
	g.Step, g.Skipped = r.step(w.Required)
	g.Beyond = g.Step == 0
	g.Settled = g.Complete || g.Beyond
	for _, s := range r.Steps {
		if d := s - w.Required; w.RequiredU > 0 && d <= 2*w.RequiredU && d >= -2*w.RequiredU {
			g.Uncertain = true
		}
	}
	if g.Beyond {
		return
	}
	g.Finished, g.Margin = r.Standard+g.Step, g.Step-w.Required
	g.Close = !core.LessOrEqual(r.Close, g.Margin)
	for _, b := range g.Bores {
		if r.TooThin(b.Wall, present, g.Step) {
			g.Thin = append(g.Thin, b.Position)
		}
	}
}

// TooThin reports that a wall would be under the least at a step; a wall that was not measured is not judged.
func (r ReboreRule) TooThin(wall *float64, present, step float64) bool {
	return wall != nil && !core.LessOrEqual(r.LeastWall, WallAfter(*wall, present, step))
}

// mismatch names the bores that are not at the size of the others, standard if that is as common as any.
func (g *GroupRebore) mismatch(r ReboreRule) {
	at := map[float64]int{}
	for _, b := range g.Bores {
		if b.Taken > 0 {
			at[b.NearStep]++
		}
	}
	common := 0.0
	for _, s := range r.Steps {
		if at[s] > at[common] {
			common = s
		}
	}
	for _, b := range g.Bores {
		if b.Taken > 0 && b.NearStep != common {
			g.Mismatched = append(g.Mismatched, b.Position)
		}
	}
}

// sleeves lists the steps under the block's own that come right by sleeving what does not clean up or would be too thin
// there, the fewest sleeves first; a step that takes a sleeve in every bore is none.
func (g *GroupRebore) sleeves(r ReboreRule, present float64) {
	for _, s := range r.Steps {
		if !g.Beyond && s > g.Step+core.Slack || r.Pistons != nil && !hasSize(r.Pistons, s) {
			continue
		}
		o, read := SleeveOffer{Step: s}, 0
		for _, b := range g.Bores {
			if b.Taken == 0 {
				continue
			}
			read++
			if !core.LessOrEqual(b.Required, s) || r.TooThin(b.Wall, present, s) {
				o.Positions = append(o.Positions, b.Position)
			}
		}
		if len(o.Positions) == 0 || len(o.Positions) == read {
			continue
		}
		at := 0
		for at < len(g.Sleeves) && len(g.Sleeves[at].Positions) <= len(o.Positions) {
			at++
		}
		g.Sleeves = append(g.Sleeves[:at], append([]SleeveOffer{o}, g.Sleeves[at:]...)...)
	}
}

// Words tells the answer in sentences for the bench, the worst news first.
func (g GroupRebore) Words() []string {
	var ws []string
	say := func(format string, args ...any) { ws = append(ws, fmt.Sprintf(format, args...)) }
	switch {
	case g.Taken == 0:
		say("nothing read: %d readings to take", g.Needed)
		return ws
	case g.Beyond && len(g.Skipped) > 0:
		say("%s needs %s out; no pistons to be had for that", g.Driver, thou(g.Required))
	case g.Beyond:
		say("%s needs %s out, more than the largest step: sleeves, or another block", g.Driver, thou(g.Required))
	default:
		say("all to %s, by bore %s, which needs %s out; bored to %s and on to fit each piston", Oversize(g.Step), g.Driver, thou(g.Required), core.FormatNumber(round5(g.Finished)))
	}
	if !g.Settled {
		say("no order until all are read: %s", strings.Join(g.unread(), ", "))
	}
	for _, s := range g.Skipped {
		say("no pistons to be had at %s", Oversize(s))
	}
	if g.NextStep > 0 && g.NextStep != g.Step {
		say("without bore %s, bore %s would need %s", g.Driver, g.NextDriver, Oversize(g.NextStep))
	}
	for _, o := range g.Sleeves {
		say("or a sleeve in bore %s and all to %s", strings.Join(o.Positions, ", "), Oversize(o.Step))
	}
	if len(g.Mismatched) > 0 {
		say("bore %s not at the size of the others: read what stands on the pistons", strings.Join(g.Mismatched, ", "))
	}
	if g.Close {
		say("close, %s to spare: ask the borer before buying pistons", thou(g.Margin))
	}
	if g.Uncertain {
		say("what is needed lies within the instrument's uncertainty of a step: measure bore %s again", g.Driver)
	}
	if len(g.Thin) > 0 {
		say("the wall of bore %s would be too thin: it is sleeved", strings.Join(g.Thin, ", "))
	}
	return ws
}

// unread lists the bores with readings to take: "4 5 of 6".
func (g GroupRebore) unread() []string {
	var ws []string
	for _, b := range g.Bores {
		if b.Taken < b.Needed || b.Needed == 0 {
			ws = append(ws, fmt.Sprintf("bore %s %d of %d", b.Position, b.Taken, b.Needed))
		}
	}
	return ws
}
