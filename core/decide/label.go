package decide

import (
	"cmp"
	"slices"
)

// label is a choice for a part of a network by its two sums alone.
type label struct {
	f, g int64
	// The two labels it joins; or, where b is negative, variable a at value ^b, if a is one.
	a, b int32
}

// before reports that p goes before q in a list that is to be thinned.
func (p label) before(q label) bool { return p.f < q.f || p.f == q.f && p.g <= q.g }

// span is a list of labels that lie together: ascending by f and descending by g, so that none is as good as another
// in both.
type span struct{ from, to int32 }

func (s span) len() int { return int(s.to - s.from) }

// labels keeps the labels of one pass, and stops at a bound on how many there are and on how many are looked at.
type labels struct {
	list  []label
	fresh []label // scratch: what is being joined
	most  int     // labels kept
	work  int     // labels that may still be looked at
}

// full reports that one of the bounds is reached. What was joined since then is not to be used.
func (l *labels) full() bool { return len(l.list) > l.most || l.work < 0 }

// bounds say which labels may still lead anywhere: at most so much of f, of g and of the weighted sum.
type bounds struct{ f, g, both int64 }

// one keeps the label of a single value.
func (l *labels) one(f, g int64, variable, value int) span {
	l.list = append(l.list, label{f, g, int32(variable), ^int32(value)})
	return span{int32(len(l.list)) - 1, int32(len(l.list))}
}

// join adds each label of one list to each of another and keeps those within the bounds that no other is as good as.
func (l *labels) join(x, y span, w weights, within bounds) span {
	l.fresh = l.fresh[:0]
	sorted := true
	for a := x.from; a < x.to; a++ {
		p := l.list[a]
		for b := y.from; b < y.to; b++ {
			q := l.list[b]
			s := label{p.f + q.f, p.g + q.g, a, b}
			if s.f > within.f {
				break
			}
			if l.work--; s.g > within.g || w.f*s.f+w.g*s.g > within.both {
				continue
			}
			sorted = sorted && (len(l.fresh) == 0 || l.fresh[len(l.fresh)-1].before(s))
			l.fresh = append(l.fresh, s)
		}
		if l.work < 0 {
			return span{}
		}
		if len(l.fresh) > l.most {
			l.thin(sorted)
			if sorted = false; len(l.fresh) > l.most/2 {
				l.work = -1
				return span{}
			}
		}
	}
	l.thin(sorted)
	return l.keep()
}

// merge joins lists that stand for alternatives.
func (l *labels) merge(lists []span) span {
	if len(lists) == 1 {
		return lists[0]
	}
	l.fresh = l.fresh[:0]
	for _, s := range lists {
		l.fresh = append(l.fresh, l.list[s.from:s.to]...)
	}
	l.work -= len(l.fresh)
	l.thin(false)
	return l.keep()
}

// thin drops the fresh labels that another is as good as in both sums; of equal ones the first stays.
func (l *labels) thin(sorted bool) {
	if !sorted {
		slices.SortStableFunc(l.fresh, func(p, q label) int { return cmp.Or(cmp.Compare(p.f, q.f), cmp.Compare(p.g, q.g)) })
	}
	kept := l.fresh[:0]
	for _, s := range l.fresh {
		if len(kept) == 0 || s.g < kept[len(kept)-1].g {
			kept = append(kept, s)
		}
	}
	l.fresh = kept
}

// keep puts the fresh labels on the list.
func (l *labels) keep() span {
	from := int32(len(l.list))
	l.list = append(l.list, l.fresh...)
	return span{from, int32(len(l.list))}
}

// read writes the values that a label stands for into assign.
func (l *labels) read(x int32, assign []int) {
	s := l.list[x]
	for ; s.b >= 0; s = l.list[s.a] {
		l.read(s.b, assign)
	}
	if s.a >= 0 {
		assign[s.a] = int(^s.b)
	}
}
