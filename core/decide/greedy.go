package decide

import (
	"math/bits"
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
