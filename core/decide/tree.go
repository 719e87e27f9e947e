package decide

import (
	"math/bits"
	"slices"
)

// bucket is the table of one variable and its neighbours at the moment it is summed out. The variable is the last,
// fastest axis of the table.
type bucket struct {
	vars     []int32 // local; the bucket's own variable last
	parent   int     // the bucket its message goes to; -1 for the root
	children []int
	strides  []int   // of the message, along the parent's axes
	table    []int64 // own clauses and prices, and the messages from below
	up       []int64 // to the parent, over all axes but the last
	down     []int64 // from the parent, over the same axes
}

// tree is a component laid out for min-marginals: one pass up gives the optimum, one down the least value with each
// value of each variable (bucket elimination, Dechter 1999).
type tree struct {
	vars    []int   // local variable to the network's
	values  [][]int // local value to the network's
	size    []int
	at      []int // bucket of a local variable
	buckets []bucket
	width   int
	rows    []int64 // of all messages, both ways
	// Scratch.
	index  []int32
	belief []int64
	fails  []uint64
	own    []int32
	slab   []int
}

// newTree lays a component out, or reports false with the width seen if it would be over maxWidth or maxCells.
func newTree(n *network, dom []uint64, c component, maxWidth, maxCells int) (*tree, bool) {
	t := &tree{vars: c.vars, at: make([]int, len(c.vars))}
	local, size := locals(dom, c)
	t.size = size
	t.values = make([][]int, len(c.vars))
	for i, v := range c.vars {
		t.values[i] = listValues(dom[v], room(&t.slab, size[i]))
	}
	e, ok := eliminate(neighbours(n, dom, c, local), t.size, maxWidth, maxCells)
	t.width = e.width
	if !ok {
		return t, false
	}
	t.layOut(e)
	var buf []literal
	for _, ci := range c.clauses {
		buf = n.clauses[ci].scope(dom, buf)
		t.forbid(buf, local)
	}
	var price []int64
	for i, v := range c.vars {
		price = price[:0]
		for _, x := range t.values[i] {
			price = append(price, n.cost[v][x])
		}
		t.buckets[t.at[i]].add(price)
	}
	return t, true
}

// add adds the price of each value of its own variable to a bucket's table.
func (b *bucket) add(price []int64) {
	for row := b.table; len(row) > 0; row = row[len(price):] {
		for k, x := range price {
			row[k] += x
		}
	}
}

// cells is the size of all tables; 0 if they were never laid out.
func (t *tree) cells() int {
	n := 0
	for i := range t.buckets {
		n += len(t.buckets[i].table)
	}
	return n
}

// valuesOf lists the values in a mask.
func valuesOf(mask uint64) []int {
	return listValues(mask, make([]int, 0, bits.OnesCount64(mask)))
}

// listValues adds the values in a mask to a list.
func listValues(mask uint64, list []int) []int {
	for ; mask != 0; mask &= mask - 1 {
		list = append(list, bits.TrailingZeros64(mask))
	}
	return list
}

// neighbours gives for each variable of a component the others it shares a clause with, sorted.
func neighbours(n *network, dom []uint64, c component, local []int32) [][]int32 {
	const spare = 4 // for what a vertex is joined to later
	count := make([]int32, len(c.vars))
	total := spare * len(c.vars)
	var buf []literal
	for _, ci := range c.clauses {
		buf = n.clauses[ci].scope(dom, buf)
		total += len(buf) * (len(buf) - 1)
		for _, a := range buf {
			count[local[a.v]] += int32(len(buf) - 1)
		}
	}
	adj := make([][]int32, len(c.vars))
	slab := make([]int32, total)
	for i := range adj {
		most := int(count[i]) + spare
		adj[i], slab = slab[:0:most], slab[most:]
	}
	for _, ci := range c.clauses {
		buf = n.clauses[ci].scope(dom, buf)
		for _, a := range buf {
			for _, b := range buf {
				if a.v != b.v {
					adj[local[a.v]] = append(adj[local[a.v]], local[b.v])
				}
			}
		}
	}
	for i := range adj {
		slices.Sort(adj[i])
		adj[i] = slices.Compact(adj[i])
	}
	return adj
}

// layOut makes the buckets of an order and hangs each under the first of its neighbours to go.
func (t *tree) layOut(e elimination) {
	t.buckets = make([]bucket, len(e.cliques))
	slab := make([]int64, e.cells) // of all tables: one allocation
	below := make([]int, len(e.cliques))
	for i, clique := range e.cliques {
		t.at[clique[len(clique)-1]] = i
	}
	for i, clique := range e.cliques {
		b := &t.buckets[i]
		b.vars, b.parent, b.children = clique, -1, room(&t.slab, below[i]) // all below come before
		n := cells(clique, t.size, 1<<40)
		b.table, slab = slab[:n:n], slab[n:]
		for _, v := range clique[:len(clique)-1] {
			if b.parent < 0 || t.at[v] < b.parent {
				b.parent = t.at[v]
			}
		}
		if b.parent >= 0 {
			below[b.parent]++
		}
	}
	for i := range t.buckets {
		b := &t.buckets[i]
		if b.parent >= 0 {
			p := &t.buckets[b.parent]
			p.children = append(p.children, i)
			b.strides = t.along(p.vars, b.vars[:len(b.vars)-1])
		}
	}
}

// along gives the strides of a row-major table over vars, seen along the axes of another one; 0 for an axis that the
// table has not.
func (t *tree) along(axes, vars []int32) []int {
	strides := room(&t.slab, len(axes))[:len(axes)]
	step := 1
	for i := len(vars) - 1; i >= 0; i-- {
		strides[slices.Index(axes, vars[i])] = step
		step *= t.size[vars[i]]
	}
	return strides
}

// walk gives for each cell of a table over axes the cell of another with these strides.
func (t *tree) walk(axes []int32, strides []int) []int32 {
	t.index = append(t.index[:0], 0)
	for i := len(axes) - 1; i >= 0; i-- {
		n := len(t.index)
		for k := 1; k < t.size[axes[i]]; k++ {
			shift := int32(k * strides[i])
			for _, x := range t.index[:n] {
				t.index = append(t.index, x+shift)
			}
		}
	}
	return t.index
}

// forbid prices the cells where no literal holds, in the bucket of the first variable of the clause to go.
func (t *tree) forbid(lits []literal, local []int32) {
	t.own = t.own[:0]
	for _, l := range lits {
		t.own = append(t.own, local[l.v])
	}
	t.forbidAt(lits, t.own)
}

// forbidAt does so with the local variables of the literals.
func (t *tree) forbidAt(lits []literal, vars []int32) {
	first := len(t.buckets)
	for _, v := range vars {
		first = min(first, t.at[v])
	}
	b := &t.buckets[first]
	t.fails = t.fails[:0]
	for range b.vars {
		t.fails = append(t.fails, ^uint64(0))
	}
	for i, l := range lits {
		var fails uint64
		for k, value := range t.values[vars[i]] {
			if l.mask&(1<<value) == 0 {
				fails |= 1 << k
			}
		}
		t.fails[slices.Index(b.vars, vars[i])] = fails
	}
	t.price(b, 0, 0, len(b.table))
}

// price adds never to the cells of b that t.fails marks along every axis.
func (t *tree) price(b *bucket, axis, from, span int) {
	d := t.size[b.vars[axis]]
	span /= d
	for fails := t.fails[axis] & all(d); fails != 0; fails &= fails - 1 {
		k := bits.TrailingZeros64(fails)
		if axis == len(b.vars)-1 {
			b.table[from+k] += never
		} else {
			t.price(b, axis+1, from+k*span, span)
		}
	}
}

// least gives the least of each row along the last axis, cut off at never.
func (t *tree) least(b *bucket, table, out []int64) []int64 {
	d := t.size[b.vars[len(b.vars)-1]]
	for r := 0; r < len(table); r += d {
		out = append(out, min(never, slices.Min(table[r:r+d])))
	}
	return out
}

// sumUp makes the pass from the leaves to the root and gives the optimum; never if there is none.
func (t *tree) sumUp() int64 {
	if t.rows == nil {
		t.rows = make([]int64, 2*t.messages())
	}
	rows := t.rows
	for i := range t.buckets {
		b := &t.buckets[i]
		n := len(b.table) / t.size[b.vars[len(b.vars)-1]]
		b.up = t.least(b, b.table, rows[:0:n])
		b.down = rows[n : 2*n : 2*n]
		rows = rows[2*n:]
		t.pass(b, b.up)
	}
	return t.value()
}

// messages counts the cells of all messages one way.
func (t *tree) messages() int {
	n := 0
	for i := range t.buckets {
		n += len(t.buckets[i].table) / t.size[t.buckets[i].vars[len(t.buckets[i].vars)-1]]
	}
	return n
}

// value is the optimum after sumUp; never if there is none.
func (t *tree) value() int64 { return t.buckets[len(t.buckets)-1].up[0] }

// pass adds a message to the parent's table.
func (t *tree) pass(b *bucket, message []int64) {
	if b.parent < 0 {
		return
	}
	p := &t.buckets[b.parent]
	for cell, x := range t.walk(p.vars, b.strides) {
		p.table[cell] += message[x]
	}
}

// marginals makes the pass from the root to the leaves, after sumUp. It gives for each local variable and value the
// least value with it; never if there is none.
func (t *tree) marginals() [][]int64 {
	out := make([][]int64, len(t.vars))
	values := 0
	for _, d := range t.size {
		values += d
	}
	slab := slices.Repeat([]int64{never}, values)
	t.descend(func(b int, belief []int64) {
		v := t.buckets[b].vars[len(t.buckets[b].vars)-1]
		d := t.size[v]
		least := slab[:d:d]
		out[v], slab = least, slab[d:]
		for ; len(belief) > 0; belief = belief[d:] {
			for k, x := range belief[:d] {
				least[k] = min(least[k], x)
			}
		}
	})
	return out
}

// descend passes from the root to the leaves, after sumUp, and calls do with the least sum through each cell of each
// bucket; never or more if there is none. The list is good until do returns.
func (t *tree) descend(do func(b int, belief []int64)) {
	for i := len(t.buckets) - 1; i >= 0; i-- {
		b := &t.buckets[i]
		d := t.size[b.vars[len(b.vars)-1]]
		t.belief = append(t.belief[:0], b.table...)
		if b.parent >= 0 {
			for r, x := range b.down {
				for cell := r * d; cell < (r+1)*d; cell++ {
					t.belief[cell] += x
				}
			}
		}
		do(i, t.belief)
		for _, c := range b.children {
			t.tell(b, &t.buckets[c])
		}
	}
}

// tell gives a child what the rest of the tree says of the axes they share, from the belief of its parent.
func (t *tree) tell(b, child *bucket) {
	for x := range child.down {
		child.down[x] = never
	}
	for cell, x := range t.walk(b.vars, child.strides) {
		child.down[x] = min(child.down[x], t.belief[cell]-child.up[x])
	}
}

// assign reads a choice of least value off the tree after sumUp, the first value of each variable that reaches it,
// and writes it into out by the network's variables.
func (t *tree) assign(out []int) {
	value := make([]int, len(t.vars))
	for i := len(t.buckets) - 1; i >= 0; i-- {
		b := &t.buckets[i]
		row := 0
		for _, v := range b.vars[:len(b.vars)-1] {
			row = row*t.size[v] + value[v]
		}
		own := b.vars[len(b.vars)-1]
		best := b.table[row*t.size[own]:][:t.size[own]]
		value[own] = slices.Index(best, slices.Min(best))
		out[t.vars[own]] = t.values[own][value[own]]
	}
}

// bind forbids every value of a local variable but one, or takes that back, and carries the change to the root.
func (t *tree) bind(v, value int, sign int64) {
	b := &t.buckets[t.at[v]]
	for cell := range b.table {
		if cell%t.size[v] != value {
			b.table[cell] += sign * never
		}
	}
	for {
		fresh := t.least(b, b.table, make([]int64, 0, len(b.up)))
		change := false
		for i, x := range fresh {
			fresh[i], b.up[i] = x-b.up[i], x
			change = change || fresh[i] != 0
		}
		if !change || b.parent < 0 {
			return
		}
		t.pass(b, fresh)
		b = &t.buckets[b.parent]
	}
}

// settle breaks ties among the choices of least value: variable by variable as listed, the lowest value goes first.
func (t *tree) settle(inOrder []int, marginals [][]int64) {
	best := t.value()
	for _, v := range inOrder {
		var tied []int
		for k, x := range marginals[v] {
			if x == best {
				tied = append(tied, k)
			}
		}
		for i := 0; i < len(tied)-1; i++ {
			t.bind(v, tied[i], 1)
			if t.value() == best {
				break
			}
			t.bind(v, tied[i], -1)
		}
	}
}
