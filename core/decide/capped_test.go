package decide

import (
	"context"
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// TestCapAgainstBruteForce compares the least risk within a cap, the least money at it, and the marginals, with a
// trial of every choice: by labels, and where they run out at once, soon or late.
func TestCapAgainstBruteForce(t *testing.T) {
	for _, most := range []int{0, 1, 8, 40} {
		t.Run(fmt.Sprintf("labels=%d", most), func(t *testing.T) { compareUnderCap(t, Solver{labels: most}) })
	}
}

func compareUnderCap(t *testing.T, s Solver) {
	within, refused := 0, 0
	for seed := range uint64(1500) {
		r := rand.New(rand.NewPCG(seed, 10))
		sel := generate(r, shape{parts: 1 + r.IntN(5), options: 4, ops: r.IntN(6), steps: r.IntN(6), sets: r.IntN(2), bonds: r.IntN(3), cost: []int64{3, 20, 1000}[seed%3]})
		parts := make([]int, len(sel.Parts))
		for i := range parts {
			parts[i] = i
		}
		list := everyChoice(&sel, parts)
		if len(list) == 0 {
			continue
		}
		most := list[r.IntN(len(list))].money - r.Int64N(3)
		sel.Cap = &most
		best, cheapest := tried{value: core.Infeasible}, core.Infeasible
		risk := func(c tried) int64 { return c.value - c.money }
		for _, c := range list {
			cheapest = min(cheapest, c.money)
			if c.money <= most && (best.choice == nil || risk(c) < risk(best) || risk(c) == risk(best) && c.money < best.money) {
				best = c
			}
		}
		got, err := s.Decide(context.Background(), sel)
		if best.choice == nil {
			refused++
			require.Equal(t, core.Invalid, core.ErrorCode(err), "seed %d", seed)
			require.ErrorContains(t, err, fmt.Sprintf("the least is %d", cheapest), "seed %d", seed)
			continue
		}
		require.NoError(t, err, "seed %d", seed)
		within++
		require.Equal(t, risk(best), got.Value, "seed %d", seed)
		require.Equal(t, best.money, got.Money, "seed %d", seed)
		require.True(t, got.Proven, "seed %d", seed)
		require.True(t, suits(&sel, parts, got.Choice), "seed %d", seed)
		requireOpen(t, sel, got, seed)
		for p, part := range sel.Parts {
			for o := range part.Options {
				least := core.Infeasible
				for _, c := range list {
					if c.choice[p] == o && c.money <= most {
						least = min(least, risk(c))
					}
				}
				require.Equal(t, least, got.Marginals[p][o], "seed %d part %d option %d", seed, p, o)
				require.LessOrEqual(t, got.AtLeast[p][o], least, "seed %d part %d option %d", seed, p, o)
				require.GreaterOrEqual(t, got.AtLeast[p][o], got.Value, "seed %d part %d option %d", seed, p, o)
			}
		}
		sel.Bare = true
		bare, err := Solver{}.Decide(context.Background(), sel)
		require.NoError(t, err, "seed %d", seed)
		require.Equal(t, got.Choice, bare.Choice, "seed %d", seed)
		require.Nil(t, bare.Marginals)
		require.Nil(t, bare.AtLeast)
	}
	require.Greater(t, within, 400)
	require.Greater(t, refused, 50)
}

// TestCapManyParts: with hundreds of parts the labels and the branching of when they run out come to the same risk and
// money, the bound holds where the search is cut short, and the same question has the same answer.
func TestCapManyParts(t *testing.T) {
	short := 0
	for seed := range uint64(12) {
		r := rand.New(rand.NewPCG(seed, 15))
		sel := generateLocal(r, 60+r.IntN(200), 1+r.IntN(2), .02, true)
		capHalfWay(t, &sel)
		want, err := Solver{Bare: true}.Decide(context.Background(), sel)
		require.NoError(t, err, "seed %d", seed)
		require.True(t, want.Proven, "seed %d", seed)
		require.LessOrEqual(t, want.Money, *sel.Cap, "seed %d", seed)
		requireOpen(t, sel, want, seed)
		again, err := Solver{Bare: true}.Decide(context.Background(), sel)
		require.NoError(t, err)
		require.Equal(t, want, again, "seed %d", seed)
		for k, nodes := range []int{0, 3} {
			got, err := Solver{Bare: true, labels: 200 - 199*k, Nodes: nodes}.Decide(context.Background(), sel)
			require.NoError(t, err, "seed %d", seed)
			require.LessOrEqual(t, got.Money, *sel.Cap, "seed %d", seed)
			require.LessOrEqual(t, got.Bound, want.Value, "seed %d", seed)
			require.GreaterOrEqual(t, got.Value, want.Value, "seed %d", seed)
			requireOpen(t, sel, got, seed)
			if !got.Proven {
				short++
				continue
			}
			require.Equal(t, want.Value, got.Value, "seed %d", seed)
		}
	}
	require.Greater(t, short, 0)
	require.Less(t, short, 20)
}

// TestCapAtTheDeadline: a deadline already past leaves a choice within the cap and a bound, or says that there was no time.
func TestCapAtTheDeadline(t *testing.T) {
	sel := halfCapped(t, 300)
	want, err := Solver{Bare: true}.Decide(context.Background(), sel)
	require.NoError(t, err)
	ctx, cancel := context.WithTimeout(context.Background(), 0)
	defer cancel()
	got, err := Solver{}.Decide(ctx, sel)
	require.NoError(t, err)
	require.LessOrEqual(t, got.Money, *sel.Cap)
	require.LessOrEqual(t, got.Bound, want.Value)
	require.GreaterOrEqual(t, got.Value, want.Value)
	require.False(t, got.Proven)
	stopped, stop := context.WithCancel(context.Background())
	stop()
	_, err = Solver{}.Decide(stopped, sel)
	require.ErrorIs(t, err, context.Canceled)
}

// TestCapTooWide: where the tables would be too wide the answer is still within the cap, and its bound holds.
func TestCapTooWide(t *testing.T) {
	proven := 0
	for seed := range uint64(300) {
		r := rand.New(rand.NewPCG(seed, 12))
		sel := generate(r, shape{parts: 3 + r.IntN(3), options: 4, ops: 4, steps: 5, sets: 1, bonds: 1, cost: 1000})
		parts := make([]int, len(sel.Parts))
		for i := range parts {
			parts[i] = i
		}
		list := everyChoice(&sel, parts)
		if len(list) == 0 {
			continue
		}
		most := list[r.IntN(len(list))].money
		sel.Cap = &most
		least := core.Infeasible
		for _, c := range list {
			if c.money <= most {
				least = min(least, c.value-c.money)
			}
		}
		got, err := Solver{Width: 1, boundOnly: true}.Decide(context.Background(), sel)
		require.NoError(t, err, "seed %d", seed)
		require.LessOrEqual(t, got.Money, most, "seed %d", seed)
		require.LessOrEqual(t, got.Bound, least, "seed %d", seed)
		require.GreaterOrEqual(t, got.Value, least, "seed %d", seed)
		requireOpen(t, sel, got, seed)
		if got.Proven {
			require.Equal(t, least, got.Value)
			proven++
		}
	}
	require.Greater(t, proven, 100)
}
