package decide

import (
	"cmp"
	"math"
	"math/bits"
	"slices"
)

// search is branch and bound over one component whose tables would be too wide: fix a variable, split what is left
// into components, solve those that have become narrow by tables, and drop what the lower bound rules out.
type search struct {
	*solver
	relax *relaxation
	left  int // nodes still allowed
	cells int // cells still allowed to a sweep
	spent int // work done: table cells filled, and variables laid out
	stop  int // the work at which to stop
}

// found is what a search knows of a part of the network: the best choice under the limit it was given (never if
// none), and what nothing is under.
type found struct {
	value, bound int64
	assign       map[int]int
}

// branch solves a component too wide for tables, and finds the least sums asked for.
func (s *solver) branch(c component) (value, bound int64) {
	b := &search{solver: s, relax: &relaxation{net: s.net, place: places(s.net, s.dom, c)}, left: s.lim.nodes, cells: s.lim.sweep, stop: s.lim.work}
	f, ok := b.swept(c)
	if !ok {
		s.out.exact = false
		f = b.best(s.dom, c, rounds)
		if f.value < never {
			f = b.forced(c, f)
		}
	}
	if f.value >= never {
		return never, f.bound
	}
	f = b.settle(c, f)
	for v, k := range f.assign {
		s.out.assign[v] = k
	}
	return f.value, f.bound
}

// swept tries a sweep of the component.
func (b *search) swept(c component) (found, bool) {
	if b.ask.least == nil {
		return found{}, false
	}
	w, ok := b.sweep(b.dom, c)
	if !ok {
		return found{}, false
	}
	for v, row := range w.least {
		b.note(v, valuesOf(all(len(row))), row, w.value)
	}
	return found{w.value, w.value, w.assign}, true
}

// over reports that the nodes, the work or the time allowed are used up.
func (b *search) over() bool {
	return b.left < 0 || b.spent >= b.stop || b.ctx.Err() != nil
}

// perVariable is what laying out one variable counts for, in cells.
const perVariable = 200

// forced finds the least sums asked for by fixing each value in turn, each with a small share of the search. What it
// does not reach before the deadline or within its work stays never. A better choice than f, where f was not proven,
// may turn up on the way.
func (b *search) forced(c component, f found) found {
	if b.ask.least == nil {
		return f
	}
	var asked []int
	questions := 0
	for _, v := range c.vars {
		if b.ask.least(v) {
			asked = append(asked, v)
			questions += bits.OnesCount64(b.dom[v]) - 1
		}
	}
	share, last := b.lim.work/max(1, questions), b.spent+b.lim.work
	rows := make([][]int64, len(asked))
	for i, v := range asked {
		rows[i] = b.absent(v)
		rows[i][f.assign[v]] = f.value
		for _, k := range valuesOf(b.dom[v]) {
			if f.assign[v] == k || b.ctx.Err() != nil || b.spent >= last {
				continue
			}
			b.stop = b.spent + share
			g := b.with(b.dom, c, v, k)
			rows[i][k] = g.value
			if g.value < f.value {
				f = found{g.value, f.bound, g.assign}
			}
		}
	}
	for i, v := range asked {
		rows[i][f.assign[v]] = f.value
		b.note(v, valuesOf(all(len(rows[i]))), rows[i], f.value)
	}
	return f
}

// places gives each variable of a component its position in an order for the lower bound: of least fill while that
// is cheap to tell, then by the number of neighbours.
func places(n *network, dom []uint64, c component) []int {
	local, size := locals(dom, c)
	e, _ := eliminate(neighbours(n, dom, c, local), size, crowded, math.MaxInt)
	place := slices.Repeat([]int{-1}, len(dom))
	for at, clique := range e.cliques {
		place[c.vars[clique[len(clique)-1]]] = at
	}
	adj := neighbours(n, dom, c, local)
	var rest []int
	for i, v := range c.vars {
		if place[v] < 0 {
			rest = append(rest, i)
		}
	}
	slices.SortStableFunc(rest, func(x, y int) int { return len(adj[x]) - len(adj[y]) })
	for at, i := range rest {
		place[c.vars[i]] = len(e.cliques) + at
	}
	return place
}

// locals numbers the variables of a component and counts their values.
func locals(dom []uint64, c component) (local map[int]int32, size []int) {
	local = make(map[int]int32, len(c.vars))
	size = make([]int, len(c.vars))
	for i, v := range c.vars {
		local[v] = int32(i)
		size[i] = bits.OnesCount64(dom[v])
	}
	return local, size
}

// best solves a component from scratch: a choice made greedily and improved so many rounds first, so that there is
// always one to fall back on.
func (b *search) best(dom []uint64, c component, rounds int) found {
	first := b.improve(dom, c, b.greedy(dom, c), rounds)
	f := b.split(dom, c.vars, first.value)
	if f.value < never {
		return f
	}
	first.bound = min(first.value, f.bound)
	return first
}

// with is the best of a component with one variable fixed.
func (b *search) with(dom []uint64, c component, v, value int) found {
	fixed := slices.Clone(dom)
	fixed[v] = 1 << value
	if !b.net.propagate(fixed, []int{v}) {
		return found{value: never, bound: never}
	}
	b.left = max(b.left, b.lim.nodes/50) // each of the side questions gets a share of its own
	return b.best(fixed, c, 1)
}

// settle breaks ties among the best choices where the search proved them: the lowest value of each variable in order.
func (b *search) settle(c component, f found) found {
	if f.bound < f.value || b.ask.ties == 0 {
		return f
	}
	dom := slices.Clone(b.dom)
	b.stop = b.spent + b.lim.work/10
	for _, v := range c.vars {
		if v >= b.ask.ties {
			continue
		}
		for _, k := range valuesOf(dom[v]) {
			if b.out.least[v] != nil && b.out.least[v][k] != 0 {
				continue
			}
			if f.assign[v] == k {
				dom[v] = 1 << k
				break
			}
			if g := b.with(dom, c, v, k); g.value == f.value {
				g.bound = f.bound
				f = g
				dom[v] = 1 << k
				break
			}
		}
		b.net.propagate(dom, []int{v})
	}
	return f
}

// split solves the components of what is left of these variables. It looks only for choices under limit.
func (b *search) split(dom []uint64, among []int, limit int64) found {
	f := found{value: b.net.base(dom, among), assign: make(map[int]int, len(among))}
	for _, v := range among {
		f.assign[v] = bits.TrailingZeros64(dom[v])
	}
	f.bound = f.value
	var wide []component
	var lows []int64
	for _, c := range b.net.components(dom, among) {
		t, ok := newTree(b.net, dom, c, b.lim.width, b.lim.cells)
		b.spent += perVariable*len(c.vars) + t.cells()
		if !ok {
			low := b.relax.lower(dom, c)
			b.spent += b.relax.cells
			wide, lows = append(wide, c), append(lows, low)
			f.bound = min(never, f.bound+low)
			continue
		}
		b.out.width = max(b.out.width, t.width)
		value := t.sumUp()
		if value >= never {
			return found{value: never, bound: never}
		}
		f.value += value
		f.bound = min(never, f.bound+value)
		b.read(t, f.assign)
	}
	for i, c := range wide {
		if f.bound >= limit {
			return found{value: never, bound: f.bound}
		}
		g := b.component(dom, c, limit-(f.bound-lows[i]), lows[i])
		f.bound = min(never, f.bound-lows[i]+g.bound)
		if g.value >= never {
			return found{value: never, bound: f.bound}
		}
		f.value += g.value
		for v, k := range g.assign {
			f.assign[v] = k
		}
	}
	if f.value >= limit {
		return found{value: never, bound: f.bound}
	}
	return f
}

// read adds the choice of a tree.
func (b *search) read(t *tree, assign map[int]int) {
	out := make([]int, len(b.dom))
	t.assign(out)
	for _, v := range t.vars {
		assign[v] = out[v]
	}
}

// component branches on one variable of a wide component, whose lower bound is low.
func (b *search) component(dom []uint64, c component, limit, low int64) found {
	if b.left--; b.over() {
		return found{value: never, bound: low}
	}
	best := found{value: never, bound: never}
	v, values := b.pick(dom, c)
	for _, k := range values {
		child := slices.Clone(dom)
		child[v] = 1 << k
		if !b.net.propagate(child, []int{v}) {
			continue
		}
		f := b.split(child, c.vars, min(limit, best.value))
		best.bound = min(best.bound, f.bound)
		if f.value < best.value {
			best.value, best.assign = f.value, f.assign
		}
	}
	best.bound = max(best.bound, low)
	return best
}

// pick chooses the variable to branch on. If the component is narrow but for its any-of clauses, that is a step of
// one of those, the cheapest first and open first; else it is the variable that shares most clauses, its cheapest
// value first.
func (b *search) pick(dom []uint64, c component) (v int, values []int) {
	if v := b.alternative(dom, c); v >= 0 {
		return v, []int{1, 0}
	}
	degree := map[int]int{}
	var buf []literal
	for _, ci := range c.clauses {
		buf = b.net.clauses[ci].scope(dom, buf)
		for _, l := range buf {
			degree[l.v] += len(buf) - 1
		}
	}
	v = c.vars[0]
	for _, u := range c.vars {
		if degree[u] > degree[v] {
			v = u
		}
	}
	values = valuesOf(dom[v])
	slices.SortStableFunc(values, func(x, y int) int {
		return cmp.Compare(b.net.cost[v][x], b.net.cost[v][y])
	})
	return v, values
}

// alternative gives the cheapest step that is one of several in an any-of clause; -1 if leaving all those clauses out
// would not make the component narrow.
func (b *search) alternative(dom []uint64, c component) int {
	rest := component{vars: c.vars}
	v := -1
	var buf []literal
	for _, ci := range c.clauses {
		clause := b.net.clauses[ci]
		if !clause.anyOf {
			rest.clauses = append(rest.clauses, ci)
			continue
		}
		buf = clause.scope(dom, buf)
		for _, l := range buf {
			if l.mask == 2 && (v < 0 || b.net.cost[l.v][1] < b.net.cost[v][1]) {
				v = l.v
			}
		}
	}
	if v < 0 {
		return -1
	}
	local, size := locals(dom, c)
	if _, narrow := eliminate(neighbours(b.net, dom, rest, local), size, b.lim.width, b.lim.cells); !narrow {
		return -1
	}
	return v
}
