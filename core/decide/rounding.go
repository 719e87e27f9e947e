package decide

import (
	"cmp"
	"math/bits"
	"slices"
)

// sure is the share from which on a value counts as chosen.
const sure = .999

// byShare lists the values of the i-th variable, the largest share first.
func (r relaxed) byShare(i int) []int {
	from, to := r.from[i], r.from[i+1]
	cols := make([]int32, 0, 4)
	for j := from; j < to; j++ {
		cols = append(cols, j)
	}
	slices.SortStableFunc(cols, func(a, b int32) int { return cmp.Compare(r.share[b], r.share[a]) })
	values := make([]int, len(cols))
	for k, j := range cols {
		values[k] = int(r.is[j])
	}
	return values
}

// rounded makes a choice of the shares: variable by variable, the surest first, its largest share that still can be, until
// what is left is narrow and can be solved. Its value is never where it runs into a corner.
func (b *search) rounded(dom []uint64, c component, r relaxed) found {
	type turn struct {
		i     int
		share float64
	}
	turns := make([]turn, len(r.vars))
	d := slices.Clone(dom)
	var all []int
	for i, v := range r.vars {
		turns[i] = turn{i, slices.Max(r.share[r.from[i]:r.from[i+1]])}
		if turns[i].share >= sure {
			d[v] = 1 << r.byShare(i)[0]
			all = append(all, v)
		}
	}
	slices.SortStableFunc(turns, func(x, y turn) int { return cmp.Compare(y.share, x.share) })
	if b.net.propagate(d, all) {
		turns = turns[len(all):]
		if f, ok := b.narrowed(d, c); ok {
			return f
		}
	} else {
		d = slices.Clone(dom)
	}
	step := max(1, len(turns)/8)
	for at, t := range turns {
		v := r.vars[t.i]
		b.spent += perVariable
		if bits.OnesCount64(d[v]) > 1 && !b.fix(&d, v, r.byShare(t.i)) {
			return found{value: never}
		}
		if at%step == step-1 {
			if f, ok := b.narrowed(d, c); ok {
				return f
			}
		}
	}
	f, _ := b.narrowed(d, c)
	return f
}

// fix gives a variable the first of these values that can be.
func (b *search) fix(dom *[]uint64, v int, values []int) bool {
	for _, k := range values {
		d := slices.Clone(*dom)
		if d[v]&(1<<k) == 0 {
			continue
		}
		d[v] = 1 << k
		if b.net.propagate(d, []int{v}) {
			*dom = d
			return true
		}
	}
	return false
}

// agrees is how much of the i-th variable the relaxation gives to a value, and a little more.
func (r relaxed) agrees(i, value int) float64 {
	for j := r.from[i]; j < r.from[i+1]; j++ {
		if int(r.is[j]) == value {
			return .1 + r.share[j]
		}
	}
	return .1
}
