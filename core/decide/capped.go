package decide

import (
	"context"
	"math"
	"math/bits"
	"slices"
)

// capped seeks the least of one sum of a network while another stays within most. Weighting both together gives a
// lower bound and, from the weights where it is best, branching on remedies completes the proof (Lagrangian
// relaxation; Geoffrion 1974).
type capped struct {
	ctx   context.Context
	net   *network
	f, g  [][]int64 // the sum sought and the sum capped, by variable and value
	most  int64
	lim   limits
	parts int // variables below it are remedies: the ones to branch on

	top    [2]int64 // the most that f and g can come to
	weight [2]int64 // of f and g where the bound was best
	bound  int64    // no f is under it
	best   point    // the best choice within most so far
	left   int      // nodes still allowed
	width  int      // of the widest tables used
}

// point is a choice with both its sums.
type point struct {
	f, g   int64
	assign []int
}

// newCapped prepares a search over the network of a model.
func newCapped(ctx context.Context, m *model, f, g [][]int64, most int64, lim limits) *capped {
	c := &capped{ctx: ctx, net: m.net, f: f, g: g, parts: len(m.parts), lim: lim, left: lim.nodes, best: point{f: never}}
	for v := range f {
		c.top[0] += slices.Max(f[v])
		c.top[1] += slices.Max(g[v])
	}
	c.most = min(most, c.top[1])
	return c
}

// weighted solves for a f + b g over dom. With rows it also gives the least sums of the remedies.
func (c *capped) weighted(dom []uint64, a, b int64, rows bool) (point, solution, error) {
	n := network{cost: make([][]int64, len(c.f)), dom: dom, clauses: c.net.clauses, uses: c.net.uses}
	for v := range c.f {
		n.cost[v] = make([]int64, len(c.f[v]))
		for k := range c.f[v] {
			n.cost[v][k] = a*c.f[v][k] + b*c.g[v][k]
		}
	}
	w := ask{}
	if rows {
		w = ask{ties: c.parts, least: func(v int) bool { return v < c.parts }}
	}
	sol, err := solve(c.ctx, &n, c.lim, w)
	c.width = max(c.width, sol.width)
	p := point{f: never, g: never}
	if err == nil && sol.value < never {
		p = point{assign: sol.assign}
		for v, k := range sol.assign {
			p.f += c.f[v][k]
			p.g += c.g[v][k]
		}
		c.offer(p)
	}
	return p, sol, err
}

// offer keeps a choice that is within most and better than the best: less of f, then of g.
func (c *capped) offer(p point) {
	if p.g <= c.most && (p.f < c.best.f || p.f == c.best.f && p.g < c.best.g) {
		c.best = p
	}
}

// fit scales weights down, each at least 1, until sums under them stay exact.
func (c *capped) fit(a, b int64) (int64, int64) {
	for float64(a)*float64(c.top[0])+float64(b)*float64(c.top[1]) >= float64(never) && (a > 1 || b > 1) {
		a, b = max(1, a/2), max(1, b/2)
	}
	return a, b
}

// under is the bound on f that a weighted sum proves for every choice within most.
func (c *capped) under(sum, a, b int64) int64 {
	n := sum - b*c.most
	if n <= 0 {
		return -(-n / a)
	}
	return (n + a - 1) / a
}

// dual finds the weights of the best bound, by the line through the nearest choices within and beyond the cap. It
// needs within to be a choice within most.
func (c *capped) dual(dom []uint64, within point) error {
	_, sol, err := c.weighted(dom, 1, 0, false)
	if err != nil {
		return err
	}
	c.bound = sol.bound
	c.weight = [2]int64{1, 1}
	a, b := c.fit(1<<40, 1)
	beyond, _, err := c.weighted(dom, a, b, false)
	if err != nil || beyond.g <= c.most {
		return err
	}
	for range 40 {
		if within.f <= beyond.f || c.best.f <= c.bound {
			return nil
		}
		a, b := c.fit(beyond.g-within.g, within.f-beyond.f)
		p, sol, err := c.weighted(dom, a, b, false)
		if err != nil {
			return err
		}
		if low := c.under(sol.bound, a, b); low >= c.bound {
			c.bound, c.weight = low, [2]int64{a, b}
		}
		if p.f >= never || a*p.f+b*p.g >= min(a*beyond.f+b*beyond.g, a*within.f+b*within.g) {
			return nil
		}
		if p.g <= c.most {
			within = p
		} else {
			beyond = p
		}
	}
	return nil
}

// branch completes the proof below dom and gives what no f there is under.
func (c *capped) branch(dom []uint64) (int64, error) {
	if c.left--; c.left < 0 || c.ctx.Err() == context.DeadlineExceeded {
		return c.bound, nil
	}
	a, b := c.weight[0], c.weight[1]
	_, sol, err := c.weighted(dom, a, b, true)
	if err != nil || sol.bound >= never {
		return never, err
	}
	low := max(c.bound, c.under(sol.bound, a, b))
	if low >= c.best.f {
		return low, nil
	}
	dom = slices.Clone(dom)
	v, order, ok := c.narrow(dom, sol)
	if !ok {
		return c.best.f, nil
	}
	if v < 0 {
		// Only access is open: f is settled, and g is least under the weight of g alone.
		p, sol, err := c.weighted(dom, 0, 1, false)
		if p.g <= c.most || sol.bound > c.most {
			return c.best.f, err
		}
		return low, err
	}
	least := c.best.f
	for _, k := range order {
		child := slices.Clone(dom)
		child[v] = 1 << k
		if !c.net.propagate(child, []int{v}) {
			continue
		}
		got, err := c.branch(child)
		if err != nil {
			return 0, err
		}
		least = min(least, got)
	}
	return max(low, min(least, c.best.f)), nil
}

// narrow takes out of dom the remedies that cannot lead to less than the best, and picks the part whose remedies are
// closest, with its remedies in order of their sums; v is -1 if every part is settled.
func (c *capped) narrow(dom []uint64, sol solution) (v int, order []int, ok bool) {
	a, b := c.weight[0], c.weight[1]
	for u := range c.parts {
		for _, k := range valuesOf(dom[u]) {
			if x := sol.least[u][k]; x >= never || c.under(x, a, b) >= c.best.f {
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
		slices.SortStableFunc(values, func(x, y int) int { return compareInt64(sol.least[u][x], sol.least[u][y]) })
		if gap := sol.least[u][values[1]] - sol.least[u][values[0]]; gap < closest {
			v, order, closest = u, values, gap
		}
	}
	return v, order, true
}

// least runs the whole search over dom. It gives what no g is under.
func (c *capped) least(dom []uint64) (lowG int64, err error) {
	within, sol, err := c.weighted(dom, 0, 1, false)
	if err != nil || within.g > c.most {
		c.bound = never
		return sol.bound, err
	}
	if err := c.dual(dom, within); err != nil {
		return 0, err
	}
	if c.bound < c.best.f {
		c.bound, err = c.branch(dom)
	}
	return sol.bound, err
}
