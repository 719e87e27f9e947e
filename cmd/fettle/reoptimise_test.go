package main

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/budget"
	"github.com/fettle-tools/fettle/core/budget/budgettest"
	"github.com/fettle-tools/fettle/core/decide"
)

// tapped is the shop's planner with a tap, and every unseen part but some as good as seen.
func tapped(s *shop, open map[core.Place]bool) (*core.Planner, *budgettest.Tap) {
	tap := &budgettest.Tap{Decider: decide.Solver{}, Budgeter: budget.Simulator{}}
	p := s.planner()
	p.Decider, p.Budgeter = tap, tap
	for i, n := range p.Assessors {
		if open == nil {
			continue
		}
		p.Assessors[i].Assessor = budgettest.Unseen{Assessor: n.Assessor, Open: func(unit string, t core.Target) bool {
			return open[core.Place{Subsystem: n.Subsystem, Unit: unit, Target: t}]
		}}
	}
	return p, tap
}

// windows gives runs of up to six parts that follow one another among those that are not settled, at most 64 ways for them to turn out.
func windows(plan core.Plan, sel core.Selection, want int) []map[core.Place]bool {
	place := map[string]core.Place{}
	for _, c := range plan.Choices {
		place[c.Place.String()] = c.Place
	}
	var unseen []core.SelectPart
	for _, p := range sel.Parts {
		if len(p.States) > 1 {
			unseen = append(unseen, p)
		}
	}
	var all []map[core.Place]bool
	for w := range want {
		window, ways := map[core.Place]bool{}, 1
		for i := w * len(unseen) / want; i < len(unseen) && len(window) < 6 && ways*len(unseen[i].States) <= budgettest.MostWorlds; i++ {
			window[place[unseen[i].ID]] = true
			ways *= len(unseen[i].States)
		}
		all = append(all, window)
	}
	return all
}

// The demo's jobs, with up to six of their own unseen parts left open and every other as its likeliest: deciding once against deciding anew in
// everything that the six may turn out to be. The bounds are what was seen, rounded up. Of a vehicle to the bare frame and of a gearbox on the
// bench all is open, and nearly nothing can be lost; the brakes share the opening of a corner, and a hub that is opened for a bad part would
// have changed what is done to its good ones.
func TestDecidingOnceAgainstAnewOnTheDemo(t *testing.T) {
	ctx, c := context.Background(), demoShop(t)
	require.NoError(t, c.withShop(ctx, func(s *shop) error {
		for _, of := range []struct {
			job           string
			windows       int
			share, inPart float64 // by how much once may be dearer: expected, and in one of the things the parts may turn out to be
		}{{"J-001", 3, .005, .01}, {"J-002", 5, .03, .04}, {"J-003", 8, .001, .06}} {
			job, err := s.job(ctx, of.job)
			require.NoError(t, err)
			req, err := s.request(ctx, job)
			require.NoError(t, err)
			req.Job.Pins = nil
			p, tap := tapped(s, nil)
			plan, err := p.Plan(ctx, req)
			require.NoError(t, err)
			for i, w := range windows(plan, tap.Selection, of.windows) {
				p, tap := tapped(s, w)
				_, err := p.Plan(ctx, req)
				require.NoError(t, err)
				g, err := tap.Reoptimise(ctx, 2_000)
				require.NoError(t, err)
				t.Logf("%s, window %d: %d unseen, %d ways; once dearer by %.3f %% expected, %.3f %% at P80, %.2f %% at most", of.job, i, g.Unseen, g.Worlds,
					100*g.Share(), 100*g.At(func(s core.Spread) float64 { return s.P80 }), 100*g.Worst)
				require.Positive(t, g.Unseen)
				require.LessOrEqual(t, g.Share(), of.share)
				require.LessOrEqual(t, g.Worst, of.inPart)
				require.InDelta(t, g.Once.P80, g.Simulated.P80, 5*math.Hypot(g.Once.SE[2], g.Simulated.SE[2]))
			}
		}
		return nil
	}))
}
