package decide

import (
	"bufio"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// networkOf is the network of a generated choice, its domains, and its components.
func networkOf(t *testing.T, seed uint64, parts int, far float64) (n *network, dom []uint64, list []component) {
	t.Helper()
	sel := generateLocal(rand.New(rand.NewPCG(seed, 9)), parts, 1, far, true)
	d, _, err := Solver{}.prepare(t.Context(), &sel)
	require.NoError(t, err)
	n = d.model.net
	dom = slices.Clone(n.dom)
	require.True(t, n.propagate(dom, nil))
	every := make([]int, len(dom))
	for v := range every {
		every[v] = v
	}
	return n, dom, n.components(dom, every)
}

// No choice is under the bounds of the relaxation, nor under those of copies, which are the least sums themselves where
// nothing had to be copied. The least sums are those of tables, which are held to every choice there is elsewhere.
func TestNoChoiceIsUnderItsBounds(t *testing.T) {
	const up = 1<<copyFiner - 1
	sharp, met := 0, 0
	for seed := range uint64(60) {
		n, dom, list := networkOf(t, seed, 5+int(seed)%20, .5)
		l := newLinear(n)
		for _, c := range list {
			if len(c.clauses) == 0 {
				continue
			}
			exact, ok := newTree(n, dom, c, 20, math.MaxInt)
			require.True(t, ok)
			optimum := exact.sumUp()
			marginals := exact.marginals()
			r := l.lower(t.Context(), dom, c, never)
			require.LessOrEqual(t, r.low, optimum, "seed %d", seed)
			for i := range c.vars {
				for k := range marginals[i] {
					require.LessOrEqual(t, r.least[int(r.from[i])+k], min(marginals[i][k], never), "seed %d", seed)
				}
			}
			price := make([]int64, len(c.clauses))
			for i, ci := range c.clauses {
				price[i] = int64(l.price[ci] * (1 << copyFiner))
			}
			for _, most := range []int{4, 64, math.MaxInt} {
				p := newCopies(n, dom, c, places(n, dom, c), most)
				p.share(n, dom, c, price)
				for range 3 {
					low, least := p.solve()
					low = (low + up) >> copyFiner
					require.LessOrEqual(t, low, optimum, "seed %d", seed)
					require.GreaterOrEqual(t, low+1, min(r.low, optimum), "seed %d: what is said together is no less", seed)
					for node, v := range p.vars {
						row := marginals[slices.Index(c.vars, v)]
						for k, x := range row {
							require.LessOrEqual(t, min(never, (least[node][k]+up)>>copyFiner), min(x, never), "seed %d", seed)
						}
					}
					if most == math.MaxInt {
						require.Len(t, p.of, len(c.vars), "nothing is copied")
						require.Equal(t, optimum, low, "seed %d", seed)
					} else if len(p.of) > len(c.vars) {
						sharp++
					}
					if most == 64 && low == optimum {
						met++
					}
					p.agree(least, optimum<<copyFiner)
				}
			}
		}
	}
	require.Greater(t, sharp, 100, "copies were made")
	require.Greater(t, met, 100)
}

// The relaxation comes to the optimum that GLPK's simplex finds of the same linear programme.
func TestRelaxationAgainstGLPK(t *testing.T) {
	otherSolvers[0].look(t)
	for seed := range uint64(12) {
		n, dom, list := networkOf(t, seed, 60+int(seed)*20, .6)
		c := slices.MaxFunc(list, func(a, b component) int { return len(a.vars) - len(b.vars) })
		r := newLinear(n).lower(t.Context(), dom, c, never)
		want := simplex(t, n, dom, c)
		require.InDelta(t, want, float64(r.low), 1.5, "seed %d, %d variables", seed, len(c.vars))
		require.LessOrEqual(t, float64(r.low), math.Ceil(want-1e-6))
	}
}

// simplex gives the optimum of a component's linear relaxation by glpsol.
func simplex(t *testing.T, n *network, dom []uint64, c component) float64 {
	t.Helper()
	file := filepath.Join(t.TempDir(), "relaxed.lp")
	f, err := os.Create(file)
	require.NoError(t, err)
	w := bufio.NewWriter(f)
	fmt.Fprintln(w, "Minimize\n sum:")
	for _, v := range c.vars {
		for _, k := range valuesOf(dom[v]) {
			fmt.Fprintf(w, " + %d x%d_%d\n", n.cost[v][k], v, k)
		}
	}
	fmt.Fprintln(w, "Subject To")
	for _, v := range c.vars {
		for _, k := range valuesOf(dom[v]) {
			fmt.Fprintf(w, " + x%d_%d", v, k)
		}
		fmt.Fprintln(w, " = 1")
	}
	for _, ci := range c.clauses {
		for _, l := range n.clauses[ci].lits {
			for _, k := range valuesOf(dom[l.v] & l.mask) {
				fmt.Fprintf(w, " + x%d_%d", l.v, k)
			}
		}
		fmt.Fprintln(w, " >= 1")
	}
	fmt.Fprintln(w, "End")
	require.NoError(t, w.Flush())
	require.NoError(t, f.Close())
	_, text, err := told(t.Context(), file+".out", "glpsol", "--lp", file, "-w", file+".out")
	require.NoError(t, err)
	for line := range strings.Lines(text) {
		var rows, columns int
		var primal, dual string
		var sum float64
		if n, _ := fmt.Sscanf(line, "s bas %d %d %s %s %g", &rows, &columns, &primal, &dual, &sum); n == 5 {
			require.Equal(t, "f f", primal+" "+dual)
			return sum
		}
	}
	require.FailNow(t, "glpsol says: "+text)
	return 0
}
