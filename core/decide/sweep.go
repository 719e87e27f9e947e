package decide

import (
	"math/bits"
	"slices"
)

// sweepBranch is what a branching counts for, in cells: about its share of the time.
const sweepBranch = 1 << 17

// swept is what a sweep finds of a part of the network: the optimum, a choice, and for each variable asked for and
// each of its values the least sum.
type swept struct {
	value  int64
	assign map[int]int
	least  map[int][]int64
}

// sweep solves a component that is only just too wide: it branches until all is narrow and takes every branch, so
// that one pass over each gives the least sums exactly. It gives up, with ok false, when that takes too many cells.
func (b *search) sweep(dom []uint64, c component) (w swept, ok bool) {
	v, values := b.pick(dom, c)
	w = swept{value: never, least: map[int][]int64{}}
	for _, k := range values {
		child := slices.Clone(dom)
		child[v] = 1 << k
		if !b.net.propagate(child, []int{v}) {
			continue
		}
		one, ok := b.sweepParts(child, c.vars)
		if !ok {
			return swept{}, false
		}
		if one.value < w.value {
			w.value, w.assign = one.value, one.assign
		}
		for u, row := range one.least {
			if w.least[u] == nil {
				w.least[u] = b.absent(u)
			}
			for i, x := range row {
				w.least[u][i] = min(w.least[u][i], x)
			}
		}
	}
	return w, true
}

// sweepParts sweeps the components of what is left of these variables and adds them up.
func (b *search) sweepParts(dom []uint64, among []int) (w swept, ok bool) {
	w = swept{value: b.net.base(dom, among), assign: map[int]int{}, least: map[int][]int64{}}
	for _, v := range among {
		w.assign[v] = bits.TrailingZeros64(dom[v])
	}
	for _, c := range b.net.components(dom, among) {
		one, ok := b.sweepOne(dom, c)
		if !ok {
			return swept{}, false
		}
		if one.value >= never {
			return swept{value: never}, true
		}
		for v, k := range one.assign {
			w.assign[v] = k
		}
		for v, row := range one.least {
			for k, x := range row {
				if x < never {
					row[k] = x - one.value
				}
			}
			w.least[v] = row
		}
		w.value += one.value
	}
	for _, v := range among {
		if !b.ask.least(v) {
			continue
		}
		if w.least[v] == nil {
			w.least[v] = b.absent(v)
			w.least[v][w.assign[v]] = 0
		}
		for k, x := range w.least[v] {
			if x < never {
				w.least[v][k] = w.value + x
			}
		}
	}
	return w, true
}

// sweepOne solves a component by tables, or sweeps on.
func (b *search) sweepOne(dom []uint64, c component) (w swept, ok bool) {
	t, narrow := newTree(b.net, dom, c, b.lim.width, b.lim.cells)
	if b.cells <= 0 || b.ctx.Err() != nil {
		return swept{}, false
	}
	if !narrow {
		b.cells -= sweepBranch
		return b.sweep(dom, c)
	}
	b.out.width = max(b.out.width, t.width)
	for i := range t.buckets {
		b.cells -= 2 * len(t.buckets[i].table)
	}
	w = swept{value: t.sumUp(), assign: map[int]int{}, least: map[int][]int64{}}
	if w.value >= never {
		return w, true
	}
	b.read(t, w.assign)
	for i, row := range t.marginals() {
		if v := t.vars[i]; b.ask.least(v) {
			w.least[v] = b.absent(v)
			for k, x := range row {
				w.least[v][t.values[i][k]] = min(x, never)
			}
		}
	}
	return w, true
}
