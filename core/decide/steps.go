package decide

import (
	"math/bits"
	"slices"

	"github.com/fettle-tools/fettle/core"
)

// access is the strip plan of a Selection, with what follows from what.
type access struct {
	steps []core.SelectStep
	above [][]uint64 // by step: every step that its all-of predecessors lead to, as bits
	words []uint64   // slab of above
}

// newAccess closes the all-of predecessors. Steps must have been checked: no step precedes itself.
func newAccess(steps []core.SelectStep) *access {
	a := &access{steps: steps, above: make([][]uint64, len(steps))}
	for i := range steps {
		a.close(i)
	}
	return a
}

func (a *access) close(i int) []uint64 {
	if a.above[i] != nil {
		return a.above[i]
	}
	words := (len(a.steps) + 63) / 64
	set := room(&a.words, words)[:words]
	for _, p := range a.steps[i].AllOf {
		for w, x := range a.close(p) {
			set[w] |= x
		}
		set[p/64] |= 1 << (p % 64)
	}
	a.above[i] = set
	return set
}

// follows reports that p must be open whenever i is.
func (a *access) follows(i, p int) bool { return a.above[i][p/64]&(1<<(p%64)) != 0 }

// reduce puts into buf the steps of a list that are neither open already nor led to by another of the list.
func (a *access) reduce(list []int, open []bool, buf []int) []int {
	kept := buf[:0]
	for _, x := range list {
		if open[x] || slices.Contains(kept, x) {
			continue
		}
		if !slices.ContainsFunc(list, func(y int) bool { return a.follows(y, x) }) {
			kept = append(kept, x)
		}
	}
	return kept
}

// extend opens a step and everything that must be open with it: all-of predecessors, and any-of clauses of one.
func (a *access) extend(open []bool, i int) {
	if open[i] {
		return
	}
	open[i] = true
	for w, x := range a.above[i] {
		for ; x != 0; x &= x - 1 {
			a.extend(open, w*64+bits.TrailingZeros64(x))
		}
	}
	for _, clause := range a.steps[i].AnyOf {
		if len(clause) == 1 {
			a.extend(open, clause[0])
		}
	}
}

// model puts into a network the steps that the wanted ones can lead to, as variables that cost what opening costs.
// Those open already have none: of them only the any-of clauses that nothing open satisfies yet. It gives the
// variable of each step; -1 for none.
func (a *access) model(n *network, wanted []int, open []bool) []int {
	of := slices.Repeat([]int{-1}, len(a.steps))
	var queue []int
	reach := func(list []int) {
		for _, x := range list {
			if of[x] < 0 && !open[x] {
				of[x] = n.variable(0, a.steps[x].Cost)
				queue = append(queue, x)
			}
		}
	}
	for i := range a.steps {
		if open[i] {
			for _, clause := range a.steps[i].AnyOf {
				if !holds(clause, open) {
					reach(clause)
				}
			}
		}
	}
	reach(wanted)
	for len(queue) > 0 {
		x := queue[0]
		queue = queue[1:]
		reach(a.steps[x].AllOf)
		for _, clause := range a.steps[x].AnyOf {
			if !holds(clause, open) {
				reach(clause)
			}
		}
	}
	a.bind(n, of, open)
	return of
}

// bind adds the clauses between the steps that have variables.
func (a *access) bind(n *network, of []int, open []bool) {
	var buf []int
	for i, step := range a.steps {
		if of[i] >= 0 {
			buf = a.reduce(step.AllOf, open, buf)
			for _, p := range buf {
				n.require(false, isNot(of[i]), is(of[p]))
			}
		}
		for _, clause := range step.AnyOf {
			led := slices.ContainsFunc(clause, func(p int) bool { return a.follows(i, p) })
			if led || holds(clause, open) || of[i] < 0 && !open[i] {
				continue
			}
			var lits []literal
			if of[i] >= 0 {
				lits = append(lits, isNot(of[i]))
			}
			for _, p := range clause {
				lits = append(lits, is(of[p]))
			}
			n.require(true, lits...)
		}
	}
}

// holds reports that one of the steps is open.
func holds(clause []int, open []bool) bool {
	return slices.ContainsFunc(clause, func(x int) bool { return open[x] })
}

// opened closes the wanted steps under what each needs: all-of predecessors, and for an any-of clause that nothing
// open satisfies the first of it that ready allows. It writes into open.
func (a *access) opened(open []bool, wanted []int, ready func(step int) bool) {
	for _, x := range wanted {
		a.extend(open, x)
	}
	for again := true; again; {
		again = false
		for i, step := range a.steps {
			if !open[i] {
				continue
			}
			for _, clause := range step.AnyOf {
				if holds(clause, open) {
					continue
				}
				if k := slices.IndexFunc(clause, ready); k >= 0 {
					a.extend(open, clause[k])
					again = true
				}
			}
		}
	}
}
