package decide

import (
	"fmt"
	"math/rand/v2"
	"slices"

	"github.com/fettle-tools/fettle/core"
)

// near draws an index within reach of at/of's share of n.
func near(r *rand.Rand, at, of, n, reach int) int {
	centre := at * n / of
	return min(n-1, max(0, centre+r.IntN(2*reach+1)-reach))
}

// generateLocal draws a Selection like a vehicle: parts along a line, a tree of steps with some any-of, operations
// and sets between neighbours. Each coupling is of parts within reach, but far of them span everything. With planted
// there is always a choice that suits.
func generateLocal(r *rand.Rand, parts, reach int, far float64, planted bool) core.Selection {
	var s core.Selection
	plant := make([]int, parts)
	n := max(2, parts*3/4)
	span := func() int {
		if r.Float64() < far {
			return n
		}
		return reach
	}
	for i := range n {
		st := core.SelectStep{ID: fmt.Sprintf("s%d", i), Cost: 20 + r.Int64N(400), Open: r.IntN(15) == 0}
		if i > 0 {
			// A parent close by in a heap-shaped tree keeps the depth that of a vehicle.
			st.AllOf = append(st.AllOf, (i-1)/2)
		}
		if i > 4 && r.IntN(8) == 0 {
			if a := i - 1 - r.IntN(min(i-1, span())); a != (i-1)/2 {
				st.AnyOf = [][]int{{a, max(0, a-1)}}
			}
		}
		s.Steps = append(s.Steps, st)
		op := core.SelectOperation{ID: fmt.Sprintf("o%d", i), Cost: 50 + r.Int64N(2000)}
		if i > 0 && r.IntN(5) == 0 {
			op.Includes = []int{i - 1}
		}
		s.Operations = append(s.Operations, op)
	}
	for i, list := range closedIncludes(s.Operations) {
		s.Operations[i].Includes = list
	}
	kinds := []core.RemedyKind{core.Reuse, core.Rebuild, core.Replace}
	for i := range parts {
		p := core.SelectPart{ID: fmt.Sprintf("p%d", i)}
		k := 1 + r.IntN(4)
		for o := range k {
			option := core.SelectOption{ID: fmt.Sprintf("r%d", o), Kind: kinds[min(o, 2)], Risk: r.Int64N(1500) / int64(1+o)}
			if o > 0 || r.IntN(4) == 0 {
				option.Operations = append(option.Operations, near(r, i, parts, n, span()))
				option.Steps = append(option.Steps, near(r, i, parts, n, 1))
			}
			if o > 1 {
				option.Operations = append(option.Operations, near(r, i, parts, n, span()))
			}
			slices.Sort(option.Operations)
			option.Operations = slices.Compact(option.Operations)
			option.Yields = []core.Yield{{Key: "size", Value: fmt.Sprint((i + o) % 3)}}
			p.Options = append(p.Options, option)
		}
		state := core.SelectState{Chance: 1, Event: -1}
		for o := range k {
			state.Options = append(state.Options, o)
		}
		p.States = []core.SelectState{state}
		s.Parts = append(s.Parts, p)
		plant[i] = r.IntN(k)
	}
	for i := range parts / 8 {
		at := r.IntN(parts)
		set := core.SelectSet{ID: fmt.Sprintf("set%d", i), Members: []int{at}, SameKind: r.IntN(2) == 0, AgreeOn: "size"}
		for range 1 + r.IntN(3) {
			if m := near(r, at, parts, parts, span()); !slices.Contains(set.Members, m) && len(s.Parts[m].Options) > 1 {
				set.Members = append(set.Members, m)
			}
		}
		if planted {
			set.Members = slices.DeleteFunc(set.Members, func(m int) bool {
				return agreed(&set, &s.Parts[m].Options[plant[m]]) != agreed(&set, &s.Parts[at].Options[plant[at]])
			})
		}
		s.Sets = append(s.Sets, set)
	}
	bonds := parts / 6
	if !planted {
		bonds *= 3
	}
	for range bonds {
		p := r.IntN(parts)
		q := near(r, p, parts, parts, span())
		if len(s.Parts[p].Options) == 1 || len(s.Parts[q].Options) == 1 {
			continue
		}
		b := core.Bond{Part: p, Option: r.IntN(len(s.Parts[p].Options)),
			OtherPart: q, OtherOption: r.IntN(len(s.Parts[q].Options)), Excludes: r.IntN(2) == 0}
		if !planted || plant[p] != b.Option || (plant[q] == b.OtherOption) != b.Excludes {
			s.Bonds = append(s.Bonds, b)
		}
	}
	return s
}
