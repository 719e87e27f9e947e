package decide

import (
	"slices"
)

// bucketCells is the most cells of a table in the lower bound, fewCells where there are very many of them.
const (
	bucketCells = 1 << 12
	fewCells    = 1 << 9
	manyVars    = 500
)

// factor is a table over some variables, row-major, each axis over the values left.
type factor struct {
	vars  []int // ascending by position, so the first is the next to go
	table []int64
}

// relaxation is a lower bound by mini-buckets: variables go one by one as in the exact tables, but where a table
// would be too large its factors are split into groups that are allowed to disagree (Dechter and Rish 2003). The
// groups first share out what they say of the variable, which loses less.
type relaxation struct {
	net   *network
	place []int // position of each variable in the order
	axis  [][]int
	most  int // cells of a table
	cells int // filled in the last run
}

// lower gives a sum that no choice of the component is under; never if there is none.
func (r *relaxation) lower(dom []uint64, c component) int64 {
	r.most, r.cells = bucketCells, 0
	if len(c.vars) > manyVars {
		r.most = fewCells
	}
	ordered := slices.Clone(c.vars)
	slices.SortFunc(ordered, func(a, b int) int { return r.place[a] - r.place[b] })
	r.axis = make([][]int, len(dom))
	waiting := make(map[int][]factor, len(ordered))
	put := func(f factor) { waiting[f.vars[0]] = append(waiting[f.vars[0]], f) }
	for _, v := range ordered {
		r.axis[v] = valuesOf(dom[v])
		table := make([]int64, len(r.axis[v]))
		for i, k := range r.axis[v] {
			table[i] = r.net.cost[v][k]
		}
		put(factor{[]int{v}, table})
	}
	var buf []literal
	for _, ci := range c.clauses {
		buf = r.net.clauses[ci].scope(dom, buf)
		put(r.clause(buf))
	}
	var sum int64
	for _, v := range ordered {
		for _, f := range r.project(v, r.groups(waiting[v])) {
			if len(f.vars) == 0 {
				sum = min(never, sum+f.table[0])
				continue
			}
			put(f)
		}
		delete(waiting, v)
	}
	return sum
}

// clause makes the table of a clause: never where no literal holds.
func (r *relaxation) clause(lits []literal) factor {
	lits = slices.Clone(lits)
	slices.SortFunc(lits, func(a, b literal) int { return r.place[a.v] - r.place[b.v] })
	f := factor{table: []int64{never}}
	for i := len(lits) - 1; i >= 0; i-- {
		l := lits[i]
		f.vars = slices.Insert(f.vars, 0, l.v)
		var table []int64
		for _, k := range r.axis[l.v] {
			if l.mask&(1<<k) != 0 {
				table = append(table, make([]int64, len(f.table))...)
			} else {
				table = append(table, f.table...)
			}
		}
		f.table = table
	}
	return f
}

// groups joins factors, the widest first, into tables that stay within the most cells.
func (r *relaxation) groups(fs []factor) []factor {
	slices.SortStableFunc(fs, func(a, b factor) int { return len(b.vars) - len(a.vars) })
	var joined []factor
next:
	for _, f := range fs {
		for i := range joined {
			if vars, ok := r.union(joined[i].vars, f.vars); ok {
				joined[i] = r.add(r.spread(joined[i], vars), r.spread(f, vars))
				continue next
			}
		}
		joined = append(joined, f)
	}
	return joined
}

// union merges two scopes; ok is false if the table over them would be too large and either is not it already.
func (r *relaxation) union(a, b []int) (vars []int, ok bool) {
	vars = append(slices.Clone(a), b...)
	slices.SortFunc(vars, func(x, y int) int { return r.place[x] - r.place[y] })
	vars = slices.Compact(vars)
	n := 1
	for _, v := range vars {
		n *= len(r.axis[v])
		if n > r.most {
			return nil, len(vars) == len(a)
		}
	}
	return vars, true
}

// spread lays a factor out over a wider scope.
func (r *relaxation) spread(f factor, vars []int) factor {
	if len(vars) == len(f.vars) {
		return f
	}
	stride := make([]int, len(vars))
	step := 1
	for i := len(f.vars) - 1; i >= 0; i-- {
		stride[slices.Index(vars, f.vars[i])] = step
		step *= len(r.axis[f.vars[i]])
	}
	index := []int{0}
	for i := len(vars) - 1; i >= 0; i-- {
		n := len(index)
		for k := 1; k < len(r.axis[vars[i]]); k++ {
			for _, x := range index[:n] {
				index = append(index, x+k*stride[i])
			}
		}
	}
	table := make([]int64, len(index))
	for i, x := range index {
		table[i] = f.table[x]
	}
	r.cells += 2 * len(table)
	return factor{vars, table}
}

func (r *relaxation) add(a, b factor) factor {
	sum := factor{a.vars, make([]int64, len(a.table))}
	for i := range a.table {
		sum.table[i] = min(never, a.table[i]+b.table[i])
	}
	return sum
}

// project takes the variable out of each group after the groups have levelled what they say of it.
func (r *relaxation) project(v int, groups []factor) []factor {
	d := len(r.axis[v])
	r.level(d, groups)
	for i, g := range groups {
		rest := len(g.table) / d
		table := slices.Clone(g.table[:rest])
		for k := 1; k < d; k++ {
			for j := range table {
				table[j] = min(table[j], g.table[k*rest+j])
			}
		}
		groups[i] = factor{g.vars[1:], table}
	}
	return groups
}

// level moves price between groups so that the least sum of each value of the variable, their first axis, is the
// same in all. What rounding loses only lowers the bound.
func (r *relaxation) level(d int, groups []factor) {
	if len(groups) < 2 {
		return
	}
	for k := range d {
		lows := make([]int64, len(groups))
		var sum int64
		for i, g := range groups {
			rest := len(g.table) / d
			lows[i] = slices.Min(g.table[k*rest : (k+1)*rest])
			sum = min(never, sum+lows[i])
		}
		mean := sum / int64(len(groups))
		for i := range groups {
			g := &groups[i]
			rest := len(g.table) / d
			g.table = slices.Clone(g.table)
			for j := k * rest; j < (k+1)*rest; j++ {
				switch {
				case sum >= never:
					g.table[j] = never
				case g.table[j] < never:
					g.table[j] += mean - lows[i]
				}
			}
		}
	}
}
