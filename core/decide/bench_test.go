package decide

import (
	"context"
	"fmt"
	"math/rand/v2"
	"slices"
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

// BenchmarkUnseen measures 300 parts of which half may yet turn out not to be reusable, blocks and all.
func BenchmarkUnseen(b *testing.B) {
	sel := generateLocal(rand.New(rand.NewPCG(3, 5)), 300, 1, 0, true)
	for _, group := range joined(&sel) {
		for _, i := range group {
			if p := &sel.Parts[i]; i%2 == 0 && len(p.Options) > 1 {
				worse := p.States[0].Options[1:]
				if len(group) > 1 || slices.ContainsFunc(sel.Bonds, func(b core.Bond) bool { return b.Part == i }) {
					worse = p.States[0].Options // what is joined must have a choice in every case
				}
				p.States = append(p.States, core.SelectState{Event: -1, Options: worse})
			}
		}
	}
	for b.Loop() {
		got, err := Solver{}.Decide(context.Background(), sel)
		require.NoError(b, err)
		b.ReportMetric(float64(len(got.Blocks)), "blocks")
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
	capHalfWay(tb, &sel)
	require.NotNil(tb, sel.Cap)
	return sel
}
