package decide

import (
	"math/bits"
	"slices"
)

// never is the internal price of what may not be. Every real sum stays below it (see check), and a table cell may
// hold as many of them as it has contributions, so that they can be taken off again exactly.
const never = int64(1) << 46

// literal says that a variable takes one of the values in mask.
type literal struct {
	v    int
	mask uint64
}

// clause says that at least one of its literals holds.
type clause struct {
	lits  []literal
	anyOf bool // alternatives between steps: branched on first
}

// network is a choice put as variables with a price for each value, and clauses. Remedies, steps, operations and
// sets are all variables of it; a value is a bit of a mask, so a variable has at most 64.
type network struct {
	cost    [][]int64
	dom     []uint64 // values still allowed before anything is solved
	clauses []clause
	uses    [][]int32 // clauses that mention a variable
	prices  []int64   // slab of cost
	refs    []int32   // slab of uses
	words   []literal // slab of clauses
}

// newNetwork makes room for about so many variables and clauses.
func newNetwork(variables, clauses int) *network {
	return &network{cost: make([][]int64, 0, variables), dom: make([]uint64, 0, variables), uses: make([][]int32, 0, variables), clauses: make([]clause, 0, clauses)}
}

// variable adds a variable with the price of each of its values.
func (n *network) variable(cost ...int64) int {
	n.cost = append(n.cost, append(room(&n.prices, len(cost)), cost...))
	n.dom = append(n.dom, all(len(cost)))
	n.uses = append(n.uses, room(&n.refs, 4))
	return len(n.cost) - 1
}

// room takes room for so many from a slab, which is made anew where it has not got it.
func room[T any](slab *[]T, n int) []T {
	if len(*slab) < n {
		*slab = make([]T, max(n, 128))
	}
	taken := (*slab)[:0:n]
	*slab = (*slab)[n:]
	return taken
}

// all is the mask of the first k values.
func all(k int) uint64 {
	if k >= 64 {
		return ^uint64(0)
	}
	return uint64(1)<<k - 1
}

// is makes the literal that a two-valued variable is 1, isNot that it is 0.
func is(v int) literal    { return literal{v, 2} }
func isNot(v int) literal { return literal{v, 1} }

// longest is the most literals a clause keeps; a longer one is split by variables of its own, so that no table has
// to span it.
const longest = 4

// require adds a clause. Literals of one variable are merged; a long clause is split.
func (n *network) require(anyOf bool, lits ...literal) {
	merged := room(&n.words, len(lits))
next:
	for _, l := range lits {
		for i := range merged {
			if merged[i].v == l.v {
				merged[i].mask |= l.mask
				continue next
			}
		}
		merged = append(merged, l)
	}
	for len(merged) > longest {
		link := n.variable(0, 0)
		n.add(clause{append(append([]literal(nil), merged[:longest-1]...), is(link)), anyOf})
		merged = append([]literal{isNot(link)}, merged[longest-1:]...)
	}
	n.add(clause{merged, anyOf})
}

func (n *network) add(c clause) {
	for _, l := range c.lits {
		n.uses[l.v] = append(n.uses[l.v], int32(len(n.clauses)))
	}
	n.clauses = append(n.clauses, c)
}

// propagate narrows dom by every clause that has one literal left, until nothing moves. It starts from the clauses
// of the variables touched, or from all clauses if touched is nil. It reports false if some clause cannot hold.
func (n *network) propagate(dom []uint64, touched []int) bool {
	queued := make([]bool, len(n.clauses))
	var queue []int32
	push := func(v int) {
		for _, c := range n.uses[v] {
			if !queued[c] {
				queued[c] = true
				queue = append(queue, c)
			}
		}
	}
	if touched == nil {
		for c := range n.clauses {
			queued[c] = true
			queue = append(queue, int32(c))
		}
	}
	for _, v := range touched {
		push(v)
	}
	for len(queue) > 0 {
		c := queue[len(queue)-1]
		queue = queue[:len(queue)-1]
		queued[c] = false
		unit, ok := n.clauses[c].unit(dom)
		if !ok {
			return false
		}
		if unit != nil {
			dom[unit.v] &= unit.mask
			push(unit.v)
		}
	}
	for _, d := range dom {
		if d == 0 {
			return false
		}
	}
	return true
}

// unit gives the only literal left of a clause that is not yet satisfied; ok is false if none is left.
func (c clause) unit(dom []uint64) (unit *literal, ok bool) {
	left := 0
	for i := range c.lits {
		l := &c.lits[i]
		switch dom[l.v] & l.mask {
		case dom[l.v]:
			if dom[l.v] != 0 {
				return nil, true
			}
		case 0:
		default:
			left++
			unit = l
		}
	}
	if left == 1 {
		return unit, true
	}
	return nil, left > 1
}

// scope gives the literals of a clause that may still hold or fail; none if it holds already.
func (c clause) scope(dom []uint64, buf []literal) []literal {
	buf = buf[:0]
	for _, l := range c.lits {
		switch dom[l.v] & l.mask {
		case dom[l.v]:
			return buf[:0]
		case 0:
		default:
			buf = append(buf, l)
		}
	}
	return buf
}

// component is a part of a network that shares no open clause with the rest.
type component struct {
	vars    []int // with more than one value, ascending
	clauses []int32
}

// components splits what dom leaves open among these variables. Variables with one value are in none.
func (n *network) components(dom []uint64, among []int) []component {
	taken := make([]bool, len(n.clauses))
	in := make([]bool, len(dom))
	var list []component
	for _, start := range among {
		if in[start] || bits.OnesCount64(dom[start]) < 2 {
			continue
		}
		in[start] = true
		list = append(list, n.spread(dom, start, in, taken))
	}
	return list
}

// spread gathers the component of a variable, marking what it takes.
func (n *network) spread(dom []uint64, start int, in, taken []bool) component {
	comp := component{vars: []int{start}}
	var buf []literal
	for i := 0; i < len(comp.vars); i++ {
		v := comp.vars[i]
		for _, c := range n.uses[v] {
			if taken[c] {
				continue
			}
			buf = n.clauses[c].scope(dom, buf)
			if !slices.ContainsFunc(buf, func(l literal) bool { return l.v == v }) {
				continue
			}
			taken[c] = true
			comp.clauses = append(comp.clauses, c)
			for _, l := range buf {
				if !in[l.v] {
					in[l.v] = true
					comp.vars = append(comp.vars, l.v)
				}
			}
		}
	}
	slices.Sort(comp.vars)
	slices.Sort(comp.clauses)
	return comp
}

// base is the price of the variables among these that have one value left.
func (n *network) base(dom []uint64, among []int) int64 {
	var sum int64
	for _, v := range among {
		if bits.OnesCount64(dom[v]) == 1 {
			sum += n.cost[v][bits.TrailingZeros64(dom[v])]
		}
	}
	return sum
}
