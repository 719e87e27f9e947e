package decide

import (
	"cmp"
	"math/bits"
	"math/rand/v2"
	"slices"
)

// patience is how often a greedy choice starts again.
const patience = 50

// greedy fixes the variables of a component one by one, remedies first, each at the value that adds least at once.
// Where one has nothing left it starts again with that one first. Its value is never if it gave up.
func (b *search) greedy(dom []uint64, c component) found {
	order := slices.Clone(c.vars)
	for range patience {
		full, stuck := b.dive(slices.Clone(dom), order, c.vars)
		b.spent += perVariable * len(order)
		if stuck < 0 {
			f := found{value: b.net.base(full, c.vars), assign: make(map[int]int, len(c.vars))}
			for _, v := range c.vars {
				f.assign[v] = bits.TrailingZeros64(full[v])
			}
			return f
		}
		i := slices.Index(order, stuck)
		if i == 0 || b.ctx.Err() != nil {
			break
		}
		order = slices.Insert(slices.Delete(order, i, i+1), 0, stuck)
	}
	return found{value: never}
}

// dive fixes variables in this order; stuck is one that had nothing left, or -1.
func (b *search) dive(dom []uint64, order, vars []int) (full []uint64, stuck int) {
	for _, v := range order {
		if bits.OnesCount64(dom[v]) == 1 {
			continue
		}
		var best []uint64
		least := never
		for _, k := range valuesOf(dom[v]) {
			d := slices.Clone(dom)
			d[v] = 1 << k
			if !b.net.propagate(d, []int{v}) {
				continue
			}
			if sum := b.net.base(d, vars); best == nil || sum < least {
				best, least = d, sum
			}
		}
		if best == nil {
			return nil, v
		}
		dom = best
	}
	return dom, -1
}

// rounds is how often the first choice of a search is improved.
const rounds = 6

// improve holds just so much of a choice fixed that what is left is narrow, finds the best of that, and again with
// other variables fixed. The fixed ones are those that share most clauses, shaken a little, the same in each run.
func (b *search) improve(dom []uint64, c component, f found, r relaxed, rounds int) found {
	degree := make([]int, len(dom))
	for _, ci := range c.clauses {
		for _, l := range b.net.clauses[ci].lits {
			degree[l.v]++
		}
	}
	dice := rand.New(rand.NewPCG(uint64(len(c.vars)), uint64(len(c.clauses))))
	for range rounds {
		if f.value >= never || b.over() {
			return f
		}
		weight := make([]float64, len(dom))
		for i, v := range c.vars {
			weight[v] = r.agrees(i, f.assign[v]) * float64(degree[v]) * (.3 + dice.Float64())
		}
		order := slices.Clone(c.vars)
		slices.SortStableFunc(order, func(x, y int) int { return cmp.Compare(weight[y], weight[x]) })
		if g := b.around(dom, c, f, order); g.value < f.value {
			f = g
		}
	}
	return f
}

// around fixes variables at the values of a choice, a few at a time in this order, until what is left is narrow, and
// solves that.
func (b *search) around(dom []uint64, c component, f found, order []int) found {
	dom = slices.Clone(dom)
	for step := max(1, len(order)/20); len(order) > 0; order = order[min(step, len(order)):] {
		for _, v := range order[:min(step, len(order))] {
			dom[v] = 1 << f.assign[v]
		}
		if !b.net.propagate(dom, order[:min(step, len(order))]) {
			break
		}
		if g, ok := b.narrowed(dom, c); ok {
			return g
		}
	}
	return found{value: never}
}

// narrowed solves what is left of a component by tables; ok is false if some of it is too wide.
func (b *search) narrowed(dom []uint64, c component) (f found, ok bool) {
	f = found{value: b.net.base(dom, c.vars), assign: make(map[int]int, len(c.vars))}
	for _, v := range c.vars {
		f.assign[v] = bits.TrailingZeros64(dom[v])
	}
	for _, part := range b.net.components(dom, c.vars) {
		t, narrow := newTree(b.net, dom, part, b.lim.width, b.lim.cells)
		b.spent += perVariable*len(part.vars) + t.cells()
		if !narrow {
			return f, false
		}
		f.value = min(never, f.value+t.sumUp())
		b.read(t, f.assign)
	}
	return f, true
}
