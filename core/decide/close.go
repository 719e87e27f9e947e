package decide

import (
	"math/bits"
	"slices"
)

// close seeks the least of f over a region by labels. It looks for choices of at most a goal a little over low first,
// since the fewer values and labels may lead there the sooner it is done, and raises the goal while there are none. It
// gives what no f is under; done if that is the best, with the least g.
func (c *capped) close(r region, w weights, low int64) (_ int64, done bool, err error) {
	for step := (c.best.f - low) / firstGoal; ; step *= nextGoal {
		goal := min(c.best.f, low+max(0, step))
		found, whole, err := c.upTo(r, w, goal)
		switch {
		case err != nil || !whole:
			return low, false, err
		case found || goal == c.best.f:
			return c.best.f, true, nil
		}
		low, step = goal+1, max(1, step)
	}
}

// The first goal is this part of the gap over the bound, and each next so many times as far.
const (
	firstGoal = 16
	nextGoal  = 4
)

// upTo seeks the best choice of a region whose f is at most goal. The answer is whole if nothing was left out for
// want of room.
func (c *capped) upTo(r region, w weights, goal int64) (found, whole bool, err error) {
	r, w, ok, err := c.shrink(r, w, goal)
	if err != nil || !ok {
		return false, true, err
	}
	p, ok := c.newFrontier(r, w, goal)
	if !ok {
		return false, true, nil
	}
	s := p.run()
	c.looks -= c.lim.looksAtOnce - max(0, p.work)
	if p.full() || c.over() {
		return false, false, nil
	}
	if s.len() == 0 {
		return false, true, nil
	}
	assign := slices.Clone(r.laidOut.settled)
	p.read(s.from, assign)
	c.offer(c.sums(assign))
	return true, true, nil
}

// shrink takes out of a region the values that no choice within most and of at most goal takes, and lays out what is
// left with the best weights for it. It reports false if nothing is left.
func (c *capped) shrink(r region, w weights, goal int64) (_ region, _ weights, ok bool, err error) {
	for round := 0; ; round++ {
		dom := slices.Clone(r.dom)
		before := open(dom)
		var within point
		for _, x := range []struct {
			w    weights
			most int64
		}{{w, w.f*goal + w.g*c.most}, {weights{1, 0}, goal}, {weights{0, 1}, c.most}} {
			p, sol, err := c.weighted(r, x.w, true)
			if err != nil || sol.bound > x.most {
				return r, w, false, err
			}
			for v, row := range sol.least {
				for _, k := range valuesOf(dom[v]) {
					if row[k] > x.most {
						dom[v] &^= 1 << k
					}
				}
				if dom[v] == 0 {
					return r, w, false, nil
				}
			}
			within = p
		}
		if !c.net.propagate(dom, nil) {
			return r, w, false, nil
		}
		now := open(dom)
		if round > 0 && 8*now >= 7*before || c.over() {
			return r, w, true, nil
		}
		laidOut, narrow := newForest(c.net, dom, c.lim.wider())
		if !narrow { // the order of what is left may be a worse one
			return region{dom, r.laidOut}, w, true, nil
		}
		r = region{dom, laidOut}
		if within, _, err = c.weighted(r, weights{0, 1}, false); err != nil || within.g > c.most {
			return r, w, false, err
		}
		low, better, err := c.dual(r, within)
		if err != nil || low > goal {
			return r, w, false, err
		}
		w = better
	}
}

// open counts the values beyond one that variables have.
func open(dom []uint64) int {
	n := 0
	for _, d := range dom {
		n += bits.OnesCount64(d) - 1
	}
	return n
}
