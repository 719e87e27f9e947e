package core

import (
	"fmt"
	"slices"
)

// outcome is one thing a block may turn out to take, with its chance.
type outcome struct {
	option int // index into the block's options; -1 if none is feasible in that state (the decider refuses such blocks)
	chance float64
}

// outcomes lists what a block may turn out to take, given which events happen: the first option feasible in every
// member's state. Masks have bit k for option k.
func (b *bench) outcomes(blk Block, happens func(event int) bool) []outcome {
	type mass struct {
		mask   uint64
		chance float64
	}
	all := []mass{{mask: (uint64(1) << len(blk.Options)) - 1, chance: 1}}
	if len(blk.Options) == 64 {
		all[0].mask = ^uint64(0)
	}
	for m, part := range blk.Parts {
		var next []mass
		states := b.sel.Parts[part].States
		for _, st := range states {
			chance := stateChance(states, st, happens)
			if chance == 0 {
				continue
			}
			mask := feasibleMask(blk, m, st)
			for _, x := range all {
				k := slices.IndexFunc(next, func(y mass) bool { return y.mask == x.mask&mask })
				if k < 0 {
					k = len(next)
					next = append(next, mass{mask: x.mask & mask})
				}
				next[k].chance += x.chance * chance
			}
		}
		all = next
	}
	out := make([]outcome, 0, len(all))
	for _, x := range all {
		o := firstBit(x.mask)
		k := slices.IndexFunc(out, func(y outcome) bool { return y.option == o })
		if k < 0 {
			k = len(out)
			out = append(out, outcome{option: o})
		}
		out[k].chance += x.chance
	}
	slices.SortFunc(out, func(a, b outcome) int { return a.option - b.option })
	return out
}

// stateChance is the chance of a state given which events happen. States beside one that hangs on an event share what is left when it
// does not happen.
func stateChance(states []SelectState, st SelectState, happens func(event int) bool) float64 {
	if st.Event >= 0 {
		if happens(st.Event) != st.NotEvent {
			return 1
		}
		return 0
	}
	free := 0.0
	for _, x := range states {
		if x.Event < 0 {
			free += x.Chance
		} else if happens(x.Event) != x.NotEvent {
			return 0
		}
	}
	if free == 0 {
		return 0
	}
	return st.Chance / free
}

// feasibleMask has the bits of the block's options that state st of member m allows.
func feasibleMask(blk Block, m int, st SelectState) uint64 {
	var mask uint64
	for k, o := range blk.Options {
		if slices.Contains(st.Options, o.Choice[m]) {
			mask |= 1 << k
		}
	}
	return mask
}

func firstBit(mask uint64) int {
	for k := range 64 {
		if mask&(1<<k) != 0 {
			return k
		}
	}
	return -1
}

// blockEvents lists the events that a block's members hang on, sorted.
func (b *bench) blockEvents(blk Block) []int {
	var es []int
	for _, part := range blk.Parts {
		for _, st := range b.sel.Parts[part].States {
			if st.Event >= 0 && !slices.Contains(es, st.Event) {
				es = append(es, st.Event)
			}
		}
	}
	slices.Sort(es)
	return es
}

// cluster is a group of blocks that share events: given the events, its blocks are independent of one another, and clusters
// are independent of all else.
type cluster struct {
	events []int
	blocks []int
}

// clusters groups the blocks of an answer by shared events.
func (b *bench) clusters(blocks []Block) []cluster {
	var cs []cluster
	for i, blk := range blocks {
		c := cluster{events: b.blockEvents(blk), blocks: []int{i}}
		var rest []cluster
		for _, d := range cs {
			if slices.ContainsFunc(d.events, func(e int) bool { return slices.Contains(c.events, e) }) {
				for _, e := range d.events {
					if !slices.Contains(c.events, e) {
						c.events = append(c.events, e)
					}
				}
				c.blocks = append(c.blocks, d.blocks...)
				continue
			}
			rest = append(rest, d)
		}
		slices.Sort(c.events)
		slices.Sort(c.blocks)
		cs = append(rest, c)
	}
	return cs
}

const maxClusterEvents = 16 // 65,536 combinations at most; a register's rows that share parts are far fewer

// eachEvents calls f for every combination of a cluster's events, with its chance.
func (b *bench) eachEvents(c cluster, f func(chance float64, happens func(int) bool)) {
	events := c.events
	if len(events) > maxClusterEvents {
		events = events[:maxClusterEvents]
	}
	for bits := range 1 << len(events) {
		chance := 1.0
		for i, e := range events {
			p := b.events[e].Chance
			if bits&(1<<i) == 0 {
				p = 1 - p
			}
			chance *= p
		}
		if chance == 0 {
			continue
		}
		f(chance, func(e int) bool {
			i := slices.Index(events, e)
			return i >= 0 && bits&(1<<i) != 0
		})
	}
}

// chances gives for each block the chance of each of its options, and the chance that an item (an operation if op, else a
// step) is needed by no unseen part, for any set of items.
type chances struct {
	b        *bench
	blocks   []Block
	clusters []cluster
	// rows of each cluster: chance of the events, and per block its outcomes.
	rows [][]chanceRow
}

type chanceRow struct {
	chance float64
	blocks [][]outcome
}

func (b *bench) chancesOf(blocks []Block) chances {
	c := chances{b: b, blocks: blocks, clusters: b.clusters(blocks)}
	for _, cl := range c.clusters {
		if n := len(cl.events); n > maxClusterEvents {
			p := b.parts[blocks[cl.blocks[0]].Parts[0]].place
			b.problems = append(b.problems, Problem{Severity: SeverityWarning, Subsystem: p.Subsystem, Unit: p.Unit,
				Summary: fmt.Sprintf("%d register rows hang together: the reserves count the first %d of them only", n, maxClusterEvents), Next: "part the rows in the sheet, or see the parts they speak of"})
		}
		var rows []chanceRow
		b.eachEvents(cl, func(chance float64, happens func(int) bool) {
			row := chanceRow{chance: chance}
			for _, i := range cl.blocks {
				row.blocks = append(row.blocks, b.outcomes(blocks[i], happens))
			}
			rows = append(rows, row)
		})
		c.rows = append(c.rows, rows)
	}
	return c
}

// option is the chance that a block takes each of its options.
func (c chances) option(block int) []float64 {
	out := make([]float64, len(c.blocks[block].Options))
	for ci, cl := range c.clusters {
		k := slices.Index(cl.blocks, block)
		if k < 0 {
			continue
		}
		for _, row := range c.rows[ci] {
			for _, o := range row.blocks[k] {
				if o.option >= 0 {
					out[o.option] += row.chance * o.chance
				}
			}
		}
	}
	return out
}

// none is the chance that no unseen part needs any item of a set; needs tells whether an option does.
func (c chances) none(needs func(BlockOption) bool) float64 {
	p := 1.0
	for ci, cl := range c.clusters {
		sum := 0.0
		for _, row := range c.rows[ci] {
			q := row.chance
			for k, i := range cl.blocks {
				free := 0.0
				for _, o := range row.blocks[k] {
					if o.option < 0 || !needs(c.blocks[i].Options[o.option]) {
						free += o.chance
					}
				}
				q *= free
			}
			sum += q
		}
		p *= sum
	}
	return p
}
