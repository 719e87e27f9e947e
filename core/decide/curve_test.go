package decide

import (
	"context"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// TestCurveIsDecide: a curve says under each cap what Decide says under it, or what the least money is.
func TestCurveIsDecide(t *testing.T) {
	none, some := 0, 0
	for seed := range uint64(150) {
		r := rand.New(rand.NewPCG(seed, 14))
		sel := generateLocal(r, 2+r.IntN(30), 1+r.IntN(3), .05, seed%7 > 0)
		if seed%5 == 0 {
			p := &sel.Parts[r.IntN(len(sel.Parts))]
			p.States = append(p.States, core.SelectState{Event: -1, Options: p.States[0].Options})
		}
		free, err := Solver{}.Decide(context.Background(), sel)
		if err != nil {
			_, other := Solver{}.Curve(context.Background(), sel, []int64{1 << 30})
			require.Equal(t, core.ErrorCode(err), core.ErrorCode(other), "seed %d", seed)
			continue
		}
		var caps []int64
		for k := range int64(6) {
			caps = append(caps, free.Money*(6-k)/5)
		}
		caps = append(caps, -1, free.Money)
		curve, err := Solver{}.Curve(context.Background(), sel, caps)
		require.NoError(t, err, "seed %d", seed)
		require.Len(t, curve, len(caps))
		for i, got := range curve {
			sel.Cap = &caps[i]
			want, err := Solver{Bare: true}.Decide(context.Background(), sel)
			if got.Choice == nil {
				none++
				require.Equal(t, core.Invalid, core.ErrorCode(err), "seed %d", seed)
				require.Greater(t, got.Bound, caps[i], "seed %d", seed)
				continue
			}
			some++
			require.NoError(t, err, "seed %d", seed)
			require.LessOrEqual(t, got.Money, caps[i], "seed %d", seed)
			require.Equal(t, []any{want.Value, want.Money, want.Proven}, []any{got.Value, got.Money, got.Proven}, "seed %d cap %d", seed, caps[i])
			require.Equal(t, len(want.Blocks), len(got.Blocks), "seed %d", seed)
		}
	}
	require.Greater(t, none, 50)
	require.Greater(t, some, 300)
}
