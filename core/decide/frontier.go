package decide

// frontier is a pass of labels up the tables of a forest: for each row of each table the choices below it that no
// other is as good as in both sums, of those that may still end within the bounds. What may is told by the outlooks
// on f, on g and on both weighted, which know the least of all the rest (labels as in resource-constrained shortest
// paths; Dumitrescu and Boland 2003).
type frontier struct {
	labels
	c          *capped
	w          weights
	on         *forest
	f, g, both outlook
	limit      bounds // on the whole choice
}

// newFrontier looks over a region for choices of at most goal. It reports false if there is none.
func (c *capped) newFrontier(r region, w weights, goal int64) (*frontier, bool) {
	p := &frontier{c: c, w: w, on: r.laidOut, limit: bounds{goal, c.most, w.f*goal + w.g*c.most}}
	p.labels.most, p.work = c.lim.labels, min(c.looks, c.lim.looksAtOnce)
	for _, x := range []struct {
		o    *outlook
		w    weights
		most int64
	}{{&p.both, w, p.limit.both}, {&p.g, weights{0, 1}, p.limit.g}, {&p.f, weights{1, 0}, p.limit.f}} {
		if *x.o = r.laidOut.look(c.priced(r.dom, x.w)); x.o.total > x.most {
			return nil, false
		}
	}
	return p, true
}

// run joins the labels of all trees.
func (p *frontier) run() span {
	base := point{}
	assign := p.on.settled
	for _, v := range p.on.lone {
		base.f += p.c.f[v][assign[v]]
		base.g += p.c.g[v][assign[v]]
	}
	whole := p.one(base.f, base.g, -1, 0)
	sums := bounds{base.f, base.g, p.w.of(base)}
	for i := range p.on.trees {
		s := p.tree(i)
		if p.full() {
			return span{}
		}
		sums.f += p.f.value[i]
		sums.g += p.g.value[i]
		sums.both += p.both.value[i]
		whole = p.join(whole, s, p.w, bounds{
			p.limit.f - p.f.total + sums.f, p.limit.g - p.g.total + sums.g, p.limit.both - p.both.total + sums.both})
		if p.full() {
			return span{}
		}
	}
	return whole
}

// tree gives the labels at the root of a tree.
func (p *frontier) tree(i int) span {
	t := p.on.trees[i]
	rows := make([][]span, len(t.buckets))
	for b := range t.buckets {
		rows[b] = p.bucket(i, b, rows)
		for _, child := range t.buckets[b].children {
			rows[child] = nil
		}
		if p.full() || p.c.ctx.Err() != nil {
			p.work = -1
			return span{}
		}
	}
	return rows[len(rows)-1][0]
}

// bucket gives the labels of each row of a table, from those of the tables below it.
func (p *frontier) bucket(i, at int, rows [][]span) []span {
	t := p.on.trees[i]
	b := &t.buckets[at]
	below := make([][]int32, len(b.children))
	for k, child := range b.children {
		below[k] = append([]int32(nil), t.walk(b.vars, t.buckets[child].strides)...)
	}
	own := b.vars[len(b.vars)-1]
	v, d := t.vars[own], t.size[own]
	out := make([]span, len(b.table)/d)
	var parts []span
	for row := range out {
		parts = parts[:0]
		for k := range d {
			cell := row*d + k
			left := bounds{p.limit.f - p.f.through[i][at][cell], p.limit.g - p.g.through[i][at][cell], p.limit.both - p.both.through[i][at][cell]}
			if left.f < 0 || left.g < 0 || left.both < 0 {
				continue
			}
			value := t.values[own][k]
			own := point{f: p.c.f[v][value], g: p.c.g[v][value]}
			s := p.one(own.f, own.g, v, value)
			sums := bounds{left.f + own.f, left.g + own.g, left.both + p.w.of(own)}
			for j, child := range b.children {
				x := below[j][cell]
				sums.f += p.f.up[i][child][x]
				sums.g += p.g.up[i][child][x]
				sums.both += p.both.up[i][child][x]
				s = p.join(s, rows[child][x], p.w, sums)
				if p.full() {
					return nil
				}
			}
			if s.len() > 0 {
				parts = append(parts, s)
			}
		}
		if len(parts) > 0 {
			out[row] = p.merge(parts)
		}
	}
	return out
}
