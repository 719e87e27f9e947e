package decide

import (
	"cmp"
	"math/bits"
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// What is listed of a block, at most.
const (
	mostJoint = 64   // joint options given back; more is refused with the block's name
	mostBoxes = 4096 // sets of states looked at
)

// joint is a block while its joint options are listed.
type joint struct {
	*decision
	parts  []int
	model  *model     // over the block's own parts; what the optimum opens and pays is free in it
	allow  [][]uint64 // by member and value, the states that allow it
	events []int      // that states of the block hang on
	list   []jointOption
}

// jointOption is one joint choice with what decides its place.
type jointOption struct {
	core.BlockOption
	pick []int // per member, the value
}

// box is a set of states for each member, as bits: all combinations of them.
type box []uint64

// block lists the joint options of parts that must be decided together while some are not seen: those that come
// first in some combination of states.
//
// The cheapest of all comes first wherever all its members' states allow it. Every other combination has some member
// in a state that does not, so for each member the combinations with such states are looked at in the same way.
func (d *decision) block(parts []int) (core.Block, error) {
	j := d.newJoint(parts)
	level := []box{j.everything()}
	boxes := 0
	for len(level) > 0 {
		slices.SortStableFunc(level, func(a, b box) int { return cmp.Compare(b.size(), a.size()) })
		var seen, next []box // a box within another of its level is looked at with that one
		for _, b := range level {
			if slices.ContainsFunc(seen, b.within) || !j.possible(b) {
				continue
			}
			seen = append(seen, b)
			boxes++
			rest, err := j.first(b)
			if err != nil {
				return core.Block{}, err
			}
			next = append(next, rest...)
			if len(j.list) > mostJoint || boxes > mostBoxes {
				return core.Block{}, j.tooMany()
			}
		}
		level = next
	}
	return j.finish(), nil
}

// newJoint sets a block up. Its network has all options of all states.
func (d *decision) newJoint(parts []int) *joint {
	j := &joint{decision: d, parts: parts}
	options := make([][]int, len(parts))
	for m, p := range parts {
		for _, s := range d.sel.Parts[p].States {
			options[m] = append(options[m], s.Options...)
			if s.Event >= 0 && !slices.Contains(j.events, s.Event) {
				j.events = append(j.events, s.Event)
			}
		}
	}
	j.model = newModel(basis{d.spent(), d.access, d.includes}, parts, options)
	for m, p := range parts {
		allow := make([]uint64, len(j.model.option[m]))
		for s, state := range d.sel.Parts[p].States {
			for _, o := range state.Options {
				allow[slices.Index(j.model.option[m], o)] |= 1 << s
			}
		}
		j.allow = append(j.allow, allow)
	}
	return j
}

// spent is the Selection with what the optimum opens and pays for nothing.
func (d *decision) spent() *core.Selection {
	if d.after != nil {
		return d.after
	}
	after := *d.sel
	after.Steps = slices.Clone(after.Steps)
	for i := range after.Steps {
		after.Steps[i].Open = d.out.Steps[i]
	}
	after.Operations = slices.Clone(after.Operations)
	for p, needed := range d.needed {
		if needed {
			after.Operations[p].Cost = 0
			for _, o := range d.includes[p] {
				after.Operations[o].Cost = 0
			}
		}
	}
	d.after = &after
	return d.after
}

// everything is the box of all states.
func (j *joint) everything() box {
	b := make(box, len(j.parts))
	for m, p := range j.parts {
		b[m] = all(len(j.sel.Parts[p].States))
	}
	return b
}

// size counts the states of a box.
func (b box) size() int {
	n := 0
	for _, x := range b {
		n += bits.OnesCount64(x)
	}
	return n
}

// within reports that another box holds every combination of this one.
func (b box) within(other box) bool {
	for m, x := range b {
		if x&^other[m] != 0 {
			return false
		}
	}
	return true
}

// first finds the joint option that comes first among all that some combination of the box allows, notes it, and
// gives boxes that hold every combination that does not allow it.
func (j *joint) first(b box) (rest []box, err error) {
	n := *j.model.net
	n.dom = slices.Clone(n.dom)
	for m := range j.parts {
		for k, states := range j.allow[m] {
			if states&b[m] == 0 {
				n.dom[m] &^= 1 << k
			}
		}
	}
	sol, err := solve(j.ctx, &n, j.lim, ask{ties: len(j.parts), least: func(v int) bool { return v < len(j.parts) }})
	switch {
	case err != nil:
		return nil, err
	case sol.bound >= never:
		return nil, j.nothingFor(b)
	case sol.value >= never:
		return nil, j.none(sol.bound)
	}
	inside := slices.Clone(b)
	for m := range j.parts {
		inside[m] &= j.allow[m][sol.assign[m]]
		if out := b[m] &^ inside[m]; out != 0 {
			other := slices.Clone(b)
			other[m] = out
			rest = append(rest, other)
		}
	}
	if j.possible(inside) {
		j.note(sol)
	}
	return rest, nil
}

// note adds a joint option that is not listed yet, with what it needs beyond the optimum.
func (j *joint) note(sol solution) {
	pick := sol.assign[:len(j.parts)]
	if slices.ContainsFunc(j.list, func(o jointOption) bool { return slices.Equal(o.pick, pick) }) {
		return
	}
	bill := j.model.bill(sol.assign)
	o := jointOption{pick: pick}
	o.Value = bill.risk
	for m, k := range pick {
		o.Choice = append(o.Choice, j.model.option[m][k])
	}
	for op, needed := range bill.needed {
		if needed {
			o.Operations = append(o.Operations, op)
		}
		if bill.paid[op] {
			o.Value += j.model.sel.Operations[op].Cost
		}
	}
	for s, open := range bill.open {
		if open && !j.out.Steps[s] {
			o.Steps = append(o.Steps, s)
			o.Value += j.sel.Steps[s].Cost
		}
	}
	j.list = append(j.list, o)
}

// finish puts the joint options in order and notes the members that come out the same in all.
func (j *joint) finish() core.Block {
	slices.SortFunc(j.list, func(a, b jointOption) int {
		return cmp.Or(cmp.Compare(a.Value, b.Value), slices.Compare(a.pick, b.pick))
	})
	b := core.Block{Parts: j.parts}
	for _, o := range j.list {
		b.Options = append(b.Options, o.BlockOption)
	}
	for m, p := range j.parts {
		j.out.Choice[p] = j.list[0].Choice[m]
		if slices.ContainsFunc(j.list, func(o jointOption) bool { return o.Choice[m] != j.list[0].Choice[m] }) {
			j.out.Choice[p] = -1
		}
	}
	return b
}

func (j *joint) tooMany() error {
	return core.Errorf(core.Invalid, "look at the parts that are not seen, or pin some, so that fewer ways remain",
		"there are more than %d ways to decide %s", mostJoint, j.names(j.parts))
}

// nothingFor is the error for combinations of states that no joint option suits: of the parts, those that do not suit each other, and what they may turn
// out to be then.
func (j *joint) nothingFor(b box) error {
	open := func(p int) (options []int) {
		states := j.sel.Parts[p].States
		for _, s := range valuesOf(b[slices.Index(j.parts, p)]) {
			options = append(options, states[s].Options...)
		}
		return options
	}
	parts := j.fewest(j.parts, open)
	var when []string
	var unseen []int
	for _, p := range parts {
		states := j.sel.Parts[p].States
		is := b[slices.Index(j.parts, p)]
		if is == all(len(states)) {
			continue
		}
		unseen = append(unseen, p)
		var grades []string
		for _, s := range valuesOf(is) {
			if g := states[s].Grade.String(); !slices.Contains(grades, g) {
				grades = append(grades, g)
			}
		}
		when = append(when, j.name(p)+" is "+strings.Join(grades, " or "))
	}
	text := ""
	if len(when) > 0 {
		text = " if " + strings.Join(when, " and ")
	}
	next := "do without a pin; if nothing is pinned, add a remedy for that case to the sheet"
	if len(unseen) > 0 {
		next = "read " + j.names(unseen) + " first, or " + next
	}
	return &core.Unsuited{Parts: parts, Err: core.Errorf(core.Invalid, next, "%s%s%s", j.unsuited(parts), text, j.ties(parts, open))}
}
