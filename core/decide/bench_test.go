package decide

import (
	"context"
	"fmt"
	"math/rand/v2"
	"testing"

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
