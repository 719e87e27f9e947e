package decide

import (
	"slices"

	"github.com/fettle-tools/fettle/core"
)

// model is the choice over some parts of a Selection as a network: which variable stands for what.
type model struct {
	basis
	net    *network
	parts  []int   // of the Selection; the variable of parts[i] is i
	option [][]int // by variable of a part, the option of each value, in the order that breaks ties
	open   []bool  // steps open whatever is chosen
	stepOf []int   // variable of a step; -1: none
	opOf   []int   // variable "needed" of an operation; -1: none
	base   int64   // what is paid whatever is chosen: the steps of the extent
}

// basis is what all models of a Selection share.
type basis struct {
	sel      *core.Selection
	access   *access
	includes [][]int // operations made unnecessary by each, closed
}

// newModel builds the network over these parts, each with these options, or if nil with those of its one state.
func newModel(on basis, parts []int, options [][]int) *model {
	sel := on.sel
	m := &model{basis: on, net: newNetwork(3*len(parts), 4*len(parts)), parts: parts, open: make([]bool, len(sel.Steps))}
	for i, s := range sel.Steps {
		if s.Open {
			m.access.extend(m.open, i)
		}
	}
	for i, open := range m.open {
		if open {
			m.base += sel.Steps[i].Cost
		}
	}
	var slab []int
	var risk []int64
	for i, p := range parts {
		list := sel.Parts[p].States[0].Options
		if options != nil {
			list = options[i]
		}
		list = inTieOrder(&sel.Parts[p], append(room(&slab, len(list)), list...))
		m.option = append(m.option, list)
		risk = risk[:0]
		for _, o := range list {
			risk = append(risk, sel.Parts[p].Options[o].Risk)
		}
		m.net.variable(risk...)
	}
	m.addSteps()
	m.addOperations()
	m.addSets()
	m.addBonds()
	return m
}

// inTieOrder sorts options in place: reuse, rebuild, replace, anything else, then id. Doubles go.
func inTieOrder(p *core.SelectPart, options []int) []int {
	slices.SortFunc(options, func(a, b int) int { return compareOptions(p, a, b) })
	return slices.Compact(options)
}

func compareOptions(p *core.SelectPart, a, b int) int {
	x, y := &p.Options[a], &p.Options[b]
	if d := x.Kind.Rank() - y.Kind.Rank(); d != 0 {
		return d
	}
	if x.ID != y.ID {
		if x.ID < y.ID {
			return -1
		}
		return 1
	}
	return a - b
}

// at gives the option that a value of a part's variable stands for.
func (m *model) at(variable, value int) *core.SelectOption {
	return &m.sel.Parts[m.parts[variable]].Options[m.option[variable][value]]
}

// where is the mask of the values of a part's variable whose option is such.
func (m *model) where(variable int, such func(*core.SelectOption) bool) uint64 {
	var mask uint64
	for k := range m.option[variable] {
		if such(m.at(variable, k)) {
			mask |= 1 << k
		}
	}
	return mask
}

// opens is a step with the values of a part's variable that need it.
type opens struct {
	step   int
	values uint64
}

// addSteps makes a step open for the options that need it.
func (m *model) addSteps() {
	needs := make([][]opens, len(m.parts))
	var slab []opens
	var wanted, buf []int
	for i := range m.parts {
		needs[i] = room(&slab, 4)
		for k := range m.option[i] {
			buf = m.access.reduce(m.at(i, k).Steps, m.open, buf)
			for _, s := range buf {
				at, found := slices.BinarySearchFunc(needs[i], s, func(o opens, s int) int { return o.step - s })
				if !found {
					needs[i] = slices.Insert(needs[i], at, opens{step: s})
				}
				needs[i][at].values |= 1 << k
				wanted = append(wanted, s)
			}
		}
	}
	slices.Sort(wanted)
	m.stepOf = m.access.model(m.net, slices.Compact(wanted), m.open)
	for i, list := range needs {
		for _, o := range list {
			m.net.require(false, literal{i, all(len(m.option[i])) &^ o.values}, is(m.stepOf[o.step]))
		}
	}
}
