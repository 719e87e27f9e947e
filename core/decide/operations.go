package decide

import (
	"slices"

	"github.com/fettle-tools/fettle/core"
)

// closedIncludes gives for each operation every other that it makes unnecessary, whether or not the caller closed the
// lists already.
func closedIncludes(ops []core.SelectOperation) [][]int {
	out := make([][]int, len(ops))
	for i := range ops {
		seen := map[int]bool{i: true}
		queue := slices.Clone(ops[i].Includes)
		for len(queue) > 0 {
			o := queue[0]
			queue = queue[1:]
			if !seen[o] {
				seen[o] = true
				out[i] = append(out[i], o)
				queue = append(queue, ops[o].Includes...)
			}
		}
		slices.Sort(out[i])
	}
	return out
}

// paid tells which of the needed operations are paid: those that no other needed one includes.
func paid(includes [][]int, needed []bool) []bool {
	out := slices.Clone(needed)
	for p, yes := range needed {
		if yes {
			for _, o := range includes[p] {
				out[o] = false
			}
		}
	}
	return out
}

// play is an operation as some part of a model may need it.
type play struct {
	users     []int // variables of the parts, ascending
	includers []int // operations in play that make it unnecessary
	saves     int64 // what it makes free, at most
	linked    bool  // it includes one in play, or is included
}

// inPlay gathers what the options of a model say of each operation.
func (m *model) inPlay() []play {
	plays := make([]play, len(m.sel.Operations))
	var slab []int
	for i := range m.parts {
		for k := range m.option[i] {
			for _, o := range m.at(i, k).Operations {
				switch u := plays[o].users; {
				case u == nil:
					plays[o].users = append(room(&slab, 4), i)
				case u[len(u)-1] != i:
					plays[o].users = append(u, i)
				}
			}
		}
	}
	for p, list := range m.includes {
		for _, o := range list {
			if len(plays[p].users) > 0 && len(plays[o].users) > 0 {
				plays[o].includers = append(plays[o].includers, p)
				plays[p].saves += m.sel.Operations[o].Cost
				plays[o].linked, plays[p].linked = true, true
			}
		}
	}
	return plays
}

// addOperations makes an operation paid for the options that need it. One that a single part needs, and that has
// nothing to do with another, is simply part of the option's price.
func (m *model) addOperations() {
	m.opOf = slices.Repeat([]int{-1}, len(m.sel.Operations))
	plays := m.inPlay()
	for o, p := range plays {
		switch {
		case len(p.users) == 0:
		case len(p.users) == 1 && !p.linked:
			i := p.users[0]
			m.eachWith(i, o, func(k int) { m.net.cost[i][k] += m.sel.Operations[o].Cost })
		default:
			m.need(o, p)
		}
	}
	for o, p := range plays {
		if len(p.includers) > 0 {
			lits := []literal{isNot(m.opOf[o]), is(m.net.variable(0, m.sel.Operations[o].Cost))}
			for _, by := range p.includers {
				lits = append(lits, is(m.opOf[by]))
			}
			m.net.require(false, lits...)
		}
		if p.saves > m.sel.Operations[o].Cost {
			m.onlyIfNeeded(o, p.users)
		}
	}
}

// eachWith calls do for each value of a part's variable whose option needs an operation.
func (m *model) eachWith(variable, op int, do func(value int)) {
	for k := range m.option[variable] {
		if slices.Contains(m.at(variable, k).Operations, op) {
			do(k)
		}
	}
}

// need adds the variable "needed" of an operation. It carries the price unless something in play may include the
// operation; then a variable "paid" does.
func (m *model) need(o int, p play) {
	cost := m.sel.Operations[o].Cost
	if len(p.includers) > 0 {
		cost = 0
	}
	m.opOf[o] = m.net.variable(0, cost)
	for _, i := range p.users {
		without := all(len(m.option[i]))
		m.eachWith(i, o, func(k int) { without &^= 1 << k })
		m.net.require(false, literal{i, without}, is(m.opOf[o]))
	}
}

// onlyIfNeeded keeps an operation that is cheaper than what it includes from being taken for that alone: it is paid
// only when some remedy names it.
func (m *model) onlyIfNeeded(o int, users []int) {
	lits := []literal{isNot(m.opOf[o])}
	for _, i := range users {
		var with uint64
		m.eachWith(i, o, func(k int) { with |= 1 << k })
		lits = append(lits, literal{i, with})
	}
	m.net.require(false, lits...)
}
