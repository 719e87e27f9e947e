package decide

import (
	"slices"

	"github.com/fettle-tools/fettle/core"
)

// What is listed of a block, at most.
const (
	mostJoint  = 64      // joint options given back (model: more is refused with the block's name)
	mostListed = 1 << 16 // joint options looked at
	mostKept   = 1 << 12 // joint options that no earlier one makes superfluous
)

// joint is a block while its options are listed.
type joint struct {
	*decision
	parts   []int
	option  [][]int // by member: the options of any of its states, in the order that breaks ties
	allow   [][]uint64
	free    []bool // operations that the optimum has paid for
	reached map[string]reach
	list    []jointOption
}

// jointOption is one joint choice with what decides its place.
type jointOption struct {
	core.BlockOption
	pick []int // per member, the place in its option list
}

// block lists the joint options of parts that must be decided together while some are not seen.
func (d *decision) block(parts []int) (core.Block, error) {
	j := joint{decision: d, parts: parts, free: slices.Clone(d.needed), reached: map[string]reach{}}
	for p, needed := range d.needed {
		for _, o := range d.model.includes[p] {
			j.free[o] = j.free[o] || needed
		}
	}
	for _, p := range parts {
		j.member(p)
	}
	j.thin()
	if !j.enumerate(make([]int, 0, len(parts))) {
		return core.Block{}, j.tooMany("more than can be looked at")
	}
	slices.SortStableFunc(j.list, func(a, b jointOption) int {
		if c := compareInt64(a.Value, b.Value); c != 0 {
			return c
		}
		return slices.Compare(a.pick, b.pick)
	})
	if j.prune(); len(j.list) > mostKept {
		return core.Block{}, j.tooMany("more than can be told apart")
	}
	return j.settle()
}

func (j *joint) tooMany(how string) error {
	return core.Errorf(core.Invalid, "look at the parts that are not seen, or pin some, so that fewer ways remain",
		"the parts %s must be decided together and there are too many ways: %s", j.names(j.parts), how)
}

// member notes the options of a part and in which of its states each may be taken.
func (j *joint) member(p int) {
	part := &j.sel.Parts[p]
	states := make([]uint64, len(part.Options))
	var any []int
	for s, state := range part.States {
		for _, o := range state.Options {
			states[o] |= 1 << s
			any = append(any, o)
		}
	}
	options := inTieOrder(part, any)
	allow := make([]uint64, len(options))
	for k, o := range options {
		allow[k] = states[o]
	}
	j.option = append(j.option, options)
	j.allow = append(j.allow, allow)
}

// fits reports that the last of the members picked agrees with those before it.
func (j *joint) fits(pick []int) bool {
	last := len(pick) - 1
	p, o := j.parts[last], j.option[last][pick[last]]
	for i := range j.sel.Sets {
		set := &j.sel.Sets[i]
		if !slices.Contains(set.Members, p) {
			continue
		}
		word := agreed(set, &j.sel.Parts[p].Options[o])
		for m, k := range pick[:last] {
			if slices.Contains(set.Members, j.parts[m]) {
				if agreed(set, &j.sel.Parts[j.parts[m]].Options[j.option[m][k]]) != word {
					return false
				}
				break
			}
		}
	}
	for _, b := range j.sel.Bonds {
		if b.Part != p && b.OtherPart != p {
			continue
		}
		m, n := slices.Index(j.parts, b.Part), slices.Index(j.parts, b.OtherPart)
		if m > last || n > last {
			continue
		}
		this := j.option[m][pick[m]] == b.Option
		that := j.option[n][pick[n]] == b.OtherOption
		if this && that == b.Excludes {
			return false
		}
	}
	return true
}

// enumerate lists every joint option that sets and bonds allow; false if there are too many.
func (j *joint) enumerate(pick []int) bool {
	if len(pick) == len(j.parts) {
		j.list = append(j.list, j.cost(slices.Clone(pick)))
		return len(j.list) <= mostListed
	}
	for k := range j.option[len(pick)] {
		next := append(pick, k)
		if j.fits(next) && !j.enumerate(next) {
			return false
		}
	}
	return true
}

// cost makes a joint option with its value: operations, risk and steps beyond the optimum's.
func (j *joint) cost(pick []int) jointOption {
	o := jointOption{pick: pick}
	needed := make([]bool, len(j.sel.Operations))
	var steps []int
	for m, k := range pick {
		option := j.option[m][k]
		so := &j.sel.Parts[j.parts[m]].Options[option]
		o.Choice = append(o.Choice, option)
		o.Value += so.Risk
		for _, op := range so.Operations {
			needed[op] = true
		}
		steps = append(steps, so.Steps...)
	}
	for op, pays := range paid(j.model.includes, needed) {
		if needed[op] {
			o.Operations = append(o.Operations, op)
		}
		if pays && !j.free[op] {
			o.Value += j.sel.Operations[op].Cost
		}
	}
	r := j.beyond(steps)
	o.Steps = r.steps
	o.Value += r.cost
	return o
}

// thin drops options of a member that another makes superfluous whatever the rest of the block does: allowed wherever
// it is, the same for every set, in no bond, and needing no more.
func (j *joint) thin() {
	for m := range j.parts {
		var keep []int
		for a := range j.option[m] {
			worse := false
			for b := range j.option[m] {
				if a != b && j.beats(m, b, a) {
					worse = true
				}
			}
			if !worse {
				keep = append(keep, a)
			}
		}
		options, allow := j.option[m], j.allow[m]
		j.option[m], j.allow[m] = nil, nil
		for _, k := range keep {
			j.option[m] = append(j.option[m], options[k])
			j.allow[m] = append(j.allow[m], allow[k])
		}
	}
}

// beats reports that option b of a member may stand in for option a, and always comes before it.
func (j *joint) beats(m, b, a int) bool {
	p := j.parts[m]
	ob, oa := j.option[m][b], j.option[m][a]
	x, y := &j.sel.Parts[p].Options[ob], &j.sel.Parts[p].Options[oa]
	if x.Risk > y.Risk || x.Risk == y.Risk && b > a {
		return false
	}
	for _, bond := range j.sel.Bonds {
		if bond.Part == p && (bond.Option == oa || bond.Option == ob) || bond.OtherPart == p && (bond.OtherOption == oa || bond.OtherOption == ob) {
			return false
		}
	}
	for i := range j.sel.Sets {
		if set := &j.sel.Sets[i]; slices.Contains(set.Members, p) && agreed(set, x) != agreed(set, y) {
			return false
		}
	}
	for _, op := range y.Operations {
		// Dropping an operation may turn what it included into a cost.
		if len(j.model.includes[op]) > 0 && !slices.Contains(x.Operations, op) {
			return false
		}
	}
	return j.allow[m][a]&^j.allow[m][b] == 0 && within(x.Operations, y.Operations) && within(x.Steps, y.Steps)
}

// within reports that every one of a is in b.
func within(a, b []int) bool {
	return !slices.ContainsFunc(a, func(x int) bool { return !slices.Contains(b, x) })
}

// prune drops, from the list in order, every joint option that an earlier one is allowed to replace in all states.
func (j *joint) prune() {
	var kept []jointOption
	for _, o := range j.list {
		replaced := slices.ContainsFunc(kept, func(k jointOption) bool {
			for m := range o.pick {
				if j.allow[m][o.pick[m]]&^j.allow[m][k.pick[m]] != 0 {
					return false
				}
			}
			return true
		})
		if !replaced {
			kept = append(kept, o)
			if len(kept) > mostKept {
				break
			}
		}
	}
	j.list = kept
}
