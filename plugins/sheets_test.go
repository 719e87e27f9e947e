// Package plugins_test holds what is asked of every built-in subsystem alike.
package plugins_test

import (
	"context"
	"testing"

	"github.com/fettle-tools/fettle/cmd/fettle-subsystems/builtin"
	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
	"github.com/stretchr/testify/require"
)

// builtIn is a subsystem with the facts of an invented demonstration unit and its rows of the trade's table of limits.
type builtIn struct {
	name      string
	subsystem sdk.Subsystem
	trial
}

type trial struct {
	facts []core.Fact
	rows  []row
	count int // rows the table has for it
}

func builtIns() (all []builtIn) {
	trials := map[string]trial{
		"bottom-end":   {sizes(map[string]float64{"D": 2.5, "DP": 2, "L_bolt": 2.5, "L_spring": 2.2, "T_thrust": .093}), bottomEndRows, 34},
		"cylinders":    {sizes(map[string]float64{"B": 3.375}), cylindersRows, 26},
		"head":         {headFacts(), headRows, 33},
		"clutch":       {clutchFacts(), clutchRows, 23},
		"gearbox":      {sizes(map[string]float64{"L_spring": 1.1}), gearboxRows, 30},
		"transfer-box": {nil, transferBoxRows, 21},
		"prop-shafts":  {nil, propShaftRows, 17},
		"springs":      {springsFacts(), springsRows, 24},
		"hubs-wheels":  {hubsWheelsFacts(), hubsWheelsRows, 25},
		"cooling":      {coolingFacts(), coolingRows, 24},
		"fuel":         {sizes(map[string]float64{"F": .75}), fuelRows, 23},
		"electrics":    {sizes(map[string]float64{"L_dynamo": .75, "L_starter": .625, "D_dynamo": 1.5}), electricsRows, 38},
		"rear-axle":    {axleFacts(), rearAxleRows, 28},
		"front-axle":   {axleFacts(), frontAxleRows, 30},
		"steering":     {steeringFacts(), steeringRows, 31},
		"brakes":       {sizes(map[string]float64{"D": 12, "D_hand": 8}), brakesRows, 31},
		"frame":        {frameFacts(), frameRows, 22},
		"body":         {bodyFacts(), bodyRows, 29},
	}
	for _, b := range builtin.All() {
		tried, ok := trials[b.Name]
		if !ok {
			panic("no demonstration unit and no rows of the table for " + b.Name)
		}
		all = append(all, builtIn{b.Name, b.Subsystem(), tried})
	}
	return all
}

func sizes(inches map[string]float64) []core.Fact {
	var fs []core.Fact
	for name, v := range inches {
		fs = append(fs, core.Fact{Name: name, Source: "demonstration unit",
			Value: core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: v, Unit: "in"}}})
	}
	return fs
}

// described gives the sheet for the demonstration unit, without a problem.
func (b builtIn) described(t testing.TB) (*sdk.Plugin, core.Sheet) {
	t.Helper()
	p, err := sdk.New(b.subsystem)
	require.NoError(t, err, "the sheet loads without a fault")
	sheet, problems, err := p.Describe(context.Background(), b.facts)
	require.NoError(t, err)
	require.Empty(t, problems)
	return p, sheet
}

// unseen gives the assessment of a unit of which nothing was found yet.
func (b builtIn) unseen(t *testing.T, p *sdk.Plugin) core.Assessment {
	t.Helper()
	a, err := p.Assess(context.Background(), core.AssessRequest{Unit: b.name, Facts: b.facts})
	require.NoError(t, err)
	require.Empty(t, a.Problems)
	return a
}

// Every check says what to do, with what, against which limit from where, and has an answer.
func TestEveryCheckIsComplete(t *testing.T) {
	for _, b := range builtIns() {
		t.Run(b.name, func(t *testing.T) {
			p, sheet := b.described(t)
			remedies := map[core.Target][]core.Remedy{}
			for _, r := range b.unseen(t, p).Remedies {
				remedies[r.Target] = append(remedies[r.Target], r)
			}
			for _, part := range sheet.Parts {
				require.NotEmpty(t, part.Reach, "%s: no step opens it", part.ID)
				for _, c := range part.Checks {
					at := part.ID + " " + c.ID
					require.Greater(t, len(c.How), 20, "%s: how", at)
					require.NotEmpty(t, c.Instrument, "%s: instrument", at)
					require.NotEmpty(t, c.Limit.Source, "%s: source", at)
					require.NotEmpty(t, c.Limit.Confidence, "%s: confidence", at)
					_, known := core.FindUnit(c.Unit)
					require.True(t, known, "%s: unit %q", at, c.Unit)
					requireLimit(t, at, c)
					require.True(t, c.Minutes > 0 || c.Kind == core.Derived, "%s: minutes", at)
				}
				for _, target := range part.Targets() {
					requireAnswers(t, part, remedies[target])
				}
			}
		})
	}
}

func requireLimit(t *testing.T, at string, c core.Check) {
	t.Helper()
	l := c.Limit
	switch c.Kind {
	case core.Judged:
		require.NotNil(t, l.WorstClass, "%s: worst class", at)
	case core.Measured, core.Derived:
		require.True(t, l.WearLow != nil || l.WearHigh != nil, "%s: wear limit", at)
		require.NotNil(t, c.PlausibleLow, "%s: plausible range", at)
	case core.Counted:
		require.NotNil(t, l.WearHigh, "%s: wear limit", at)
	}
}

// requireAnswers wants another remedy than reuse, and one that replaces.
func requireAnswers(t *testing.T, part core.Part, rs []core.Remedy) {
	t.Helper()
	kinds := map[core.RemedyKind]bool{}
	for _, r := range rs {
		kinds[r.Kind] = true
		require.NotEmpty(t, r.Name, "%s %s", part.ID, r.ID)
		if r.Kind != core.Reuse {
			require.NotEmpty(t, r.Operations, "%s %s: costs nothing", part.ID, r.ID)
		}
	}
	require.True(t, kinds[core.Replace], "%s: nothing replaces it", part.ID)
	require.Equal(t, part.OneUse, !kinds[core.Reuse], "%s: reuse", part.ID)
}

// The wear side of every limit is reached by a remedy: past it reuse is gone and something is left to do.
func TestEveryRowHasARemedy(t *testing.T) {
	for _, b := range builtIns() {
		t.Run(b.name, func(t *testing.T) {
			p, sheet := b.described(t)
			for _, r := range b.rows {
				part := sheet.Part(r.part)
				require.NotNil(t, part, r.id)
				a, err := p.Assess(context.Background(), core.AssessRequest{Unit: b.name, Facts: b.facts, Findings: []core.Finding{condemning(*part, *part.Check(r.check))}})
				require.NoError(t, err)
				c, remedies := of(a, part.Targets()[0])
				open := 0
				for _, m := range remedies {
					if m.Feasible && m.Kind != core.Reuse {
						open++
					}
					require.False(t, m.Feasible && m.Kind == core.Reuse, "%s: reused past its limit", r.id)
				}
				require.Positive(t, open, "%s: nothing can be done", r.id)
				require.NotEmpty(t, c.States, r.id)
			}
		})
	}
}

// condemning is a finding well past the limit of a check, at its part's first position.
func condemning(part core.Part, c core.Check) core.Finding {
	f := core.Finding{ID: "f-1", Subsystem: "x", Target: part.Targets()[0], Check: c.ID, AsTyped: "past"}
	switch c.Kind {
	case core.Judged:
		f.Value = core.Value{Kind: core.ValueClass, Class: *c.Limit.WorstClass + 1}
	case core.Counted:
		f.Value = core.Value{Kind: core.ValueCount, Count: int(*c.Limit.WearHigh) + 1}
	case core.GoNoGo:
		f.Value = core.Value{Kind: core.ValuePass}
	case core.OneUse:
		f.Value = core.Value{Kind: core.ValueNotRead, NotRead: core.PartMissing}
	default:
		x := 0.0
		if c.Limit.WearHigh != nil {
			x = *c.Limit.WearHigh + .5*(*c.Limit.WearHigh-*c.Limit.NewHigh)
			if x == *c.Limit.WearHigh { // no wear is allowed
				x++
			}
		} else {
			x = *c.Limit.WearLow - .1*(*c.Limit.NewHigh-*c.Limit.WearLow)
		}
		f.Value = core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: x, Unit: c.Unit}}
		if len(c.Stations) > 0 && c.Kind == core.Measured {
			f.Station = c.Stations[0]
		}
	}
	return f
}

func of(a core.Assessment, t core.Target) (c core.Condition, rs []core.Remedy) {
	for _, x := range a.Conditions {
		if x.Target == t {
			c = x
		}
	}
	for _, r := range a.Remedies {
		if r.Target == t {
			rs = append(rs, r)
		}
	}
	return c, rs
}
