package decide

// outlook says of every cell of a forest's tables, under one set of prices, what the least sum of the whole network
// through it is: one pass up and one down.
type outlook struct {
	total   int64       // the optimum; never if there is none
	through [][][]int64 // by tree, bucket and cell
	up      [][][]int64 // by tree, bucket and row: the least of what hangs below, with the bucket's own variable
	value   []int64     // of each tree
}

// look makes the outlook under the prices and values of n, whose clauses are those laid out.
func (f *forest) look(n *network) outlook {
	o := outlook{}
	for _, v := range f.lone {
		o.total += n.cost[v][f.settled[v]]
	}
	for i, t := range f.trees {
		t.load(f.hard[i], n)
		value := t.sumUp()
		if value >= never {
			return outlook{total: never}
		}
		o.value = append(o.value, value)
		o.total += value
	}
	for i, t := range f.trees {
		through, up := make([][]int64, len(t.buckets)), make([][]int64, len(t.buckets))
		rest := o.total - o.value[i]
		t.descend(func(b int, belief []int64) {
			sums := make([]int64, len(belief))
			for cell, x := range belief {
				if sums[cell] = never; x < never {
					sums[cell] = x + rest
				}
			}
			through[b], up[b] = sums, append([]int64(nil), t.buckets[b].up...)
		})
		o.through, o.up = append(o.through, through), append(o.up, up)
	}
	return o
}
