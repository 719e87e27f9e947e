package decide

import (
	"context"
	"errors"
	"math/bits"
)

// limits hold the work back: no table wider or larger, no search longer.
type limits struct {
	width       int  // induced width over which a component is branched on
	cells       int  // of the tables of one component, together
	nodes       int  // of one search
	work        int  // of one search, in table cells, and as much again for the least sums
	bare        bool // leave out the marginals under a cap
	labels      int  // kept in one pass under a cap
	looks       int  // labels looked at under a cap
	looksAtOnce int  // of those, in one pass
	sweep       int  // cells that may be filled by taking every branch, before branch and bound
}

// wider is the limits under a cap, where tables are laid out once and shrink, so that only their cells count.
func (l limits) wider() limits {
	l.width += 8
	return l
}

// ask says what is wanted of a network beside the optimum.
type ask struct {
	ties  int            // variables below this one break ties in their order, lowest value first
	least func(int) bool // the variables whose least sums are wanted; nil: of none
}

// solution is what solving a network gives.
type solution struct {
	value  int64 // never if none was found
	bound  int64 // nothing is cheaper; never if there is none
	width  int   // of the widest tables used
	assign []int // the value of each variable
	// least holds for each variable asked for, and each of its values, the least sum with it; never if there is none.
	least [][]int64
	exact bool // least holds the least sums themselves, not sums that may be undercut
}

// solver is one run over one network.
type solver struct {
	ctx context.Context
	net *network
	dom []uint64
	lim limits
	ask ask
	out solution

	sums []int64 // slab of out.least
}

// solve finds the optimum of a network. Its components are solved one by one: by tables where the induced width
// allows, else by branching. A deadline only loosens the bound; the error is that of a context cancelled otherwise.
func solve(ctx context.Context, n *network, l limits, a ask) (solution, error) {
	s := solver{ctx: ctx, net: n, dom: append([]uint64(nil), n.dom...), lim: l, ask: a}
	s.out.assign = make([]int, len(s.dom))
	s.out.least = make([][]int64, len(s.dom))
	s.out.exact = true
	if !n.propagate(s.dom, nil) {
		return solution{value: never, bound: never}, nil
	}
	every := make([]int, len(s.dom))
	for v := range every {
		every[v] = v
		s.out.assign[v] = bits.TrailingZeros64(s.dom[v])
	}
	s.out.value = n.base(s.dom, every)
	s.out.bound = s.out.value
	for _, c := range n.components(s.dom, every) {
		if errors.Is(ctx.Err(), context.Canceled) {
			return s.out, ctx.Err()
		}
		value, bound := s.component(c)
		if value >= never {
			return solution{value: never, bound: bound}, nil
		}
		s.out.value += value
		s.out.bound += bound
	}
	s.complete()
	return s.out, nil
}

// component solves one component, notes its choice and, of the variables asked for, how much more than its optimum
// each value costs.
func (s *solver) component(c component) (value, bound int64) {
	t, ok := newTree(s.net, s.dom, c, s.lim.width, s.lim.cells)
	if !ok {
		return s.branch(c)
	}
	s.out.width = max(s.out.width, t.width)
	value = t.sumUp()
	if value >= never {
		return never, never
	}
	if s.ask.least != nil {
		marginals := t.marginals()
		var ordered []int
		for i, v := range t.vars {
			if v < s.ask.ties {
				ordered = append(ordered, i)
			}
			if s.ask.least(v) {
				s.note(v, t.values[i], marginals[i], value)
			}
		}
		t.settle(ordered, marginals)
	}
	t.assign(s.out.assign)
	return value, value
}

// note keeps how much more than the component's optimum each value of a variable costs.
func (s *solver) note(v int, values []int, sums []int64, optimum int64) {
	row := s.absent(v)
	for k, x := range sums {
		if x < never {
			row[values[k]] = x - optimum
		}
	}
	s.out.least[v] = row
}

// absent is a row that no value reaches.
func (s *solver) absent(v int) []int64 {
	row := room(&s.sums, len(s.net.cost[v]))[:len(s.net.cost[v])]
	for k := range row {
		row[k] = never
	}
	return row
}

// complete turns the differences noted into sums of the whole network, and fills the rows of the variables that
// never had a choice.
func (s *solver) complete() {
	if s.ask.least == nil {
		return
	}
	for v := range s.out.least {
		if !s.ask.least(v) {
			continue
		}
		if s.out.least[v] == nil {
			s.out.least[v] = s.absent(v)
			s.out.least[v][s.out.assign[v]] = 0
		}
		for k, x := range s.out.least[v] {
			if x < never {
				s.out.least[v][k] = s.out.value + x
			}
		}
	}
}
