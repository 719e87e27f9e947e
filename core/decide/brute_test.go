package decide

import (
	"fmt"
	"math/rand/v2"
	"slices"

	"github.com/fettle-tools/fettle/core"
)

// shape says what a generated Selection is like.
type shape struct {
	parts, options, ops, steps, sets, bonds int
	cost                                    int64 // costs are drawn below it: a small one makes ties
	unseen                                  float64
}

// generate draws a Selection. It is well formed but may be infeasible.
func generate(r *rand.Rand, sh shape) core.Selection {
	var s core.Selection
	for i := range sh.ops {
		op := core.SelectOperation{ID: fmt.Sprintf("o%d", i), Cost: r.Int64N(sh.cost)}
		for k := range i {
			if r.IntN(6) == 0 {
				op.Includes = append(op.Includes, k)
			}
		}
		s.Operations = append(s.Operations, op)
	}
	for i := range s.Operations {
		s.Operations[i].Includes = closedIncludes(s.Operations)[i]
	}
	for i := range sh.steps {
		st := core.SelectStep{ID: fmt.Sprintf("s%d", i), Cost: r.Int64N(sh.cost), Open: r.IntN(8) == 0}
		for range 2 {
			if i > 0 && r.IntN(3) == 0 {
				st.AllOf = append(st.AllOf, r.IntN(i))
			}
		}
		if i > 1 && r.IntN(3) == 0 {
			st.AnyOf = append(st.AnyOf, r.Perm(i)[:2+r.IntN(min(3, i-1))])
		}
		s.Steps = append(s.Steps, st)
	}
	s.Events = []core.SelectEvent{{ID: "e0", Chance: .3}, {ID: "e1", Chance: .2}}
	for i := range sh.parts {
		s.Parts = append(s.Parts, generatePart(r, sh, fmt.Sprintf("p%d", i)))
	}
	for i := range sh.sets {
		set := core.SelectSet{ID: fmt.Sprintf("set%d", i), Members: r.Perm(sh.parts)[:min(sh.parts, 2+r.IntN(2))]}
		if set.SameKind = r.IntN(2) == 0; !set.SameKind {
			set.AgreeOn = fmt.Sprintf("key%d", r.IntN(2))
		}
		s.Sets = append(s.Sets, set)
	}
	for range sh.bonds {
		p, q := r.IntN(sh.parts), r.IntN(sh.parts)
		s.Bonds = append(s.Bonds, core.Bond{Part: p, Option: r.IntN(len(s.Parts[p].Options)),
			OtherPart: q, OtherOption: r.IntN(len(s.Parts[q].Options)), Excludes: r.IntN(2) == 0})
	}
	return s
}

func generatePart(r *rand.Rand, sh shape, id string) core.SelectPart {
	kinds := []core.RemedyKind{core.Reuse, core.Rebuild, core.Replace, core.LeftAsIs}
	p := core.SelectPart{ID: id}
	n := 1 + r.IntN(sh.options)
	for k := range n {
		o := core.SelectOption{ID: fmt.Sprintf("r%d", (k*7+3)%10), Kind: kinds[r.IntN(3)], Risk: r.Int64N(sh.cost)}
		for op := range sh.ops {
			if r.IntN(sh.ops) < 2 {
				o.Operations = append(o.Operations, op)
			}
		}
		for st := range sh.steps {
			if r.IntN(sh.steps) < 2 {
				o.Steps = append(o.Steps, st)
			}
		}
		for key := range 2 {
			if r.IntN(3) > 0 {
				o.Yields = append(o.Yields, core.Yield{Key: fmt.Sprintf("key%d", key), Value: fmt.Sprint(r.IntN(2))})
			}
		}
		p.Options = append(p.Options, o)
	}
	states := 1
	if r.Float64() < sh.unseen {
		states += 1 + r.IntN(2)
	}
	event := r.IntN(6)
	for i := range states {
		st := core.SelectState{Chance: 1 / float64(states), Event: -1, Grade: core.Grade(1 + i)}
		if event < 2 && states > 1 {
			st.Event, st.NotEvent = event, i > 0
		}
		for k := range n {
			if r.IntN(4) > 0 {
				st.Options = append(st.Options, k)
			}
		}
		if len(st.Options) == 0 {
			st.Options = []int{r.IntN(n)}
		}
		p.States = append(p.States, st)
	}
	return p
}

// suits reports that a choice for these parts keeps sets and bonds; parts that are not among them do not count.
func suits(s *core.Selection, parts, choice []int) bool {
	at := func(p int) int { return slices.Index(parts, p) }
	for _, set := range s.Sets {
		words := map[string]bool{}
		for _, p := range set.Members {
			if i := at(p); i >= 0 {
				o := s.Parts[p].Options[choice[i]]
				w := string(o.Kind)
				if !set.SameKind {
					w = "none"
					if k := slices.IndexFunc(o.Yields, func(y core.Yield) bool { return y.Key == set.AgreeOn }); k >= 0 {
						w = "value " + o.Yields[k].Value
					}
				}
				words[w] = true
			}
		}
		if len(words) > 1 {
			return false
		}
	}
	for _, b := range s.Bonds {
		i, k := at(b.Part), at(b.OtherPart)
		if i < 0 || k < 0 || choice[i] != b.Option {
			continue
		}
		if (choice[k] == b.OtherOption) == b.Excludes {
			return false
		}
	}
	return true
}

// operationsOf gives the operations that a choice needs, and of those the paid ones.
func operationsOf(s *core.Selection, parts, choice []int) (needed, pays []bool) {
	needed, pays = make([]bool, len(s.Operations)), make([]bool, len(s.Operations))
	for i, p := range parts {
		for _, o := range s.Parts[p].Options[choice[i]].Operations {
			needed[o] = true
		}
	}
	for o := range pays {
		pays[o] = needed[o]
		for q := range needed {
			if needed[q] && slices.Contains(s.Operations[q].Includes, o) {
				pays[o] = false
			}
		}
	}
	return needed, pays
}

// cheapestSteps tries every set of steps and gives the least cost of one that holds the wanted and needs no other,
// beyond those free.
func cheapestSteps(s *core.Selection, wanted []int, free []bool) int64 {
	best := core.Infeasible
	for set := range 1 << len(s.Steps) {
		open := func(x int) bool { return set&(1<<x) != 0 }
		var sum int64
		ok := true
		for i, st := range s.Steps {
			if !open(i) {
				ok = ok && !st.Open && (free == nil || !free[i])
				continue
			}
			if free == nil || !free[i] {
				sum += st.Cost
			}
			for _, p := range st.AllOf {
				ok = ok && open(p)
			}
			for _, c := range st.AnyOf {
				ok = ok && slices.ContainsFunc(c, open)
			}
		}
		for _, w := range wanted {
			ok = ok && open(w)
		}
		if ok {
			best = min(best, sum)
		}
	}
	return best
}

// tried is one choice of a brute force, with its sums.
type tried struct {
	choice       []int
	value, money int64
	needed       []bool
}

// everyChoice lists each choice that suits the parts, options of the one state only.
func everyChoice(s *core.Selection, parts []int) []tried {
	var list []tried
	memo := map[string]int64{}
	choice := make([]int, len(parts))
	var rec func(int)
	rec = func(i int) {
		if i < len(parts) {
			for _, o := range s.Parts[parts[i]].States[0].Options {
				choice[i] = o
				rec(i + 1)
			}
			return
		}
		if !suits(s, parts, choice) {
			return
		}
		needed, pays := operationsOf(s, parts, choice)
		var wanted []int
		var risk, money int64
		for k, p := range parts {
			o := s.Parts[p].Options[choice[k]]
			risk += o.Risk
			wanted = append(wanted, o.Steps...)
		}
		for o := range pays {
			if pays[o] {
				money += s.Operations[o].Cost
			}
		}
		slices.Sort(wanted)
		wanted = slices.Compact(wanted)
		key := fmt.Sprint(wanted)
		if _, ok := memo[key]; !ok {
			memo[key] = cheapestSteps(s, wanted, nil)
		}
		money += memo[key]
		list = append(list, tried{slices.Clone(choice), money + risk, money, needed})
	}
	rec(0)
	return list
}

// firstInOrder gives the choice of least value that ties prefer.
func firstInOrder(s *core.Selection, parts []int, list []tried) *tried {
	rank := func(i, o int) string {
		opt := s.Parts[parts[i]].Options[o]
		return fmt.Sprintf("%d %s %03d", opt.Kind.Rank(), opt.ID, o)
	}
	var best *tried
	for k := range list {
		t := &list[k]
		if best == nil || t.value < best.value {
			best = t
			continue
		}
		if t.value > best.value {
			continue
		}
		for i := range parts {
			a, b := rank(i, t.choice[i]), rank(i, best.choice[i])
			if a != b {
				if a < b {
					best = t
				}
				break
			}
		}
	}
	return best
}
