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
	relax *linear
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
	b := &search{solver: s, relax: newLinear(s.net), left: s.lim.nodes, cells: s.lim.sweep, stop: s.lim.work}
	f, ok := b.swept(c)
	if !ok {
		s.out.exact = false
		f = b.split(s.dom, c.vars, never, rounds)
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

// sweepWider is how much over the width of tables a component may be for a sweep.
const sweepWider = 8

// swept tries a sweep of the component.
func (b *search) swept(c component) (found, bool) {
	if b.ask.least == nil {
		return found{}, false
	}
	local, size := locals(b.dom, c)
	if _, ok := eliminate(neighbours(b.net, b.dom, c, local), size, b.lim.width+sweepWider, math.MaxInt); !ok {
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

// sideWork is which part of the work allowed to a search goes into its side questions, beside a quarter of what it took.
const sideWork = 64

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
	work := b.spent/4 + b.lim.work/sideWork
	share, last := work/max(1, questions), b.spent+work
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

// locals numbers the variables of a component and counts their values.
func locals(dom []uint64, c component) (local []int32, size []int) {
	local = make([]int32, len(dom))
	size = make([]int, len(c.vars))
	for i, v := range c.vars {
		local[v] = int32(i)
		size[i] = bits.OnesCount64(dom[v])
	}
	return local, size
}

// with is the best of a component with one variable fixed.
func (b *search) with(dom []uint64, c component, v, value int) found {
	fixed := slices.Clone(dom)
	fixed[v] = 1 << value
	if !b.net.propagate(fixed, []int{v}) {
		return found{value: never, bound: never}
	}
	b.left = max(b.left, b.lim.nodes/50) // each of the side questions gets a share of its own
	return b.split(fixed, c.vars, never, 1)
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

// split solves the components of what is left of these variables. It looks only for choices under limit, and improves the
// first that it finds so many rounds.
func (b *search) split(dom []uint64, among []int, limit int64, rounds int) found {
	f := found{value: b.net.base(dom, among), assign: make(map[int]int, len(among))}
	for _, v := range among {
		f.assign[v] = bits.TrailingZeros64(dom[v])
	}
	f.bound = f.value
	var wide []component
	for _, c := range b.net.components(dom, among) {
		t, ok := newTree(b.net, dom, c, b.lim.width, b.lim.cells)
		b.spent += perVariable*len(c.vars) + t.cells()
		if !ok {
			wide = append(wide, c)
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
	lows := make([]relaxed, len(wide))
	for i, c := range wide {
		lows[i] = b.relax.lower(b.ctx, dom, c, limit-f.bound)
		b.spent += b.relax.work
		f.bound = min(never, f.bound+lows[i].low)
	}
	for i, c := range wide {
		if f.bound >= limit {
			return found{value: never, bound: f.bound}
		}
		g := b.component(dom, c, limit-(f.bound-lows[i].low), lows[i], rounds)
		f.bound = min(never, f.bound-lows[i].low+g.bound)
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

// component solves a wide component of which the relaxation says r: it makes a choice of the shares and improves it so many
// rounds, drops the values that no better choice has, and branches on one variable where that is not enough.
func (b *search) component(dom []uint64, c component, limit int64, r relaxed, rounds int) found {
	best := found{value: never, bound: r.low}
	if r.low >= limit || limit < never && b.over() {
		return best
	}
	g := b.rounded(dom, c, r)
	if g.value >= never && limit >= never {
		g = b.greedy(dom, c)
	}
	if r.low < g.value {
		g = b.improve(dom, c, g, r, rounds)
	}
	if g.value < limit {
		limit, best = g.value, found{g.value, r.low, g.assign}
	}
	if b.left--; b.over() {
		return best
	}
	if r.low < limit {
		b.sharpen(dom, c, limit, &r)
	}
	fixed, dropped := b.without(dom, c, r, limit)
	if r.low >= limit || fixed == nil {
		best.bound = max(r.low, limit)
		return best
	}
	if dropped*20 >= len(r.share) {
		return best.or(b.split(fixed, c.vars, limit, 0), limit)
	}
	return best.or(b.each(fixed, c, r, limit), limit)
}

// each takes the values of the variable that the relaxation is least sure of one by one.
func (b *search) each(dom []uint64, c component, r relaxed, limit int64) found {
	best := found{value: never, bound: never}
	v, values := r.unsure()
	for _, k := range values {
		child := slices.Clone(dom)
		child[v] = 1 << k
		if dom[v]&(1<<k) == 0 || !b.net.propagate(child, []int{v}) {
			continue
		}
		f := b.split(child, c.vars, min(limit, best.value), 0)
		best.bound = min(best.bound, f.bound)
		if f.value < best.value {
			best.value, best.assign = f.value, f.assign
		}
	}
	return best
}

// or is the better of what was found and of what was found under a limit.
func (f found) or(g found, limit int64) found {
	bound := max(f.bound, min(limit, g.bound))
	if g.value < f.value {
		f = g
	}
	f.bound = bound
	return f
}

// without drops the values that no choice under limit has; nil if nothing is left.
func (b *search) without(dom []uint64, c component, r relaxed, limit int64) (left []uint64, dropped int) {
	left = slices.Clone(dom)
	var touched []int
	for i, v := range r.vars {
		for j := r.from[i]; j < r.from[i+1]; j++ {
			if r.least[j] >= limit {
				left[v] &^= 1 << r.is[j]
				dropped++
			}
		}
		switch {
		case left[v] == 0:
			return nil, dropped
		case left[v] != dom[v]:
			touched = append(touched, v)
		}
	}
	if len(touched) > 0 && !b.net.propagate(left, touched) {
		return nil, dropped
	}
	return left, dropped
}

// unsure chooses the variable to branch on, and the order of its values: the one that the relaxation is least sure of, its
// largest share first.
func (r relaxed) unsure() (v int, values []int) {
	most := math.Inf(1)
	at := 0
	for i := range r.vars {
		large := slices.Max(r.share[r.from[i]:r.from[i+1]])
		if large < most {
			most, at = large, i
		}
	}
	return r.vars[at], r.byShare(at)
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
