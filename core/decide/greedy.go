package decide

import (
	"math/bits"
	"slices"
)

// patience is how often a greedy choice may be taken back.
const patience = 2000

// greedy fixes the variables of a component one by one, remedies first, each at the value that adds least at once,
// and turns back where nothing is left. Its value is never if it gave up.
func (b *search) greedy(dom []uint64, c component) found {
	tries := patience
	full := b.dive(dom, c.vars, &tries)
	if full == nil {
		return found{value: never}
	}
	f := found{value: b.net.base(full, c.vars), assign: make(map[int]int, len(c.vars))}
	for _, v := range c.vars {
		f.assign[v] = bits.TrailingZeros64(full[v])
	}
	return f
}

// dive fixes the first open variable and goes on; nil if nothing can be completed within the tries left.
func (b *search) dive(dom []uint64, vars []int, tries *int) []uint64 {
	i := slices.IndexFunc(vars, func(v int) bool { return bits.OnesCount64(dom[v]) > 1 })
	if i < 0 {
		return dom
	}
	v := vars[i]
	type child struct {
		dom []uint64
		sum int64
	}
	var children []child
	for _, k := range valuesOf(dom[v]) {
		d := slices.Clone(dom)
		d[v] = 1 << k
		if b.net.propagate(d, []int{v}) {
			children = append(children, child{d, b.net.base(d, vars)})
		}
	}
	slices.SortStableFunc(children, func(x, y child) int { return compareInt64(x.sum, y.sum) })
	for _, ch := range children {
		if full := b.dive(ch.dom, vars[i:], tries); full != nil {
			// The earlier variables are fixed in dom already.
			return full
		}
		if *tries--; *tries < 0 {
			return nil
		}
	}
	return nil
}
