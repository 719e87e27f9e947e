package decide

import (
	"slices"

	"github.com/fettle-tools/fettle/core"
)

// What is spent under a cap, so that the answer does not hang on a clock.
const (
	cappedWork    = 1 << 24 // on all marginals: table cells filled
	mostAQuestion = 400     // on one marginal: networks solved
)

// underCap finds the least risk within the cap, and fills in the answer but for its blocks.
func (d *decision) underCap() error {
	least, err := d.within()
	switch {
	case err != nil || d.out.Choice != nil:
		return err
	case least >= never || least <= *d.sel.Cap:
		return d.none(least)
	}
	return core.Errorf(core.Invalid, "raise the cap, leave more parts as they are, or take back a pin",
		"nothing that can be chosen costs as little as the cap of %d minor units; the least is %d", *d.sel.Cap, least)
}

// within does what underCap does, but where there is no choice within the cap it leaves that of the answer nil. It
// gives what no money is under; never if there is no choice at all.
func (d *decision) within() (least int64, err error) {
	m := d.model
	if d.whole.dom == nil && !d.layOut() {
		return never, nil
	}
	risk, money, whole := d.risk, d.money, d.whole
	c := newCapped(d.ctx, m, risk, money, *d.sel.Cap-m.base, d.lim)
	low, err := c.least(whole)
	if err != nil {
		return 0, err
	}
	if least = min(low+m.base, never); c.best.f >= never {
		return least, nil
	}
	best := c.best
	if c.bound >= best.f && !c.polished && !c.late() {
		p := newCapped(d.ctx, m, money, risk, best.f, d.lim)
		p.best, p.left = point{best.g, best.f, best.assign}, p.left/4
		if _, err := p.least(whole); err != nil {
			return 0, err
		}
		best = point{p.best.g, p.best.f, p.best.assign}
	}
	d.take(best.assign)
	d.out.Value, d.out.Bound, d.out.Width = best.f, c.bound, c.width
	d.out.Proven = d.out.Bound >= d.out.Value
	d.out.Without = make([]int64, len(d.sel.Operations))
	for o, pays := range d.out.Operations {
		if pays {
			d.out.Without[o] = core.Infeasible
		}
	}
	return least, d.cappedMarginals(c, best, whole)
}

// layOut prepares what is the same under every cap. It reports false if there is no choice at all.
func (d *decision) layOut() bool {
	dom := slices.Clone(d.model.net.dom)
	if !d.model.net.propagate(dom, nil) {
		return false
	}
	laidOut, _ := newForest(d.model.net, dom, d.lim.wider())
	d.whole = region{dom, laidOut}
	d.risk, d.money = d.model.sums()
	return true
}

// sums splits the prices of a model's network into risk and money.
func (m *model) sums() (risk, money [][]int64) {
	for v, cost := range m.net.cost {
		r := make([]int64, len(cost))
		if v < len(m.parts) {
			for k := range cost {
				r[k] = m.at(v, k).Risk
			}
		}
		c := slices.Clone(cost)
		for k := range c {
			c[k] -= r[k]
		}
		risk, money = append(risk, r), append(money, c)
	}
	return risk, money
}

// cappedMarginals finds the least risk within the cap with each option of each part, by a search for each. The rows
// of the parts that the work allowed does not reach stay nil.
func (d *decision) cappedMarginals(c *capped, best point, whole region) error {
	if d.lim.bare || d.sel.Bare || whole.laidOut == nil {
		return nil
	}
	d.out.Marginals, d.out.AtLeast = make([][]int64, len(d.sel.Parts)), make([][]int64, len(d.sel.Parts))
	if err := d.atLeast(c, whole); err != nil {
		return err
	}
	work := cappedWork
	for v, p := range d.model.parts {
		row := slices.Repeat([]int64{core.Infeasible}, len(d.sel.Parts[p].Options))
		known := true
		for _, k := range valuesOf(whole.dom[v]) {
			x, sure := best.f, true
			if best.assign[v] != k {
				c.left = min(work, mostAQuestion*whole.laidOut.cells)
				work -= c.left
				var err error
				if x, sure, err = c.with(whole, v, k); err != nil {
					return err
				}
				work += c.left
			}
			known = known && (sure || x < never)
			if x < never {
				row[d.model.option[v][k]] = x
			}
		}
		if known {
			d.out.Marginals[p] = row
		}
	}
	return nil
}

// atLeast bounds what is risked with each option of each part, all at once: by the least weighted sums with it, at the weights that bound the whole best.
func (d *decision) atLeast(c *capped, whole region) error {
	c.left = mostAQuestion * whole.laidOut.cells
	within, _, err := c.weighted(whole, weights{0, 1}, false)
	if err != nil {
		return err
	}
	_, w, err := c.dual(whole, within)
	if err != nil {
		return err
	}
	_, sol, err := c.weighted(whole, w, true)
	if err != nil || sol.value >= never {
		return err
	}
	for v, p := range d.model.parts {
		row := slices.Repeat([]int64{core.Infeasible}, len(d.sel.Parts[p].Options))
		for _, k := range valuesOf(whole.dom[v]) {
			if x := sol.least[v][k]; x < never {
				row[d.model.option[v][k]] = max(c.under(x, w), d.out.Bound)
			}
		}
		d.out.AtLeast[p] = row
	}
	return nil
}

// with is the least f within most with one value fixed; never if none was found, and sure if that is proven.
func (c *capped) with(r region, v, value int) (f int64, sure bool, err error) {
	child := slices.Clone(r.dom)
	child[v] = 1 << value
	if !c.net.propagate(child, []int{v}) {
		return never, true, nil
	}
	if c.left <= 0 || c.late() {
		return never, false, nil
	}
	c.best = point{f: never}
	lowG, err := c.least(region{child, r.laidOut})
	return c.best.f, lowG > c.most || c.bound >= c.best.f, err
}
