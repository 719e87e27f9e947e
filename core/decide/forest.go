package decide

import (
	"math/bits"
	"slices"
)

// forest is a network laid out once, to be solved under many prices and with fewer values.
type forest struct {
	trees   []*tree
	hard    [][][]int64 // by tree and bucket, the table of the clauses alone
	lone    []int       // variables that have no choice
	settled []int       // the value of each of them
	width   int
	cells   int // what one solving fills, at least 1
}

// newForest lays a network out, or reports false if some component would be too wide.
func newForest(n *network, dom []uint64, lim limits) (*forest, bool) {
	f := &forest{settled: make([]int, len(dom)), cells: 1 + 10*len(dom)} // a variable's share of the rest
	every := make([]int, len(dom))
	free := *n
	free.cost = make([][]int64, len(n.cost))
	for v := range dom {
		every[v] = v
		f.settled[v] = bits.TrailingZeros64(dom[v])
		if bits.OnesCount64(dom[v]) == 1 {
			f.lone = append(f.lone, v)
		}
		free.cost[v] = make([]int64, len(n.cost[v]))
	}
	for _, c := range n.components(dom, every) {
		t, ok := newTree(&free, dom, c, lim.width, lim.cells)
		if !ok {
			return nil, false
		}
		f.width = max(f.width, t.width)
		f.cells += t.cells()
		hard := make([][]int64, len(t.buckets))
		for i := range t.buckets {
			hard[i] = append([]int64(nil), t.buckets[i].table...)
		}
		f.trees = append(f.trees, t)
		f.hard = append(f.hard, hard)
	}
	return f, true
}

// solve finds the optimum under the prices and the values of n, whose clauses are those laid out. least says which
// least sums are wanted; nil for none. Ties go as they fall.
func (f *forest) solve(n *network, least func(int) bool) solution {
	s := solution{exact: true, width: f.width, assign: slices.Clone(f.settled), least: make([][]int64, len(n.dom))}
	values := make([]int64, len(f.trees))
	for i, t := range f.trees {
		t.load(f.hard[i], n)
		values[i] = t.sumUp()
		if values[i] >= never {
			return solution{value: never, bound: never, width: f.width}
		}
		s.value += values[i]
		t.assign(s.assign)
	}
	for _, v := range f.lone {
		s.value += n.cost[v][f.settled[v]]
	}
	s.bound = s.value
	if least == nil {
		return s
	}
	for i, t := range f.trees {
		for local, row := range t.marginals() {
			if v := t.vars[local]; least(v) {
				s.least[v] = f.row(n, t, local, row, s.value-values[i])
			}
		}
	}
	for _, v := range f.lone {
		if least(v) {
			s.least[v] = slices.Repeat([]int64{never}, len(n.cost[v]))
			s.least[v][f.settled[v]] = s.value
		}
	}
	return s
}

// row turns the least sums of a tree's variable into those of the network, given what the rest comes to.
func (f *forest) row(n *network, t *tree, local int, sums []int64, rest int64) []int64 {
	row := slices.Repeat([]int64{never}, len(n.cost[t.vars[local]]))
	for k, x := range sums {
		if x < never {
			row[t.values[local][k]] = rest + x
		}
	}
	return row
}

// load puts the prices of a network on the tables of its clauses, and forbids the values it has no more.
func (t *tree) load(hard [][]int64, n *network) {
	for i := range t.buckets {
		b := &t.buckets[i]
		copy(b.table, hard[i])
		own := b.vars[len(b.vars)-1]
		v := t.vars[own]
		price := make([]int64, t.size[own])
		for k, value := range t.values[own] {
			price[k] = n.cost[v][value]
			if n.dom[v]&(1<<value) == 0 {
				price[k] = never
			}
		}
		b.add(price)
	}
}
