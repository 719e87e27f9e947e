package sdk

import (
	"fmt"
	"math"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// GroupGrind is the one answer for a whole group: all its journals take one step, by the worst of them.
type GroupGrind struct {
	Journals      []JournalGrind // in the order given
	Taken, Needed int            // readings of the whole group
	Complete      bool           // every journal has all its readings
	Settled       bool           // nothing that is still unread can change the answer

	Step         float64   // undersize on diameter; 0 if beyond the largest, or nothing was read
	Beyond       bool      // no step is large enough: weld and grind, or another crank
	Skipped      []float64 // steps that would have done and have no shells
	FinishedHigh float64   // 0 if there is no step
	FinishedLow  float64
	Required     float64 // of the worst journal
	Driver       string  // the worst journal
	Margin       float64 // Step - Required

	NextDriver string  // the next-worst journal
	NextStep   float64 // the step it would need without the driver; 0 if it has none

	Close      bool     // the margin is under the rule's: ask the grinder before buying shells
	Uncertain  bool     // Required is within its expanded uncertainty (k = 2) of a step
	Mismatched []string // journals not at the size that most are near to: check the stamp on the shells
	ScoreLeft  []string // journals with a score that may not clean up at this step
}

// Group works out the step of a whole group from the readings taken so far. A crank that is at a step already needs
// no other input: readings are absolute. The order is blocked until Settled.
func (r GrindRule) Group(journals []Journal) GroupGrind {
	g := GroupGrind{Complete: len(journals) > 0}
	worst, next := -1, -1
	for i, j := range journals {
		jg := r.journalGrind(j)
		g.Journals = append(g.Journals, jg)
		g.Taken += jg.Taken
		g.Needed += jg.Needed
		g.Complete = g.Complete && jg.Needed > 0 && jg.Taken == jg.Needed
		switch {
		case jg.Taken == 0:
		case worst < 0 || jg.Required > g.Journals[worst].Required:
			worst, next = i, worst
		case next < 0 || jg.Required > g.Journals[next].Required:
			next = i
		}
	}
	if worst < 0 {
		return g
	}
	g.settle(r, worst)
	if next >= 0 {
		g.NextDriver, g.NextStep = g.Journals[next].Position, g.Journals[next].Alone
	}
	g.mismatch(r)
	return g
}

// settle takes the step by the worst journal.
func (g *GroupGrind) settle(r GrindRule, worst int) {
	w := g.Journals[worst]
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
	g.FinishedHigh, g.FinishedLow = r.Top-g.Step, r.Top-g.Step-r.Finish
	g.Margin = g.Step - w.Required
	g.Close = !core.LessOrEqual(r.Close, g.Margin)
	for _, j := range g.Journals {
		if !core.LessOrEqual(j.scoreLeft, g.Step) {
			g.ScoreLeft = append(g.ScoreLeft, j.Position)
		}
	}
}

// mismatch names the journals that are not at the size of the others: the size that most of those read are near to,
// standard if that is as common as any.
func (g *GroupGrind) mismatch(r GrindRule) {
	at := map[float64]int{}
	for _, j := range g.Journals {
		if j.Taken > 0 {
			at[j.NearStep]++
		}
	}
	common := 0.0
	for _, s := range r.Steps {
		if at[s] > at[common] {
			common = s
		}
	}
	for _, j := range g.Journals {
		further := j.NearStep > 0 && j.NearStep != common
		larger := common > 0 && !core.LessOrEqual(j.Max, r.Top-common+r.Near)
		if j.Taken > 0 && (further || larger) {
			g.Mismatched = append(g.Mismatched, j.Position)
		}
	}
}

// Undersize writes a step as the trade does, with three decimals or what it needs: "-.010". It is a size under standard,
// never a signed reading.
func Undersize(step float64) string {
	_, decimals, _ := strings.Cut(core.FormatNumber(math.Abs(step)), ".")
	return "-" + strings.TrimPrefix(fmt.Sprintf("%.*f", max(3, len(decimals)), math.Abs(step)), "0")
}

// Words tells the answer in sentences for the bench, the worst news first.
func (g GroupGrind) Words() []string {
	var ws []string
	say := func(format string, args ...any) { ws = append(ws, fmt.Sprintf(format, args...)) }
	switch {
	case g.Taken == 0:
		say("nothing read: %d readings to take", g.Needed)
		return ws
	case g.Beyond && len(g.Skipped) > 0:
		say("%s needs %s off; no shells to be had for that", g.Driver, core.FormatNumber(round5(g.Required)))
	case g.Beyond:
		say("%s needs %s off, more than the largest step: weld and grind, or another crank", g.Driver, core.FormatNumber(round5(g.Required)))
	default:
		say("all to %s, by %s, which needs %s off; finished %s to %s", Undersize(g.Step), g.Driver, core.FormatNumber(round5(g.Required)),
			core.FormatNumber(round5(g.FinishedLow)), core.FormatNumber(round5(g.FinishedHigh)))
	}
	if !g.Settled {
		say("no order until all are read: %s", strings.Join(g.unread(), ", "))
	}
	for _, s := range g.Skipped {
		say("no shells to be had at %s", Undersize(s))
	}
	if g.NextStep > 0 {
		say("without %s, %s would still need %s", g.Driver, g.NextDriver, Undersize(g.NextStep))
	}
	if len(g.Mismatched) > 0 {
		say("%s not at the size of the others: mismatched set, check the stamp on the shells", strings.Join(g.Mismatched, ", "))
	}
	if g.Close {
		say("close, %s to spare: ask the grinder before buying shells", core.FormatNumber(round5(g.Margin)))
	}
	if g.Uncertain {
		say("what is needed lies within the instrument's uncertainty of a step: measure %s again", g.Driver)
	}
	if len(g.ScoreLeft) > 0 {
		say("a score on %s may not clean up at %s: ask the grinder", strings.Join(g.ScoreLeft, ", "), Undersize(g.Step))
	}
	return ws
}

// unread lists the journals with readings to take: "P4 3 of 4".
func (g GroupGrind) unread() []string {
	var ws []string
	for _, j := range g.Journals {
		if j.Taken < j.Needed || j.Needed == 0 {
			ws = append(ws, fmt.Sprintf("%s %d of %d", j.Position, j.Taken, j.Needed))
		}
	}
	return ws
}

// round5 drops what arithmetic adds beyond the fifth decimal, for printing only.
func round5(v float64) float64 { return math.Round(v*1e5) / 1e5 }
