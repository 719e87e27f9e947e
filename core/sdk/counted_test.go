package sdk

import (
	"context"
	"testing"

	"github.com/fettle-tools/fettle/core"
	"github.com/stretchr/testify/require"
)

// countedSheet is a frame with brackets at two places, patched at 1/1.5/3 h and 0/60/140 USD a patch.
const countedSheet = `
subsystem: yard
title: Yard
version: "1"
unit_kind: vehicle
currency: USD
parts:
  - id: bracket
    name: Bracket
    positions: [A, B]
    outlook: {past: .5}
    checks: [{id: holes, kind: counted, needed_for_reuse: true, limit: {new: [0, 0], wear_high: 0, source: "common practice, no source", confidence: high}}]
    remedies: [{id: patch, kind: rebuild, name: Patch, operations: [patch], answers: all}, {id: renew, kind: replace, name: Renew, operations: [renew]}]
operations:
  - {id: patch, name: Patch, skill: mechanic, hours: [1, 1.5, 3], outwork: [0, 60, 140], outwork_kind: welding}
  - {id: renew, name: Renew, skill: mechanic, hours: [1, 2, 4], per: piece}
`

func countedBy(t *testing.T, w []CountedWork, fs ...core.Finding) map[string]core.Operation {
	t.Helper()
	p, err := New(Subsystem{Sheet: []byte(countedSheet), Rules: func(b *Bench) {
		for _, c := range w {
			c.Price(b)
		}
	}})
	require.NoError(t, err)
	a, err := p.Assess(context.Background(), core.AssessRequest{Findings: fs})
	require.NoError(t, err)
	ops := map[string]core.Operation{}
	for _, r := range a.Remedies {
		for _, o := range a.Operations {
			if r.Kind != core.Reuse && o.ID == r.Operations[0] {
				ops[r.Target.Position+" "+r.ID] = o
			}
		}
	}
	return ops
}

func holes(at string, n int) core.Finding {
	return core.Finding{ID: at, Target: core.Target{Part: "bracket", Position: at}, Check: "holes", Value: core.Value{Kind: core.ValueCount, Count: n}, AsTyped: "n"}
}

// What was counted is paid by the count, each position on its own; what was not is held back as often as is usual, once.
// Figures computed.
func TestWorkPaidByTheCount(t *testing.T) {
	w := []CountedWork{{Part: "bracket", Check: "holes", Remedy: "patch", Operation: "patch", Usual: 3, Unseen: "patches"},
		{Part: "bracket", Check: "holes", Remedy: "renew", Operation: "renew", Usual: 2, Unseen: "renewals", Piece: true}}
	ops := countedBy(t, w, holes("A", 4))
	require.Equal(t, 6.0, ops["A patch"].Hours.Likely)
	require.Equal(t, "240", ops["A patch"].Outwork.Likely)
	require.Equal(t, "Patch (A), 4 times", ops["A patch"].Name)
	require.Equal(t, "renew/A", ops["A renew"].ID)
	require.Equal(t, "patches", ops["B patch"].ID)
	require.Equal(t, 4.5, ops["B patch"].Hours.Likely)
	require.Equal(t, 4.0, ops["B renew"].Hours.Likely)
	ops = countedBy(t, w)
	require.Equal(t, ops["A patch"], ops["B patch"], "one for both")
	require.Equal(t, 1.5, countedBy(t, w, holes("A", 0))["A patch"].Hours.Likely)
	gone := holes("A", 0)
	gone.Value = core.Value{Kind: core.ValueNotRead, NotRead: core.PartMissing}
	require.Equal(t, "renew/A", countedBy(t, w, gone)["A renew"].ID)
}

// Without an id for those to be found, each position has its own; a part or an operation that is not there changes nothing.
func TestCountedAtEachPosition(t *testing.T) {
	ops := countedBy(t, []CountedWork{{Part: "bracket", Check: "holes", Remedy: "patch", Operation: "patch", Usual: 2}, {Part: "wing"}, {Part: "bracket", Operation: "none"}})
	require.NotEqual(t, ops["A patch"].ID, ops["B patch"].ID)
	require.Equal(t, 3.0, ops["B patch"].Hours.Likely)
}

func TestOverClass(t *testing.T) {
	one := 1
	require.Equal(t, []int{0, 0, 1}, []int{OverClass(3, core.Limit{}), OverClass(1, core.Limit{WorstClass: &one}), OverClass(2, core.Limit{WorstClass: &one})})
}
