package decide

import (
	"fmt"
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// mostCases is how many sets of joint options that are still open a block may run through while its states are
// combined.
const mostCases = 1 << 16

// stateCase is what some of the members' states leave of a block.
type stateCase struct {
	open   []uint64 // joint options still allowed, as bits
	events []byte   // by event of the block: what the states say of it
	states []int    // one combination that leads here, a state a member
}

// What a combination of states says of a register entry.
const (
	unsaid     = 0
	happened   = 1
	happenedNo = 2
	both       = happened | happenedNo // cannot be: one draw decides it for all
)

// settle runs through the combinations of the members' states, keeps the joint options that are the first allowed
// one in some, notes the members that come out the same in all, and makes the block.
func (j *joint) settle() (core.Block, error) {
	cases, err := j.cases()
	if err != nil {
		return core.Block{}, err
	}
	first := make([]bool, len(j.list))
	certain := make([]bool, len(j.list))
	for _, c := range cases {
		k := lowest(c.open)
		possible := !slices.Contains(c.events, both)
		if k < 0 && possible {
			return core.Block{}, j.nothingFor(c)
		}
		if k >= 0 {
			first[k] = true
			certain[k] = certain[k] || possible
		}
	}
	b := core.Block{Parts: j.parts}
	agree := make([]int, len(j.parts))
	started := false
	for k, o := range j.list {
		if first[k] {
			b.Options = append(b.Options, o.BlockOption)
		}
		if !certain[k] {
			continue
		}
		for m := range j.parts {
			if !started {
				agree[m] = o.Choice[m]
			} else if agree[m] != o.Choice[m] {
				agree[m] = -1
			}
		}
		started = true
	}
	if len(b.Options) > mostJoint {
		return core.Block{}, j.tooMany(fmt.Sprintf("%d, at most %d", len(b.Options), mostJoint))
	}
	for m, p := range j.parts {
		j.out.Choice[p] = agree[m]
	}
	return b, nil
}

// lowest is the first bit set; -1 if none.
func lowest(set []uint64) int {
	for w, x := range set {
		for k := range 64 {
			if x&(1<<k) != 0 {
				return w*64 + k
			}
		}
	}
	return -1
}

// cases combines the states of all members. Combinations that leave the same options open are one.
func (j *joint) cases() ([]stateCase, error) {
	var events []int
	for _, p := range j.parts {
		for _, s := range j.sel.Parts[p].States {
			if s.Event >= 0 && !slices.Contains(events, s.Event) {
				events = append(events, s.Event)
			}
		}
	}
	start := stateCase{open: make([]uint64, (len(j.list)+63)/64), events: make([]byte, len(events))}
	for k := range j.list {
		start.open[k/64] |= 1 << (k % 64)
	}
	cases := []stateCase{start}
	for m, p := range j.parts {
		index := map[string]bool{}
		var next []stateCase
		for _, c := range cases {
			for s := range j.sel.Parts[p].States {
				n := j.narrow(c, m, s, events)
				key := fmt.Sprint(n.open, n.events)
				if !index[key] {
					index[key] = true
					next = append(next, n)
				}
			}
		}
		if len(next) > mostCases {
			return nil, j.tooMany("their states combine in more ways than can be run through")
		}
		cases = next
	}
	return cases, nil
}

// narrow is a case once a member's state is known.
func (j *joint) narrow(c stateCase, m, s int, events []int) stateCase {
	part := &j.sel.Parts[j.parts[m]]
	n := stateCase{open: slices.Clone(c.open), events: slices.Clone(c.events), states: append(slices.Clone(c.states), s)}
	for k, o := range j.list {
		if j.allow[m][o.pick[m]]&(1<<s) == 0 {
			n.open[k/64] &^= 1 << (k % 64)
		}
	}
	for e, event := range events {
		n.events[e] |= says(part, s, event)
	}
	return n
}

// says is what a state of a part tells of an event. Where one state of a part is the event, the others are its not
// happening.
func says(p *core.SelectPart, s, event int) byte {
	state := p.States[s]
	if state.Event == event {
		if state.NotEvent {
			return happenedNo
		}
		return happened
	}
	for _, other := range p.States {
		if other.Event == event && !other.NotEvent {
			return happenedNo
		}
	}
	return unsaid
}

// nothingFor is the error for a combination of states that no joint option is allowed in.
func (j *joint) nothingFor(c stateCase) error {
	var when []string
	for m, s := range c.states {
		part := &j.sel.Parts[j.parts[m]]
		when = append(when, fmt.Sprintf("%s is %q", part.ID, part.States[s].Grade))
	}
	return core.Errorf(core.Invalid, "add a remedy for that case, or look at the sets and the requires and excludes of these parts",
		"no choice of remedies suits %s together when %s%s", j.names(j.parts), strings.Join(when, " and "), j.ties(j.parts))
}
