package decide

import (
	"context"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// TestBruteForce compares everything in the answer about seen parts with a trial of every choice and every set of
// steps. Few cheap prices make many ties.
func TestBruteForce(t *testing.T) {
	feasible := 0
	for seed := range uint64(1500) {
		r := rand.New(rand.NewPCG(seed, 1))
		sel := generate(r, shape{parts: 1 + r.IntN(5), options: 4, ops: r.IntN(6), steps: r.IntN(7), sets: r.IntN(3), bonds: r.IntN(4), cost: []int64{3, 10, 1000}[seed%3]})
		if compareWithBruteForce(t, Solver{}, sel, seed) {
			feasible++
		}
	}
	require.Greater(t, feasible, 700)
}

// TestBruteForceBranching does the same with tables so narrow that nearly everything is branched on.
func TestBruteForceBranching(t *testing.T) {
	for seed := range uint64(600) {
		r := rand.New(rand.NewPCG(seed, 2))
		sel := generate(r, shape{parts: 2 + r.IntN(4), options: 4, ops: r.IntN(6), steps: r.IntN(7), sets: r.IntN(3), bonds: r.IntN(4), cost: []int64{3, 10, 1000}[seed%3]})
		compareWithBruteForce(t, Solver{Width: 1}, sel, seed)
		compareWithBruteForce(t, Solver{Width: 1, boundOnly: true}, sel, seed)
	}
}

func compareWithBruteForce(t *testing.T, s Solver, sel core.Selection, seed uint64) bool {
	t.Helper()
	parts := make([]int, len(sel.Parts))
	for i := range parts {
		parts[i] = i
	}
	list := everyChoice(&sel, parts)
	got, err := s.Decide(context.Background(), sel)
	if len(list) == 0 {
		require.Equal(t, core.Invalid, core.ErrorCode(err), "seed %d", seed)
		return false
	}
	require.NoError(t, err, "seed %d", seed)
	want := firstInOrder(&sel, parts, list)
	require.Equal(t, want.value, got.Value, "seed %d", seed)
	require.Equal(t, want.choice, got.Choice, "seed %d", seed)
	require.Equal(t, want.money, got.Money, "seed %d", seed)
	require.True(t, got.Proven, "seed %d", seed)
	require.Equal(t, got.Value, got.Bound, "seed %d", seed)
	_, pays := operationsOf(&sel, parts, want.choice)
	require.Equal(t, pays, got.Operations, "seed %d", seed)
	for p, part := range sel.Parts {
		for o := range part.Options {
			least := core.Infeasible
			for _, c := range list {
				if c.choice[p] == o {
					least = min(least, c.value)
				}
			}
			require.Equal(t, least, got.Marginals[p][o], "seed %d part %d option %d", seed, p, o)
		}
	}
	for o := range sel.Operations {
		least := int64(0)
		if pays[o] {
			least = core.Infeasible
			for _, c := range list {
				if !c.needed[o] {
					least = min(least, c.value)
				}
			}
		}
		require.Equal(t, least, got.Without[o], "seed %d operation %d", seed, o)
	}
	requireOpen(t, sel, got, seed)
	return true
}

// requireOpen checks that the steps given are enough, and cost what the money says.
func requireOpen(t *testing.T, sel core.Selection, got core.Selected, seed uint64) {
	t.Helper()
	var sum int64
	for i, st := range sel.Steps {
		if !got.Steps[i] {
			require.False(t, st.Open)
			continue
		}
		sum += st.Cost
		for _, p := range st.AllOf {
			require.True(t, got.Steps[p], "seed %d", seed)
		}
		for _, c := range st.AnyOf {
			require.True(t, holds(c, got.Steps), "seed %d", seed)
		}
	}
	for o, pays := range got.Operations {
		if pays {
			sum += sel.Operations[o].Cost
		}
	}
	require.Equal(t, got.Money, sum, "seed %d", seed)
	for p, o := range got.Choice {
		for _, s := range sel.Parts[p].Options[o].Steps {
			require.True(t, got.Steps[s], "seed %d", seed)
		}
	}
}
