package main

import (
	"bytes"
	"context"
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/paper"
)

// TestPlanOfDrawnFindings plans the demo's vehicle with findings of any sort on any of its parts, at every level of originality, within a sum of money or
// not, for any time it is to last: every subsystem answers and keeps its promises to the host, there is always a plan, its money adds up, and its papers can
// be written.
func TestPlanOfDrawnFindings(t *testing.T) {
	ctx, c := context.Background(), demoShop(t)
	require.NoError(t, c.withShop(ctx, func(s *shop) error {
		job, err := s.job(ctx, "J-001")
		require.NoError(t, err)
		job.Pins, job.Left = nil, nil
		req, err := s.request(ctx, job)
		require.NoError(t, err)
		sheets, err := s.describe(ctx, job, s.names)
		require.NoError(t, err)
		for seed := range uint64(8) {
			r := rand.New(rand.NewPCG(1956, seed))
			req.Findings = drawnFindings(r, sheets, r.IntN(11))
			drawBrief(r, &req.Job.Brief)
			req.Job.Extent = core.Extent{Kind: []string{core.ExtentBareFrame, core.ExtentAsNeeded}[seed%2]}
			req.Job.Brief.Originality = 1 + int(seed/2)
			p, err := s.planner().Plan(ctx, req)
			require.NoError(t, err, "seed %d", seed)
			for _, x := range p.Problems {
				require.False(t, x.NotAssessed(), "seed %d: %s %s: %s", seed, x.Subsystem, x.Target, x.Summary)
				require.NotContains(t, x.Summary, "the host closed", "seed %d: %s %s", seed, x.Subsystem, x.Target)
			}
			var out bytes.Buffer
			require.NoError(t, writeJSON(&out, planToJSON(p)))
			require.NoError(t, checkPlan(out.Bytes()), "seed %d", seed)
			in, err := s.paperInput(ctx, p, written{Number: "J-001-S", Revision: 1})
			require.NoError(t, err)
			for _, d := range []paper.Document{paper.Scope(in), paper.WorkOrder(in)} {
				_, err := paper.HTML(d)
				require.NoError(t, err, "seed %d", seed)
			}
		}
		return nil
	}))
}

// drawBrief draws what the owner wants.
func drawBrief(r *rand.Rand, b *core.Brief) {
	b.HorizonKM, b.HorizonYears = float64(r.IntN(100_000)), float64(r.IntN(20))
	b.Most, b.WeekWorth = nil, nil
	if r.IntN(3) == 0 {
		b.Most = new(core.MinorMoney(int64(5000+r.IntN(100_000))*100, "USD"))
	}
	if r.IntN(3) == 0 {
		b.WeekWorth = new(core.MinorMoney(int64(r.IntN(2000))*100, "USD"))
	}
}

// drawnFindings finds something, or why there is nothing, on all parts but so many of ten.
func drawnFindings(r *rand.Rand, sheets []core.UnitSheet, without int) (fs []core.Finding) {
	for _, us := range sheets {
		for _, part := range us.Sheet.Parts {
			for _, target := range part.Targets() {
				if r.IntN(10) < without {
					continue
				}
				for _, check := range part.Checks {
					stations := check.Stations
					if len(stations) == 0 {
						stations = []string{""}
					}
					for _, station := range stations {
						if r.IntN(10) == 0 {
							continue
						}
						v := drawnValue(r, check)
						fs = append(fs, core.Finding{ID: fmt.Sprintf("f%d", len(fs)+1), Subsystem: us.Subsystem, Unit: us.Unit, Target: target, Check: check.ID, Station: station, Value: v, AsTyped: v.String()})
					}
				}
			}
		}
	}
	return fs
}

// drawnValue draws a value that a person might type: most are sound, some are worn, few are past their limits or not read.
func drawnValue(r *rand.Rand, c core.Check) core.Value {
	if r.IntN(20) == 0 {
		return core.Value{Kind: core.ValueNotRead, NotRead: core.NotReadWords[r.IntN(len(core.NotReadWords))]}
	}
	switch c.Kind {
	case core.Counted, core.OneUse:
		return core.Value{Kind: core.ValueCount, Count: r.IntN(3)}
	case core.Judged:
		return core.Value{Kind: core.ValueClass, Class: r.IntN(4)}
	case core.GoNoGo:
		return core.Value{Kind: core.ValuePass, Pass: r.IntN(10) > 0}
	}
	low, high := 0., 1.
	if c.PlausibleLow != nil && c.PlausibleHigh != nil {
		low, high = *c.PlausibleLow, *c.PlausibleHigh
	}
	switch l := c.Limit; {
	case l.NewLow != nil && l.NewHigh != nil && r.IntN(3) > 0:
		low, high = *l.NewLow, *l.NewHigh
	case l.WearHigh != nil && l.NewHigh != nil && r.IntN(2) > 0:
		low, high = *l.NewHigh, *l.WearHigh*1.2
	case l.WearLow != nil && l.NewLow != nil && r.IntN(2) > 0:
		low, high = *l.WearLow*.9, *l.NewLow
	}
	bound := []float64{0, (high - low) / 200, (high - low) / 20}[r.IntN(3)]
	return core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: low + r.Float64()*(high-low), Unit: c.Unit, Bound: bound}}
}
