package decide

import "slices"

// bill is what a choice of a model comes to.
type bill struct {
	needed []bool // operations that a chosen remedy names
	paid   []bool // those of them that no other needed one includes
	open   []bool // steps, those of the extent too
	money  int64
	risk   int64
}

// bill reads the choice off an assignment of the network and adds it up anew from the Selection. Steps that the
// assignment opens but nothing needs stay closed.
func (m *model) bill(assign []int) bill {
	b := bill{needed: make([]bool, len(m.sel.Operations)), open: slices.Clone(m.open)}
	var wanted []int
	for v := range m.parts {
		o := m.at(v, assign[v])
		b.risk += o.Risk
		wanted = append(wanted, o.Steps...)
		for _, op := range o.Operations {
			b.needed[op] = true
		}
	}
	m.access.opened(b.open, wanted, func(step int) bool { return m.stepOf[step] >= 0 && assign[m.stepOf[step]] == 1 })
	b.paid = paid(m.includes, b.needed)
	for i, open := range b.open {
		if open {
			b.money += m.sel.Steps[i].Cost
		}
	}
	for i, pays := range b.paid {
		if pays {
			b.money += m.sel.Operations[i].Cost
		}
	}
	return b
}
