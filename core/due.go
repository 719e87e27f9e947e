package core

import "slices"

// due says of every operation and step how likely it falls due, and why: the sum behind the order's lines.
type due struct {
	b   *bench
	sel Selected
	ch  chances
	// needed and open by the parts of the optimum and the extent: certain.
	neededOps []bool
	openSteps []bool
	opDue     []float64 // chance that it is needed
	opPaid    []float64 // ... and not included by another that is needed
	stepDue   []float64
	opParts   [][]int // parts whose remedies may name it
	stepParts [][]int
}

func (b *bench) due(sel Selected, ch chances) *due {
	d := &due{b: b, sel: sel, ch: ch, neededOps: make([]bool, len(b.ops)), openSteps: slices.Clone(sel.Steps),
		opDue: make([]float64, len(b.ops)), opPaid: make([]float64, len(b.ops)), stepDue: make([]float64, len(sel.Steps)),
		opParts: make([][]int, len(b.ops)), stepParts: make([][]int, len(sel.Steps))}
	inBlock := make([]bool, len(b.parts))
	for n, blk := range sel.Blocks {
		options := ch.option(n)
		for m, part := range blk.Parts {
			inBlock[part] = true
			for k, o := range blk.Options {
				if options[k] > Slack {
					d.serve(part, o.Choice[m])
				}
			}
		}
	}
	for i := range b.parts {
		if k := sel.Choice[i]; !inBlock[i] && k >= 0 {
			d.serve(i, k)
			for _, o := range b.sel.Parts[i].Options[k].Operations {
				d.neededOps[o] = true
			}
		}
	}
	d.work()
	return d
}

// serve notes that a part's option may need its operations and steps.
func (d *due) serve(part, option int) {
	o := d.b.sel.Parts[part].Options[option]
	for _, n := range o.Operations {
		if !slices.Contains(d.opParts[n], part) {
			d.opParts[n] = append(d.opParts[n], part)
		}
	}
	for _, n := range d.b.access.closure(o.Steps, func(k int) bool { return d.openSteps[k] }) {
		if !slices.Contains(d.stepParts[n], part) {
			d.stepParts[n] = append(d.stepParts[n], part)
		}
	}
}

// work fills in the chances, exactly: blocks are independent but for the events that they share.
func (d *due) work() {
	for o := range d.b.ops {
		if d.neededOps[o] {
			d.opDue[o] = 1
		} else {
			d.opDue[o] = settle(1 - d.ch.none(func(x BlockOption) bool { return slices.Contains(x.Operations, o) }))
		}
	}
	for o := range d.b.ops {
		var over []int // operations that include it and may be due
		certain := false
		for i := range d.b.ops {
			if slices.Contains(d.b.sel.Operations[i].Includes, o) && d.opDue[i] > 0 {
				over = append(over, i)
				certain = certain || d.opDue[i] == 1
			}
		}
		switch {
		case certain || d.opDue[o] == 0:
		case len(over) == 0:
			d.opPaid[o] = d.opDue[o]
		default:
			hasOver := func(x BlockOption) bool {
				return slices.ContainsFunc(over, func(i int) bool { return slices.Contains(x.Operations, i) })
			}
			p := d.ch.none(hasOver)
			if !d.neededOps[o] {
				p -= d.ch.none(func(x BlockOption) bool { return hasOver(x) || slices.Contains(x.Operations, o) })
			}
			d.opPaid[o] = settle(p)
		}
	}
	for s := range d.stepDue {
		if d.openSteps[s] {
			d.stepDue[s] = 1
		} else {
			d.stepDue[s] = settle(1 - d.ch.none(func(x BlockOption) bool { return slices.Contains(x.Steps, s) }))
		}
	}
}

// settle takes off the noise of floating point at certain and at impossible.
func settle(p float64) float64 {
	switch {
	case p < Slack:
		return 0
	case p > 1-Slack:
		return 1
	}
	return p
}
