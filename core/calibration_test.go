package core_test

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat/distuv"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/budget"
	"github.com/fettle-tools/fettle/core/decide"
)

// strippedAxle is an axle on the bench whose parts hide what a multiplier makes likelier or less: its truth, drawn from the rules, and what is
// shown of it after so many parts have been seen.
type strippedAxle struct {
	*rand.Rand
	chance []float64
	bad    []bool
	cost   [][3]float64
}

// drawAxle draws one multiplier for the axle from Gamma(4, 4), and each part's state at min(.95, p M). The first part is known to be bad and has
// nothing in store, so that no two axles come to the same.
func drawAxle(seed uint64, parts int) strippedAxle {
	a := strippedAxle{rand.New(rand.NewPCG(seed, 44)), []float64{0}, []bool{true}, [][3]float64{{100, 150, 320}}}
	m := distuv.Gamma{Alpha: 4, Beta: 4, Src: a}.Rand()
	for range parts {
		p := .05 + .25*a.Float64()
		low := float64(50 + a.IntN(300))
		a.chance = append(a.chance, p)
		a.bad = append(a.bad, a.Float64() < min(.95, p*m))
		a.cost = append(a.cost, [3]float64{low, 1.3 * low, 2.2 * low})
	}
	return a
}

// truth is what renewing all that is bad truly comes to, in minor units: each price within its range, .3 of their spread in common.
func (a strippedAxle) truth() (total float64) {
	common := a.NormFloat64()
	for i, c := range a.cost {
		z := math.Sqrt(.3)*common + math.Sqrt(.7)*a.NormFloat64()
		x := ((c[0]+4*c[1]+c[2])/6 - c[0]) / (c[2] - c[0])
		sum := 36*x*(1-x) - 1
		if a.bad[i] {
			total += 100 * (c[0] + (c[2]-c[0])*distuv.Beta{Alpha: x * sum, Beta: (1 - x) * sum}.Quantile(distuv.UnitNormal.CDF(z)))
		}
	}
	return total
}

// shown is the axle as a subsystem tells of it with the first so many parts read.
func (a strippedAxle) shown(seen int) fake {
	f := fake{sheet: core.Sheet{Subsystem: "axle", Title: "axle", UnitKind: "axle"}}
	for i, p := range a.chance {
		id := fmt.Sprint("part-", i)
		target := core.Target{Part: id}
		price := func(k int) string { return fmt.Sprint(a.cost[i][k]) }
		part := core.Part{ID: id, Name: id, Count: 1, Checks: []core.Check{{ID: "wear", Name: "wear", Kind: core.Judged, NeededForReuse: true}}}
		fit, past := core.State{Chance: 1 - p, Grade: core.WithinNew, Remedies: []string{"reuse", "new"}}, core.State{Chance: p, Grade: core.PastLimit, Remedies: []string{"new"}}
		if p > 0 {
			part.Outlook = []core.State{fit, past}
		}
		c := core.Condition{Target: target, Grade: core.NotSeen, ReadingsNeeded: 1, ChecksNotRead: []string{"wear"}, States: part.Outlook}
		if i <= seen {
			c.ReadingsTaken, c.ChecksNotRead, c.Grade, c.States = 1, nil, core.WithinNew, []core.State{fit}
			if a.bad[i] {
				c.Grade, c.States = core.PastLimit, []core.State{past}
			}
			c.States[0].Chance = 1
		}
		f.sheet.Parts = append(f.sheet.Parts, part)
		f.answer.Conditions = append(f.answer.Conditions, c)
		f.answer.Remedies = append(f.answer.Remedies, core.Remedy{ID: "reuse", Target: target, Kind: core.Reuse, Name: "reuse", Feasible: true},
			core.Remedy{ID: "new", Target: target, Kind: core.Replace, Name: "new", Feasible: true, Operations: []string{"new-" + id}})
		f.answer.Operations = append(f.answer.Operations, operation("new-"+id, usd(price(0), price(1), price(2))))
	}
	return f
}

// 2,000 axles, each planned with none, six and twelve of its eighteen parts read. What has been seen changes what is expected of the rest: after
// each the percentiles hold as often as they say, and they draw together. The multiplier learnt is that of a Poisson count, which chances under a
// cap are nearly and not quite: the coverage tells how near.
func TestWhatIsSeenKeepsPercentilesHolding(t *testing.T) {
	const axles, parts = 2_000, 18
	req := request()
	req.Job.Vehicle, req.Job.Units = nil, []core.Unit{{ID: "axle", Kind: "axle"}}
	req.Job.Extent.Kind, req.Job.Brief, req.Strip, req.Trials = core.ExtentBench, core.Brief{}, core.StripPlan{}, 400
	width := map[int]float64{}
	for _, seen := range []int{0, 6, 12} {
		var held [4]float64
		for i := range axles {
			a := drawAxle(uint64(i), parts)
			req.Job.Seed = uint64(i)
			p := core.Planner{Decider: decide.Solver{}, Budgeter: budget.Simulator{}, Assessors: []core.Named{{Subsystem: "axle", Assessor: a.shown(seen)}}}
			plan, err := p.Plan(context.Background(), req)
			require.NoError(t, err)
			b, total := plan.Budget, a.truth()
			for k, v := range []core.Money{b.P10, b.P50, b.P80, b.P90} {
				if total <= float64(core.Minor(v)) {
					held[k] += 1. / axles
				}
			}
			width[seen] += float64(core.Minor(b.P90)-core.Minor(b.P10)) / axles
		}
		t.Logf("%d of %d seen: %.1f %% came within P10, %.1f %% P50, %.1f %% P80, %.1f %% P90; P10 to P90 %.0f wide", seen, parts, 100*held[0], 100*held[1], 100*held[2], 100*held[3], width[seen]/100)
		for k, p := range []float64{.1, .5, .8, .9} {
			require.InDelta(t, p, held[k], .02, "%d seen, P%g", seen, 100*p)
		}
	}
	require.Less(t, width[6], .9*width[0])
	require.Less(t, width[12], .8*width[6])
}
