package decide

import (
	"context"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// TestBlocks compares the joint options of unseen blocks with a trial of every joint choice in every combination of
// states that can be.
func TestBlocks(t *testing.T) {
	blocks, refused := 0, 0
	for seed := range uint64(2000) {
		r := rand.New(rand.NewPCG(seed, 3))
		sel := generate(r, shape{parts: 2 + r.IntN(4), options: 3, ops: r.IntN(5), steps: r.IntN(6), sets: r.IntN(3), bonds: r.IntN(3), cost: []int64{3, 10, 1000}[seed%3], unseen: .5})
		got, err := Solver{}.Decide(context.Background(), sel)
		sure, unseen := groups(&sel)
		if len(everyChoice(&sel, sure)) == 0 {
			require.Equal(t, core.Invalid, core.ErrorCode(err), "seed %d", seed)
			continue
		}
		uncovered := slices.IndexFunc(unseen, func(b []int) bool { return !covered(&sel, b) })
		if uncovered >= 0 {
			refused++
			require.Equal(t, core.Invalid, core.ErrorCode(err), "seed %d", seed)
			named := slices.DeleteFunc(slices.Clone(unseen[uncovered]), func(p int) bool { return !strings.Contains(err.Error(), sel.Parts[p].ID) })
			require.NotEmpty(t, named, "seed %d", seed)
			require.False(t, covered(&sel, named), "seed %d: nothing suits those who are named", seed)
			continue
		}
		require.NoError(t, err, "seed %d", seed)
		require.Len(t, got.Blocks, len(unseen))
		for i, b := range got.Blocks {
			require.Equal(t, unseen[i], b.Parts, "seed %d", seed)
			compareBlock(t, &sel, got, sure, b, seed)
			blocks++
		}
	}
	require.Greater(t, blocks, 500)
	require.Greater(t, refused, 50)
}

// statesOf lists the combinations of states that one draw of each event can give.
func statesOf(sel *core.Selection, parts []int) [][]int {
	list := [][]int{nil}
	for _, p := range parts {
		var next [][]int
		for _, c := range list {
			for s := range sel.Parts[p].States {
				next = append(next, append(slices.Clone(c), s))
			}
		}
		list = next
	}
	return slices.DeleteFunc(list, func(c []int) bool {
		yes, no := map[int]bool{}, map[int]bool{}
		for i, p := range parts {
			if st := sel.Parts[p].States[c[i]]; st.Event >= 0 {
				yes[st.Event] = yes[st.Event] || !st.NotEvent
				no[st.Event] = no[st.Event] || st.NotEvent
			}
		}
		return yes[0] && no[0] || yes[1] && no[1]
	})
}

// jointChoices lists the choices of a block that suit, in these states.
func jointChoices(sel *core.Selection, parts, states []int) [][]int {
	list := [][]int{nil}
	for i, p := range parts {
		options := inTieOrder(&sel.Parts[p], slices.Clone(sel.Parts[p].States[states[i]].Options))
		var next [][]int
		for _, c := range list {
			for _, o := range options {
				next = append(next, append(slices.Clone(c), o))
			}
		}
		list = next
	}
	return slices.DeleteFunc(list, func(c []int) bool { return !suits(sel, parts, c) })
}

func covered(sel *core.Selection, parts []int) bool {
	for _, st := range statesOf(sel, parts) {
		if len(jointChoices(sel, parts, st)) == 0 {
			return false
		}
	}
	return true
}

// compareBlock draws every combination of states and checks which joint option comes first.
func compareBlock(t *testing.T, sel *core.Selection, got core.Selected, sure []int, b core.Block, seed uint64) {
	t.Helper()
	choice := make([]int, len(sure))
	for i, p := range sure {
		choice[i] = got.Choice[p]
	}
	needed, _ := operationsOf(sel, sure, choice)
	firsts := map[string]bool{}
	same := make([]int, len(b.Parts))
	for n, st := range statesOf(sel, b.Parts) {
		var want []int
		value := core.Infeasible
		for _, c := range jointChoices(sel, b.Parts, st) { // in tie order, so the first of the cheapest stays
			if x := blockValue(sel, got.Steps, needed, b.Parts, c); x < value {
				want, value = c, x
			}
		}
		k := slices.IndexFunc(b.Options, func(o core.BlockOption) bool {
			for i, p := range b.Parts {
				if !slices.Contains(sel.Parts[p].States[st[i]].Options, o.Choice[i]) {
					return false
				}
			}
			return true
		})
		require.GreaterOrEqual(t, k, 0, "seed %d states %v", seed, st)
		require.Equal(t, want, b.Options[k].Choice, "seed %d states %v", seed, st)
		require.Equal(t, value, b.Options[k].Value, "seed %d", seed)
		firsts[fmt.Sprint(want)] = true
		for i, o := range want {
			if n == 0 {
				same[i] = o
			} else if same[i] != o {
				same[i] = -1
			}
		}
	}
	for i, p := range b.Parts {
		require.Equal(t, same[i], got.Choice[p], "seed %d part %d", seed, p)
		require.Nil(t, got.Marginals[p])
	}
	require.Len(t, b.Options, len(firsts))
}

// blockValue is what a joint choice adds to the optimum.
func blockValue(sel *core.Selection, steps, paidFor []bool, parts, choice []int) int64 {
	var sum int64
	var wanted []int
	for i, p := range parts {
		o := sel.Parts[p].Options[choice[i]]
		sum += o.Risk
		wanted = append(wanted, o.Steps...)
	}
	_, pays := operationsOf(sel, parts, choice)
	for o, yes := range pays {
		free := paidFor[o]
		for q, n := range paidFor {
			free = free || n && slices.Contains(sel.Operations[q].Includes, o)
		}
		if yes && !free {
			sum += sel.Operations[o].Cost
		}
	}
	return sum + cheapestSteps(sel, wanted, steps)
}

// TestBlockTooWide refuses a block whose joint options cannot be listed, and names its parts.
func TestBlockTooWide(t *testing.T) {
	var sel core.Selection
	for i := range 5 {
		p := core.SelectPart{ID: fmt.Sprintf("axle/nut/%d", i)}
		for k := range 3 {
			p.Options = append(p.Options, core.SelectOption{ID: fmt.Sprint(k), Kind: core.Replace, Risk: int64(k), Yields: []core.Yield{{Key: "thread", Value: "x"}}})
			p.States = append(p.States, core.SelectState{Chance: 1. / 3, Options: []int{k}, Event: -1})
		}
		sel.Parts = append(sel.Parts, p)
		sel.Sets = append(sel.Sets, core.SelectSet{ID: "nuts", Members: []int{0, i}, AgreeOn: "thread"})
	}
	_, err := Solver{}.Decide(context.Background(), sel)
	require.Equal(t, core.Invalid, core.ErrorCode(err))
	require.ErrorContains(t, err, "axle/nut/0")
	require.ErrorContains(t, err, "axle/nut/4")
	require.ErrorContains(t, err, "more than 64 ways to decide")
	require.False(t, strings.HasSuffix(core.ErrorNext(err), "."))
}
