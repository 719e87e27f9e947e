package decide

import (
	"context"
	"math"
	"math/bits"
)

// What the relaxation of one component may take: rounds of the method, and after how many it looks where it stands.
const (
	roundsAtOnce = 32
	mostRounds   = 64 * roundsAtOnce
	laterRounds  = 12 * roundsAtOnce // where there are prices to begin with
)

// linear is the linear relaxation of a network: every variable is a mixture of its values, every clause holds where the
// shares of what makes it true add up to 1. A price for each clause, however it was come by, gives a sum that no choice
// is under; good prices come from the primal-dual hybrid gradient method with restarts (Applegate and others, "Practical
// large-scale linear programming using primal-dual hybrid gradient", 2021). Shares and prices are kept as a start for
// the next component of the same network.
type linear struct {
	net    *network
	price  []float64   // by clause
	share  [][]float64 // by variable and value
	weight float64     // of prices against shares; 0: nothing is known yet
	work   int         // of the last run, in table cells
}

func newLinear(n *network) *linear {
	l := &linear{net: n, price: make([]float64, len(n.clauses)), share: make([][]float64, len(n.cost))}
	for v := range n.cost {
		l.share[v] = make([]float64, len(n.cost[v]))
	}
	return l
}

// columns is a component laid out for the relaxation, a column for each value of each variable.
type columns struct {
	vars []int
	from []int32   // by variable: its first column, and the end
	is   []int32   // by column: the value
	cost []float64 // by column
	row  []int32   // by clause: its first entry, and the end
	cols []int32   // the entries by clause: columns that make it true
	into []int32   // by column: its first entry, and the end
	rows []int32   // the entries by column: clauses
}

func (n *network) columns(dom []uint64, c component) *columns {
	l := &columns{vars: c.vars, from: make([]int32, 0, len(c.vars)+1), row: make([]int32, 0, len(c.clauses)+1), cols: make([]int32, 0, 4*len(c.clauses))}
	first := make([]int32, len(dom))
	for _, v := range c.vars {
		first[v] = int32(len(l.cost))
		l.from = append(l.from, first[v])
		for m := dom[v]; m != 0; m &= m - 1 {
			k := bits.TrailingZeros64(m)
			l.is, l.cost = append(l.is, int32(k)), append(l.cost, float64(n.cost[v][k]))
		}
	}
	l.from = append(l.from, int32(len(l.cost)))
	l.into = make([]int32, len(l.cost)+1)
	for _, ci := range c.clauses {
		l.row = append(l.row, int32(len(l.cols)))
		for _, t := range n.clauses[ci].lits {
			for m := dom[t.v] & t.mask; m != 0; m &= m - 1 {
				col := first[t.v] + int32(bits.OnesCount64(dom[t.v]&(m&-m-1)))
				l.cols = append(l.cols, col)
				l.into[col+1]++
			}
		}
	}
	l.row = append(l.row, int32(len(l.cols)))
	for j := range l.cost {
		l.into[j+1] += l.into[j]
	}
	l.rows = make([]int32, len(l.cols))
	next := append([]int32(nil), l.into...)
	for r := range len(l.row) - 1 {
		for _, j := range l.cols[l.row[r]:l.row[r+1]] {
			l.rows[next[j]] = int32(r)
			next[j]++
		}
	}
	return l
}

// reduced is what is left of the cost of a column when its clauses have paid their prices.
func (l *columns) reduced(j int32, y []float64) float64 {
	c := l.cost[j]
	for _, r := range l.rows[l.into[j]:l.into[j+1]] {
		c -= y[r]
	}
	return c
}

// lacks is how much of a clause the shares leave open; under 0 where they add up to more.
func (l *columns) lacks(r int, x []float64) float64 {
	s := 1.0
	for _, j := range l.cols[l.row[r]:l.row[r+1]] {
		s -= x[j]
	}
	return s
}

// stands says where shares and prices stand: the sum that no choice is under, and how far they are from agreeing.
func (l *columns) stands(at position, weight float64) (low, apart float64) {
	var cost, open float64
	for r, p := range at.y {
		low += p
		if s := l.lacks(r, at.x); s > 0 {
			open += s * s
		}
	}
	for i := range l.vars {
		least := math.Inf(1)
		for j := l.from[i]; j < l.from[i+1]; j++ {
			cost += l.cost[j] * at.x[j]
			least = min(least, l.reduced(j, at.y))
		}
		low += least
	}
	return low, weight*math.Sqrt(open) + math.Abs(cost-low)
}

// onSimplex moves numbers to the nearest that are 0 or more and add up to 1.
func onSimplex(x []float64) {
	if len(x) == 2 {
		a := min(1, max(0, (x[0]-x[1]+1)/2))
		x[0], x[1] = a, 1-a
		return
	}
	var sorted [64]float64
	n := copy(sorted[:], x)
	for i := 1; i < n; i++ {
		for j := i; j > 0 && sorted[j] > sorted[j-1]; j-- {
			sorted[j], sorted[j-1] = sorted[j-1], sorted[j]
		}
	}
	var sum, over float64
	for i := range n {
		sum += sorted[i]
		if u := (sum - 1) / float64(i+1); sorted[i] > u {
			over = u
		}
	}
	for i := range x {
		x[i] = max(0, x[i]-over)
	}
}

// steps are how far a share and a price move at once (Pock and Chambolle, "Diagonal preconditioning for first order
// primal-dual algorithms", 2011). All shares of a variable move alike, so that they stay on their simplex.
func (l *columns) steps() (ofShare, ofPrice []float64) {
	ofShare, ofPrice = make([]float64, len(l.vars)), make([]float64, len(l.row)-1)
	for i := range l.vars {
		most := int32(1)
		for j := l.from[i]; j < l.from[i+1]; j++ {
			most = max(most, l.into[j+1]-l.into[j])
		}
		ofShare[i] = 1 / float64(most)
	}
	for r := range ofPrice {
		ofPrice[r] = 1 / float64(max(1, l.row[r+1]-l.row[r]))
	}
	return ofShare, ofPrice
}

// relaxed is what the relaxation says of a component.
type relaxed struct {
	low   int64     // no choice is under it; never if there is none
	share []float64 // by column
	least []int64   // by column: no choice with it is under that
	*columns
}

// lower relaxes a component. It stops early once it is clear that nothing in it is under limit.
func (l *linear) lower(ctx context.Context, dom []uint64, c component, limit int64) relaxed {
	cols := l.net.columns(dom, c)
	at, most := cols.position(), laterRounds
	if l.weight == 0 {
		l.weight, most = cols.norm()/math.Sqrt(float64(len(c.clauses))), mostRounds
	}
	for i, v := range c.vars {
		own := at.x[cols.from[i]:cols.from[i+1]]
		for k := range own {
			own[k] = l.share[v][cols.is[int(cols.from[i])+k]]
		}
		onSimplex(own)
	}
	for r, ci := range c.clauses {
		at.y[r] = l.price[ci]
	}
	d := cols.descend(at, l.weight)
	d.run(ctx, most, float64(limit))
	l.weight, l.work = d.weight, (d.rounds+roundsAtOnce)*len(cols.cols)/8
	for i, v := range c.vars {
		for j := cols.from[i]; j < cols.from[i+1]; j++ {
			l.share[v][cols.is[j]] = at.x[j]
		}
	}
	for r, ci := range c.clauses {
		l.price[ci] = at.y[r]
	}
	out := relaxed{share: at.x, columns: cols}
	out.low, out.least = cols.exactly(at.y, l.net, dom)
	return out
}

// norm is the root of the sum of the squared costs.
func (l *columns) norm() float64 {
	var sum float64
	for _, c := range l.cost {
		sum += c * c
	}
	return max(1, math.Sqrt(sum))
}

// exactly gives the sum that no choice is under by these prices, and for each column the sum that no choice with it is
// under, in whole numbers: whatever the prices are, both hold.
func (l *columns) exactly(y []float64, n *network, dom []uint64) (low int64, least []int64) {
	var all int64
	for _, v := range l.vars {
		var most int64
		for m := dom[v]; m != 0; m &= m - 1 {
			most = max(most, n.cost[v][bits.TrailingZeros64(m)])
		}
		all = min(never, all+most)
	}
	finer := max(0, min(20, 61-bits.Len64(uint64(all))-bits.Len(uint(len(y)+len(l.vars)))))
	unit := math.Ldexp(1, finer)
	whole := make([]int64, len(y))
	for r, p := range y {
		whole[r] = int64(min(p, float64(all)) * unit)
		low += whole[r]
	}
	least = make([]int64, len(l.cost))
	for i, v := range l.vars {
		best := int64(math.MaxInt64)
		for j := l.from[i]; j < l.from[i+1]; j++ {
			least[j] = n.cost[v][l.is[j]] << finer
			for _, r := range l.rows[l.into[j]:l.into[j+1]] {
				least[j] -= whole[r]
			}
			best = min(best, least[j])
		}
		low += best
		for j := l.from[i]; j < l.from[i+1]; j++ {
			least[j] -= best
		}
	}
	up := int64(1)<<finer - 1
	for j := range least {
		least[j] = min(never, (low+least[j]+up)>>finer)
	}
	return min(never, (low+up)>>finer), least
}

// descent is one run of the method: now goes round the answer, mean comes nearer to it, and from time to time now begins
// again at the better of the two.
type descent struct {
	*columns
	now, mean, sum, begin position
	ofShare, ofPrice      []float64 // how far each moves at once
	over                  []float64 // scratch: shares, carried on as far again
	weight                float64
	rounds, since         int     // in all, and since the last beginning
	first, last           float64 // how far apart shares and prices were there, and when last looked at
}

// position is a share for each column and a price for each clause.
type position struct{ x, y []float64 }

func (l *columns) position() position {
	return position{make([]float64, len(l.cost)), make([]float64, len(l.row)-1)}
}

func (p position) set(q position) {
	copy(p.x, q.x)
	copy(p.y, q.y)
}

// descend starts at a position, which it moves.
func (l *columns) descend(from position, weight float64) *descent {
	d := &descent{columns: l, now: from, mean: l.position(), sum: l.position(), begin: l.position(), over: make([]float64, len(l.cost)), weight: weight,
		first: math.Inf(1), last: math.Inf(1)}
	d.ofShare, d.ofPrice = l.steps()
	d.begin.set(from)
	return d
}

// run improves shares and prices until they agree to a quarter of a unit, until nothing can be under limit, or for most
// rounds.
func (d *descent) run(ctx context.Context, most int, limit float64) {
	for {
		d.some()
		best := d.now
		low, apart := d.stands(d.now, d.weight)
		if l, a := d.stands(d.mean, d.weight); a < apart {
			best, low, apart = d.mean, l, a
		}
		done := apart < .25 || low >= limit || d.rounds >= most || ctx.Err() != nil
		if done || d.rests(apart) {
			d.restart(best, apart)
		}
		if done {
			return
		}
		d.last = apart
	}
}

// some takes the rounds between two looks.
func (d *descent) some() {
	for range roundsAtOnce {
		d.round()
		for j, x := range d.now.x {
			d.sum.x[j] += x
		}
		for r, y := range d.now.y {
			d.sum.y[r] += y
		}
	}
	d.rounds += roundsAtOnce
	d.since += roundsAtOnce
	for j, x := range d.sum.x {
		d.mean.x[j] = x / float64(d.since)
	}
	for r, y := range d.sum.y {
		d.mean.y[r] = y / float64(d.since)
	}
}

// round moves all shares once, then all prices.
func (d *descent) round() {
	x, y := d.now.x, d.now.y
	for i := range d.vars {
		a, b := d.from[i], d.from[i+1]
		t := d.ofShare[i] / d.weight
		for j := a; j < b; j++ {
			d.over[j] = x[j] - t*d.reduced(j, y)
		}
		onSimplex(d.over[a:b])
		for j := a; j < b; j++ {
			x[j], d.over[j] = d.over[j], 2*d.over[j]-x[j]
		}
	}
	for r := range y {
		y[r] = max(0, y[r]+d.ofPrice[r]*d.weight*d.lacks(r, d.over))
	}
}

// rests reports that it is time to begin again: much was gained, or enough and no more comes, or it was long ago.
func (d *descent) rests(apart float64) bool {
	return apart <= .2*d.first || apart <= .8*d.first && apart > d.last || d.rounds >= 8*roundsAtOnce && d.since >= d.rounds*36/100
}

// restart begins again at a position, and weighs prices against shares by how far both have moved.
func (d *descent) restart(at position, apart float64) {
	d.now.set(at)
	if x, y := distance(at.x, d.begin.x), distance(at.y, d.begin.y); x > 1e-9 && y > 1e-9 {
		d.weight = math.Sqrt(d.weight * y / x)
	}
	d.begin.set(at)
	clear(d.sum.x)
	clear(d.sum.y)
	d.since, d.first, d.last = 0, apart, math.Inf(1)
}

// distance is how far two points lie from one another.
func distance(a, b []float64) float64 {
	var sum float64
	for i := range a {
		sum += (a[i] - b[i]) * (a[i] - b[i])
	}
	return math.Sqrt(sum)
}
