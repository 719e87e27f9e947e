package decide

import (
	"context"
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// BenchmarkDecide measures the whole answer, marginals and all, where couplings are local.
func BenchmarkDecide(b *testing.B) {
	for _, n := range []int{50, 300, 2000} {
		sel := generateLocal(rand.New(rand.NewPCG(uint64(n), 5)), n, 1, 0, true)
		b.Run(fmt.Sprintf("parts=%d", n), func(b *testing.B) {
			var got core.Selected
			for b.Loop() {
				got, _ = Solver{}.Decide(context.Background(), sel)
			}
			b.ReportMetric(float64(got.Width), "width")
		})
	}
}

// BenchmarkCapped measures the least risk within a cap half way between the least money and the free optimum's.
func BenchmarkCapped(b *testing.B) {
	for _, n := range []int{50, 300} {
		sel := halfCapped(b, n)
		b.Run(fmt.Sprintf("parts=%d", n), func(b *testing.B) {
			var got core.Selected
			for b.Loop() {
				got, _ = Solver{}.Decide(context.Background(), sel)
			}
			b.ReportMetric(float64(got.Value-got.Bound), "gap")
		})
	}
}

func halfCapped(tb testing.TB, n int) core.Selection {
	sel := generateLocal(rand.New(rand.NewPCG(uint64(n), 5)), n, 1, 0, true)
	free, err := Solver{}.Decide(context.Background(), sel)
	require.NoError(tb, err)
	riskless := generateLocal(rand.New(rand.NewPCG(uint64(n), 5)), n, 1, 0, true)
	for p := range riskless.Parts {
		for o := range riskless.Parts[p].Options {
			riskless.Parts[p].Options[o].Risk = 0
		}
	}
	least, err := Solver{}.Decide(context.Background(), riskless)
	require.NoError(tb, err)
	most := (least.Money + free.Money) / 2
	sel.Cap = &most
	return sel
}
