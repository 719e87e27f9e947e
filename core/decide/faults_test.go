package decide

import (
	"context"
	"encoding/json"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// TestConflict names the parts that cannot agree, the set and the bond between them, and nobody else.
func TestConflict(t *testing.T) {
	size := func(id, value string) core.SelectOption {
		return core.SelectOption{ID: id, Kind: core.Rebuild, Yields: []core.Yield{{Key: "undersize", Value: value}}}
	}
	sel := core.Selection{
		Parts: []core.SelectPart{
			seen("bottom-end/main/1", size("grind-010", ".010"), size("grind-020", ".020")),
			seen("bottom-end/main/2", size("grind-020", ".020"), size("grind-030", ".030")),
			seen("bottom-end/main/3", size("grind-010", ".010")),
			seen("bottom-end/flywheel", core.SelectOption{ID: "skim", Kind: core.Rebuild}),
		},
		Sets: []core.SelectSet{{ID: "mains", Members: []int{0, 1, 2}, AgreeOn: "undersize"}},
	}
	_, err := Solver{}.Decide(context.Background(), sel)
	require.Equal(t, core.Invalid, core.ErrorCode(err))
	require.ErrorContains(t, err, "no remedies of bottom-end/main/2 and bottom-end/main/3 go together: they are of one set, “mains”")
	require.NotContains(t, err.Error(), "main/1")
	require.NotContains(t, err.Error(), "flywheel")
	sel.Sets = nil
	sel.Bonds = []core.Bond{{Part: 3, Option: 0, OtherPart: 2, OtherOption: 0, Excludes: true}}
	_, err = Solver{}.Decide(context.Background(), sel)
	require.ErrorContains(t, err, "bottom-end/flywheel, “skim”, does not go with bottom-end/main/3, “grind-010”")
}

// TestMalformed tells every fault at once, by the names in the Selection.
func TestMalformed(t *testing.T) {
	sel := core.Selection{
		Parts: []core.SelectPart{
			{ID: "a", Options: []core.SelectOption{{ID: "r", Risk: -1, Operations: []int{4}, Steps: []int{9}}}},
			{ID: "b", Options: make([]core.SelectOption, 65), States: []core.SelectState{{}, {Options: []int{70}, Event: 3}}},
		},
		Operations: []core.SelectOperation{{ID: "o", Cost: 1 << 60}},
		Steps:      []core.SelectStep{{ID: "s", AnyOf: [][]int{{}}}},
		Sets:       []core.SelectSet{{ID: "set", Members: []int{2}}},
		Bonds:      []core.Bond{{Part: 0, Option: 1, OtherPart: 5}},
	}
	_, err := Solver{}.Decide(context.Background(), sel)
	require.Equal(t, core.Invalid, core.ErrorCode(err))
	require.NotEmpty(t, core.ErrorNext(err))
	for _, fault := range []string{
		"part a has no state", "remedy r of a costs -1", "names operation 4 of 1", "names step 9 of 1", "65 remedies", "names remedy 70 of 65",
		`no remedy when it is ""`, "names event 3 of 0", "one of no steps", "set set names part 2 of 2", "names remedy 1 of the 1", "names part 5 of 2",
		"more than can be added up exactly",
	} {
		require.ErrorContains(t, err, fault)
	}
	_, err = Solver{}.Decide(context.Background(), core.Selection{
		Steps:      []core.SelectStep{{ID: "s0", AllOf: []int{1}}, {ID: "s1", AllOf: []int{0}}},
		Operations: []core.SelectOperation{{ID: "o0", Includes: []int{0}}},
	})
	require.ErrorContains(t, err, "step s0 comes before itself; step s1 comes before itself; operation o0 includes itself")
}

// TestEmpty: nothing to choose costs what the extent does.
func TestEmpty(t *testing.T) {
	got, err := Solver{}.Decide(context.Background(), core.Selection{Steps: []core.SelectStep{{Cost: 5, Open: true, AllOf: []int{1}}, {Cost: 7}, {Cost: 9}}})
	require.NoError(t, err)
	require.Equal(t, int64(12), got.Value)
	require.True(t, got.Proven)
	require.Equal(t, []bool{true, true, false}, got.Steps)
}

// TestSameAnswer: the same Selection gives the same answer, and comes back unchanged.
func TestSameAnswer(t *testing.T) {
	for seed := range uint64(5) {
		sel := generateLocal(rand.New(rand.NewPCG(seed, 6)), 60, 3, .1, true)
		before, err := json.Marshal(sel)
		require.NoError(t, err)
		first, err := Solver{}.Decide(context.Background(), sel)
		require.NoError(t, err)
		second, err := Solver{}.Decide(context.Background(), sel)
		require.NoError(t, err)
		require.Equal(t, first, second)
		after, err := json.Marshal(sel)
		require.NoError(t, err)
		require.JSONEq(t, string(before), string(after))
	}
}

// TestTooWide: where tables would not fit and there is no time, the answer is a choice that suits, a bound under it and no
// claim of proof. It comes soon after the deadline.
func TestTooWide(t *testing.T) {
	sel := generateLocal(rand.New(rand.NewPCG(7, 7)), 400, 2, .5, true)
	ctx, cancel := context.WithTimeout(context.Background(), time.Nanosecond)
	defer cancel()
	start := time.Now()
	got, err := Solver{}.Decide(ctx, sel)
	require.NoError(t, err)
	require.Less(t, time.Since(start), 5*time.Second)
	require.False(t, got.Proven)
	require.Less(t, got.Bound, got.Value)
	require.Greater(t, got.Bound, got.Value*3/4)
	require.LessOrEqual(t, got.Width, 12)
	requireOpen(t, sel, got, 7)
	parts := make([]int, len(sel.Parts))
	for p := range parts {
		parts[p] = p
		require.Equal(t, got.Value, got.Marginals[p][got.Choice[p]])
	}
	require.True(t, suits(&sel, parts, got.Choice))
}

// TestCancelled gives the context's own error.
func TestCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	sel := generateLocal(rand.New(rand.NewPCG(7, 7)), 40, 1, 0, true)
	_, err := Solver{}.Decide(ctx, sel)
	require.ErrorIs(t, err, context.Canceled)
}

// FuzzDecide: whatever the Selection, the answer is an *core.Error or a choice within its bound.
func FuzzDecide(f *testing.F) {
	for seed := range uint64(20) {
		f.Add(seed, uint8(seed%7), uint8(seed%5), uint8(seed%9), uint8(seed%3), seed%2 == 0)
	}
	f.Fuzz(func(t *testing.T, seed uint64, parts, ops, steps, sets uint8, spoil bool) {
		r := rand.New(rand.NewPCG(seed, 8))
		sel := generate(r, shape{parts: 1 + int(parts%20), options: 4, ops: int(ops % 20), steps: int(steps % 20), sets: int(sets % 6), bonds: int(sets % 8), cost: 50, unseen: .2})
		if seed%3 == 0 {
			most := int64(seed % 500)
			sel.Cap = &most
		}
		if spoil {
			spoilt(r, &sel)
		}
		ctx, stop := context.WithTimeout(context.Background(), time.Second) // the fuzzer takes what runs for ten seconds, and it makes all slow, for hung
		defer stop()
		got, err := Solver{Nodes: 50, Width: 6}.Decide(ctx, sel)
		if err != nil {
			require.NotEqual(t, core.Internal, core.ErrorCode(err))
			return
		}
		require.LessOrEqual(t, got.Bound, got.Value)
		require.Equal(t, got.Proven, got.Bound == got.Value)
	})
}

// spoilt writes a wild number into a Selection.
func spoilt(r *rand.Rand, sel *core.Selection) {
	wild := []int{-1, 1 << 40, len(sel.Parts), len(sel.Steps), len(sel.Operations), 63, 64}[r.IntN(7)]
	p := &sel.Parts[r.IntN(len(sel.Parts))]
	switch r.IntN(7) {
	case 0:
		p.Options[0].Operations = append(p.Options[0].Operations, wild)
	case 1:
		p.Options[0].Steps = append(p.Options[0].Steps, wild)
	case 2:
		p.Options[0].Risk = int64(wild) << 20
	case 3:
		p.States[0].Options = append(p.States[0].Options, wild)
	case 4:
		sel.Sets = append(sel.Sets, core.SelectSet{Members: []int{wild}})
	case 5:
		sel.Bonds = append(sel.Bonds, core.Bond{Part: wild, OtherOption: wild})
	case 6:
		for i := range sel.Steps {
			sel.Steps[i].AllOf = append(sel.Steps[i].AllOf, wild)
			sel.Steps[i].AnyOf = append(sel.Steps[i].AnyOf, []int{i, wild})
		}
	}
}
