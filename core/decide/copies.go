package decide

import (
	"math"
	"math/bits"
	"slices"
)

// copies is a component made narrow: a variable whose table would be too large is copied, and its copies, each with some
// of its clauses, may take different values. What the least of that is, no choice is under (Dechter and Rish,
// "Mini-buckets", 2003; Choi, Chavira and Darwiche, "Node splitting", 2007). How a variable's price is shared out among its
// copies decides how good that is; the relaxation says how.
type copies struct {
	*tree
	of     []int     // by node: the variable of the component, by its place in it
	parent []int     // by node: where its message goes; -1: nowhere
	scope  [][]int   // by node: places of the variables of its table, in the order in which they go, its own first
	holder []int     // by clause of the component: the node that its table is added to
	root   []int     // by node: the last that its messages reach
	hard   [][]int64 // by node: the table of the clauses alone
	own    [][]int64 // by node: the part of its variable's price, by value
}

// piece is a clause or a message that waits for its first variable to go.
type piece struct {
	scope  []int // by the order in which they go
	node   int   // where a message comes from; -1: a clause
	clause int
}

// newCopies lays a component out, no table of more cells than most but those of single clauses. place is the position of each
// of its variables in the order in which they go.
func newCopies(n *network, dom []uint64, c component, place []int, most int) *copies {
	order := make([]int, len(c.vars))
	size := make([]int, len(c.vars)) // by place
	for _, v := range c.vars {
		order[place[v]] = v
		size[place[v]] = bits.OnesCount64(dom[v])
	}
	p := &copies{holder: make([]int, len(c.clauses))}
	waiting := pieces(n, dom, c, place)
	for v := range order {
		first := len(p.scope)
		list := waiting[v]
		slices.SortStableFunc(list, func(a, b piece) int { return len(b.scope) - len(a.scope) })
		for _, x := range list {
			node := p.join(first, x.scope, size, most)
			if x.node >= 0 {
				p.parent[x.node] = node
			} else {
				p.holder[x.clause] = node
			}
		}
		for node := first; node < len(p.scope); node++ {
			p.of = append(p.of, v)
			if rest := p.scope[node][1:]; len(rest) > 0 {
				waiting[rest[0]] = append(waiting[rest[0]], piece{rest, node, -1})
			}
		}
	}
	p.layOut(n, dom, c, order, size)
	return p
}

// pieces are the clauses of a component, by the place of the variable of each that goes first.
func pieces(n *network, dom []uint64, c component, place []int) [][]piece {
	list := make([][]piece, len(c.vars))
	var buf []literal
	for i, ci := range c.clauses {
		buf = n.clauses[ci].scope(dom, buf)
		scope := make([]int, len(buf))
		for j, l := range buf {
			scope[j] = place[l.v]
		}
		slices.Sort(scope)
		list[scope[0]] = append(list[scope[0]], piece{scope, -1, i})
	}
	return list
}

// join puts a scope into the first node from the given one on whose table stays small, or into a new one.
func (p *copies) join(from int, scope, size []int, most int) int {
	for node := from; node < len(p.scope); node++ {
		both := append(slices.Clone(p.scope[node]), scope...)
		slices.Sort(both)
		both = slices.Compact(both)
		cells := 1
		for _, v := range both {
			cells *= size[v]
			if cells > most {
				break
			}
		}
		if cells <= most || len(both) == len(p.scope[node]) {
			p.scope[node] = both
			return node
		}
	}
	p.scope = append(p.scope, scope)
	p.parent = append(p.parent, -1)
	return len(p.scope) - 1
}

// layOut makes the tree of the nodes.
func (p *copies) layOut(n *network, dom []uint64, c component, order, size []int) {
	t := &tree{at: make([]int, len(p.scope))}
	e := elimination{cliques: make([][]int32, len(p.scope))}
	for node, v := range p.of {
		t.at[node] = node
		t.vars = append(t.vars, order[v])
		t.values = append(t.values, valuesOf(dom[order[v]]))
		t.size = append(t.size, size[v])
	}
	for node := len(p.scope) - 1; node >= 0; node-- {
		clique := make([]int32, 0, len(p.scope[node]))
		for _, v := range p.scope[node][1:] {
			clique = append(clique, int32(p.copy(node, v)))
		}
		e.cliques[node] = append(clique, int32(node))
		e.cells += cells(e.cliques[node], t.size, math.MaxInt)
	}
	t.layOut(e)
	p.tree = t
	var buf []literal
	place := make(map[int]int, len(order))
	for v, u := range order {
		place[u] = v
	}
	for i, ci := range c.clauses {
		buf = n.clauses[ci].scope(dom, buf)
		local := make([]int32, len(buf))
		for j, l := range buf {
			local[j] = int32(p.copy(p.holder[i], place[l.v]))
		}
		t.forbidAt(buf, local)
	}
	p.root = make([]int, len(p.of))
	for node := len(p.of) - 1; node >= 0; node-- {
		p.root[node] = node
		if to := p.parent[node]; to >= 0 {
			p.root[node] = p.root[to]
		}
		p.hard = append(p.hard, slices.Clone(t.buckets[node].table))
	}
	slices.Reverse(p.hard)
}

// copy is the node of the copy of a variable that a node's table is over.
func (p *copies) copy(node, v int) int {
	for p.of[node] != v {
		node = p.parent[node]
	}
	return node
}

// share prices the copies by what the relaxation says: of the price of a variable each copy has what its clauses pay, and an
// equal part of the rest. price is by clause of the component; it and the sums that follow are finer than the network's
// prices by copyFiner bits.
func (p *copies) share(n *network, dom []uint64, c component, price []int64) {
	rest := make([][]int64, len(c.vars)) // by place
	count := make([]int64, len(c.vars))
	place := make(map[int]int, len(c.vars))
	p.own = make([][]int64, len(p.of))
	for node, v := range p.of {
		p.own[node] = make([]int64, p.size[node])
		count[v]++
		if rest[v] == nil {
			place[p.vars[node]] = v
			for _, k := range p.values[node] {
				rest[v] = append(rest[v], n.cost[p.vars[node]][k]<<copyFiner)
			}
		}
	}
	var buf []literal
	for i, ci := range c.clauses {
		buf = n.clauses[ci].scope(dom, buf)
		for _, l := range buf {
			node := p.copy(p.holder[i], place[l.v])
			for k, value := range p.values[node] {
				if l.mask&(1<<value) != 0 {
					p.own[node][k] += price[i]
					rest[place[l.v]][k] -= price[i]
				}
			}
		}
	}
	for node, v := range p.of {
		for k := range p.own[node] {
			x := rest[v][k] / count[v]
			p.own[node][k] += x
			rest[v][k] -= x
		}
		count[v]--
	}
}

// solve gives the least sum of all copies, each as it likes, and for each node and value the least with it.
func (p *copies) solve() (low int64, least [][]int64) {
	for node := range p.of {
		table, own := p.buckets[node].table, p.own[node]
		for cell, x := range p.hard[node] {
			table[cell] = x + own[cell%len(own)]
		}
	}
	p.sumUp()
	for node, root := range p.root {
		if node == root {
			low = min(never, low+p.buckets[node].up[0])
		}
	}
	least = p.marginals()
	for node, row := range least {
		for k := range row {
			row[k] = min(never, row[k]+low-p.buckets[p.root[node]].up[0])
		}
	}
	return low, least
}

// agree moves price from where a value of a variable is dearer than it needs be to where another copy finds it too cheap, so
// that copies agree better the next time. It moves a third of the way, as many copies move at once. What is over limit
// is dear enough.
func (p *copies) agree(least [][]int64, limit int64) {
	for from := 0; from < len(p.of); {
		to := from + 1
		for to < len(p.of) && p.of[to] == p.of[from] {
			to++
		}
		for k := range p.own[from] {
			var sum, moved int64
			for node := from; node < to; node++ {
				sum += min(limit, least[node][k])
			}
			for node := from; node < to; node++ {
				x := (sum/int64(to-from) - min(limit, least[node][k])) / 3
				p.own[node][k] += x
				moved += x
			}
			p.own[from][k] -= moved
		}
		from = to
	}
}

// What a sharpening takes.
const (
	copyCells  = 1 << 10 // of a table, at most
	copyFiner  = 6       // bits by which sums over copies are finer than prices
	copyRounds = 8       // of agreement, at most
)

// sharpen raises the bounds of the relaxation by what its clauses say together.
func (b *search) sharpen(dom []uint64, c component, limit int64, r *relaxed) {
	const up = 1<<copyFiner - 1
	p := newCopies(b.net, dom, c, places(b.net, dom, c), copyCells)
	price := make([]int64, len(c.clauses))
	for i, ci := range c.clauses {
		price[i] = int64(min(b.relax.price[ci], float64(limit)) * (1 << copyFiner))
	}
	p.share(b.net, dom, c, price)
	column := make([]int32, len(p.of))
	at := make(map[int]int32, len(r.vars))
	for i, v := range r.vars {
		at[v] = r.from[i]
	}
	for node, v := range p.vars {
		column[node] = at[v]
	}
	limit = min(limit, never>>copyFiner)
	b.spent += 2 * p.cells()
	for range copyRounds {
		b.spent += 2 * p.cells()
		before := r.low
		low, least := p.solve()
		r.low = max(r.low, min(never, (low+up)>>copyFiner))
		for node, row := range least {
			for k, x := range row {
				j := column[node] + int32(k)
				r.least[j] = max(r.least[j], min(never, (x+up)>>copyFiner))
			}
		}
		if r.low >= limit || (r.low-before)*50 < limit-r.low {
			return
		}
		p.agree(least, limit<<copyFiner)
	}
}

// places gives each variable of a component its position in an order for copies: of least fill while that
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
