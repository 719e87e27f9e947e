package decide

import (
	"cmp"
	"context"
	"errors"
	"math"
	"math/bits"
	"slices"
)

// capped seeks the least of one sum of a network while another stays within most. Weighting both together gives a
// lower bound (Lagrangian relaxation; Geoffrion 1974); from the weights where that is best a pass of labels over what
// it leaves open completes the proof, and where there are too many labels, branching on remedies.
type capped struct {
	ctx   context.Context
	net   *network
	f, g  [][]int64 // the sum sought and the sum capped, by variable and value
	most  int64
	lim   limits
	parts int // variables below it are remedies: the ones to branch on

	top      [2]int64 // the most that f and g can come to
	bound    int64    // no f is under it
	best     point    // the best choice within most so far
	polished bool     // no choice with the f of best has less g
	nodes    int      // branchings still allowed
	left     int      // cells that may still be filled
	looks    int      // labels that may still be looked at
	width    int      // of the widest tables used
}

// region is what is left of a network somewhere in a search: the values allowed, and the tables over them or over
// more; nil if some would be too wide.
type region struct {
	dom     []uint64
	laidOut *forest
}

// searches is how many times the work of one search may be done under a cap, since it solves many networks.
const searches = 8

// wideSolves is how many networks are solved where some component is too wide for tables, and by how much each
// search is shortened.
const wideSolves = 60

// point is a choice with both its sums.
type point struct {
	f, g   int64
	assign []int
}

// weights say how much each unit of f and of g counts.
type weights struct{ f, g int64 }

func (w weights) of(p point) int64 { return w.f*p.f + w.g*p.g }

// newCapped prepares a search over the network of a model.
func newCapped(ctx context.Context, m *model, f, g [][]int64, most int64, lim limits) *capped {
	c := &capped{ctx: ctx, net: m.net, f: f, g: g, parts: len(m.parts), lim: lim, best: point{f: never}}
	for v := range f {
		c.top[0] += slices.Max(f[v])
		c.top[1] += slices.Max(g[v])
	}
	c.most = min(most, c.top[1])
	c.nodes, c.left, c.looks = lim.nodes, searches*lim.work, lim.looks
	return c
}

// over reports that what was allowed is used up.
func (c *capped) over() bool {
	return c.nodes <= 0 || c.left <= 0 || c.late()
}

// late reports that the time allowed is over.
func (c *capped) late() bool { return errors.Is(c.ctx.Err(), context.DeadlineExceeded) }

// priced is the network over dom at the weighted prices.
func (c *capped) priced(dom []uint64, w weights) *network {
	n := network{cost: make([][]int64, len(c.f)), dom: dom, clauses: c.net.clauses, uses: c.net.uses}
	values := 0
	for v := range c.f {
		values += len(c.f[v])
	}
	all := make([]int64, values)
	for v := range c.f {
		cost := all[:len(c.f[v]):len(c.f[v])]
		all = all[len(cost):]
		for k := range cost {
			cost[k] = w.f*c.f[v][k] + w.g*c.g[v][k]
		}
		n.cost[v] = cost
	}
	return &n
}

// weighted solves for the weighted sum over a region. With rows it also gives the least sum with each value.
func (c *capped) weighted(r region, w weights, rows bool) (point, solution, error) {
	var wanted ask
	if rows {
		wanted.least = func(int) bool { return true }
	}
	sol, err := c.solve(r, c.priced(r.dom, w), wanted)
	c.width = max(c.width, sol.width)
	p := point{f: never, g: never}
	if err == nil && sol.value < never {
		p = c.sums(sol.assign)
		c.offer(p)
	}
	return p, sol, err
}

// sums adds a choice up.
func (c *capped) sums(assign []int) point {
	p := point{assign: assign}
	for v, k := range assign {
		p.f += c.f[v][k]
		p.g += c.g[v][k]
	}
	return p
}

// solve goes by the layout where there is one; else each network must be searched: short searches, and few.
func (c *capped) solve(r region, n *network, w ask) (solution, error) {
	if r.laidOut == nil {
		lim := c.lim
		lim.nodes = min(lim.nodes, wideSolves)
		lim.work, lim.sweep = lim.work/wideSolves, lim.sweep/wideSolves
		c.left -= searches * lim.work
		return solve(c.ctx, n, lim, w)
	}
	c.left -= r.laidOut.cells
	if err := c.ctx.Err(); errors.Is(err, context.Canceled) {
		return solution{}, err
	}
	return r.laidOut.solve(n, w.least), nil
}

// offer keeps a choice that is within most and better than the best: less of f, then of g.
func (c *capped) offer(p point) {
	if p.g <= c.most && (p.f < c.best.f || p.f == c.best.f && p.g < c.best.g) {
		c.best = p
	}
}

// fit scales weights down, each at least 1, until sums under them stay exact.
func (c *capped) fit(a, b int64) weights {
	for float64(a)*float64(c.top[0])+float64(b)*float64(c.top[1]) >= float64(never) && (a > 1 || b > 1) {
		a, b = max(1, a/2), max(1, b/2)
	}
	return weights{a, b}
}

// under is the bound on f that a weighted sum proves for every choice within most.
func (c *capped) under(sum int64, w weights) int64 {
	n := sum - w.g*c.most
	if n <= 0 {
		return -(-n / w.f)
	}
	return (n + w.f - 1) / w.f
}

// dual finds the weights of the best bound over a region, by the line through the nearest choices within and beyond
// the cap, and that bound. It needs within to be a choice within most.
func (c *capped) dual(r region, within point) (low int64, w weights, err error) {
	beyond, sol, err := c.weighted(r, weights{1, 0}, false)
	low, w = sol.bound, c.fit(1, 1)
	if err != nil || low >= c.best.f {
		return low, w, err
	}
	for range 40 {
		if err != nil || within.g > c.most || beyond.g <= c.most || within.f <= beyond.f || low >= c.best.f {
			break
		}
		try := c.fit(beyond.g-within.g, within.f-beyond.f)
		var p point
		if p, sol, err = c.weighted(r, try, false); err != nil {
			break
		}
		if x := c.under(sol.bound, try); x >= low {
			low, w = x, try
		}
		if p.f >= never || try.of(p) >= min(try.of(beyond), try.of(within)) {
			break
		}
		if p.g <= c.most {
			within = p
		} else {
			beyond = p
		}
	}
	return low, w, err
}

// branch searches a region, where nothing is under low, and gives what no f there is under. At the root it also seeks
// the least g at the best f.
func (c *capped) branch(r region, low int64, root bool) (int64, error) {
	if c.over() {
		return low, nil
	}
	c.nodes--
	within, sol, err := c.weighted(r, weights{0, 1}, false)
	if err != nil || sol.bound > c.most {
		return never, err
	}
	x, w, err := c.dual(r, within)
	low = max(low, x)
	if err != nil || within.g > c.most || low >= c.best.f && !(root && r.laidOut != nil) {
		return low, err
	}
	if r.laidOut != nil {
		var done bool
		if low, done, err = c.close(r, w, low); done || err != nil {
			c.polished = root && done
			return low, err
		}
	}
	dom := slices.Clone(r.dom)
	v, order := c.wide(r)
	if v < 0 {
		if _, sol, err = c.weighted(r, w, true); err != nil {
			return low, err
		}
		var ok bool
		v, order, ok = c.narrow(dom, sol, w)
		if ok && v < 0 {
			_, _, err = c.weighted(region{dom, r.laidOut}, weights{0, 1}, false) // the one choice left
		}
		if !ok || v < 0 {
			return c.best.f, err
		}
	}
	return c.each(dom, v, order, low, r.laidOut)
}

// each searches the region with each of these values of a variable.
func (c *capped) each(dom []uint64, v int, order []int, low int64, laidOut *forest) (int64, error) {
	least := c.best.f
	for _, k := range order {
		child := region{slices.Clone(dom), laidOut}
		child.dom[v] = 1 << k
		if !c.net.propagate(child.dom, []int{v}) {
			continue
		}
		if child.laidOut == nil {
			child.laidOut, _ = newForest(c.net, child.dom, c.lim.wider())
		}
		got, err := c.branch(child, low, false)
		if err != nil {
			return low, err
		}
		least = min(least, got)
	}
	return max(low, min(least, c.best.f)), nil
}

// fewSplits is after how many branchings a region that is too wide for tables must have become narrow.
const fewSplits = 14

// wide picks the variable to branch on where a region is only just too wide for tables, as branch and bound does, with
// its values in order; -1 if it is not.
func (c *capped) wide(r region) (v int, values []int) {
	if r.laidOut != nil {
		return -1, nil
	}
	v, values = -1, nil
	s := search{solver: &solver{ctx: c.ctx, net: c.priced(r.dom, weights{1, 1}), lim: c.lim.wider()}}
	every := make([]int, len(r.dom))
	for u := range every {
		every[u] = u
	}
	dom := slices.Clone(r.dom)
	for range fewSplits {
		split := false
		for _, part := range c.net.components(dom, every) {
			if _, narrow := newTree(s.net, dom, part, s.lim.width, s.lim.cells); narrow {
				continue
			}
			u, order := s.pick(dom, part)
			if v < 0 {
				v, values = u, order
			}
			dom[u] = 1 << order[0]
			if !c.net.propagate(dom, []int{u}) {
				return v, values
			}
			split = true
		}
		if !split {
			return v, values
		}
	}
	return -1, nil
}

// narrow takes out of dom the remedies that cannot lead to less than the best, and picks the part whose remedies are
// closest, with its remedies in order of their sums; v is -1 if every part is settled.
func (c *capped) narrow(dom []uint64, sol solution, w weights) (v int, order []int, ok bool) {
	for u := range c.parts {
		for _, k := range valuesOf(dom[u]) {
			if x := sol.least[u][k]; sol.exact && (x >= never || c.under(x, w) >= c.best.f) {
				dom[u] &^= 1 << k
			}
		}
		if dom[u] == 0 {
			return -1, nil, false
		}
	}
	if !c.net.propagate(dom, nil) {
		return -1, nil, false
	}
	v = -1
	closest := int64(math.MaxInt64)
	for u := range c.parts {
		if bits.OnesCount64(dom[u]) < 2 {
			continue
		}
		values := valuesOf(dom[u])
		slices.SortStableFunc(values, func(x, y int) int { return cmp.Compare(sol.least[u][x], sol.least[u][y]) })
		if gap := sol.least[u][values[1]] - sol.least[u][values[0]]; gap < closest {
			v, order, closest = u, values, gap
		}
	}
	return v, order, true
}

// least runs the whole search over a region. It gives what no g is under.
func (c *capped) least(r region) (lowG int64, err error) {
	within, sol, err := c.weighted(r, weights{0, 1}, false)
	c.bound = never
	if err == nil && within.g <= c.most {
		c.bound, err = c.branch(r, 0, true)
	}
	return sol.bound, err
}
