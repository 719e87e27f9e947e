package decide

import (
	"context"
	"slices"

	"github.com/fettle-tools/fettle/core"
)

// Solver is the Decider: exact while the tables stay narrow, and honest about its bound where they do not. The zero
// value is ready to use. It keeps nothing between calls and may be used by several goroutines.
type Solver struct {
	// Width is the induced width over which a component is branched on instead of tabled; 0 means 12. A table at
	// width w holds at least 2^(w+1) sums of eight bytes.
	Width int
	// Nodes bounds one branch and bound search, so that the answer does not hang on a clock; 0 means 2,000. The
	// context's deadline bounds it too.
	Nodes int
	// Bare leaves the marginals under a cap out, for a curve of money against risk with many caps.
	Bare bool

	boundOnly bool // never take every branch: for tests of branch and bound
	labels    int  // kept in a pass under a cap, for tests where they run out; 0 means mostLabels
}

var _ core.Decider = Solver{}

// cellsOfAll is the most cells of the tables of one component together: 32 MB.
const cellsOfAll = 1 << 22

// sweepCells is the most cells filled by taking every branch: some 0.3 s.
const sweepCells = 1 << 25

// searchWork is the most table cells filled by one search: some seconds.
const searchWork = 1 << 27

// What the passes of labels under a cap may take: each label is 24 bytes, and looking at one takes some nanoseconds.
const (
	mostLabels = 1 << 21
	mostLooks  = 1 << 27
)

func (s Solver) limits() limits {
	l := limits{width: 12, cells: cellsOfAll, nodes: 2_000, work: searchWork, sweep: sweepCells, bare: s.Bare,
		labels: mostLabels, looks: mostLooks, looksAtOnce: mostLooks / 4}
	if s.Width > 0 {
		l.width = s.Width
	}
	if s.Nodes > 0 {
		l.nodes = s.Nodes
	}
	if s.boundOnly {
		l.sweep = 0
	}
	if s.labels > 0 {
		l.labels = s.labels
	}
	return l
}

// Decide finds the choice of least money and risk over the parts with one state, and lists the joint options of the
// others. Ties go to reuse, then rebuild, replace, any other kind, then to the lower remedy id, part by part in the
// order of the Selection.
//
// At the context's deadline it answers with the best choice so far, Proven false and Bound what no choice is under;
// marginals are then upper bounds, Infeasible where none was found in time. A context cancelled otherwise gives its error.
//
// Under a Cap it seeks the least risk whose money is within the cap, then the least money at that risk. Value, Bound
// and Marginals are then sums of risk alone; the marginals of a part are nil if they would take too long, where AtLeast
// holds what they are not under; Without is Infeasible, since no price turns a choice that money does not make. A cap
// that nothing is within is an *core.Error of code Invalid that states the least money.
func (s Solver) Decide(ctx context.Context, sel core.Selection) (core.Selected, error) {
	d, blocks, err := s.prepare(ctx, &sel)
	if err != nil {
		return core.Selected{}, err
	}
	find := d.optimum
	if sel.Cap != nil {
		find = d.underCap
	}
	if err := find(); err != nil {
		return core.Selected{}, err
	}
	if err := d.blocks(blocks); err != nil {
		return core.Selected{}, err
	}
	return d.out, nil
}

// prepare checks a Selection and sets a decision up, with the blocks that wait for what is not seen.
func (s Solver) prepare(ctx context.Context, sel *core.Selection) (d *decision, blocks [][]int, err error) {
	if err := check(sel); err != nil {
		return nil, nil, err
	}
	d = &decision{ctx: ctx, basis: basis{sel, newAccess(sel.Steps), closedIncludes(sel.Operations)}, lim: s.limits()}
	sure, blocks := groups(sel)
	d.model = newModel(d.basis, sure, nil)
	return d, blocks, nil
}

// decision is one run of Decide.
type decision struct {
	ctx context.Context
	basis
	lim    limits
	model  *model
	out    core.Selected
	needed []bool // operations needed in the optimum, paid or included
	// What is the same under every cap, once laid out.
	whole       region
	risk, money [][]int64
	after       *core.Selection // the Selection with what the optimum opens and pays for nothing
}

// blocks lists the joint options of each block, once the choice is taken.
func (d *decision) blocks(list [][]int) error {
	for _, members := range list {
		b, err := d.block(members)
		if err != nil {
			return err
		}
		d.out.Blocks = append(d.out.Blocks, b)
	}
	return nil
}

// optimum solves the model and fills in the answer but for its blocks.
func (d *decision) optimum() error {
	m := d.model
	asked := make([]bool, len(m.net.cost))
	for v := range m.parts {
		asked[v] = true
	}
	for _, v := range m.opOf {
		if v >= 0 {
			asked[v] = true
		}
	}
	sol, err := solve(d.ctx, m.net, d.lim, ask{ties: len(m.parts), least: func(v int) bool { return asked[v] }})
	if err != nil {
		return err
	}
	if sol.value >= never {
		return d.none(sol.bound)
	}
	d.take(sol.assign)
	d.out.Bound = sol.bound + m.base
	d.out.Proven = d.out.Bound >= d.out.Value
	d.out.Width = sol.width
	d.marginals(sol)
	return nil
}

// none is the error where no choice was found, with what no choice is under.
func (d *decision) none(bound int64) error {
	if bound < never {
		return core.Errorf(core.Unavailable, "allow more time, or pin some of the parts in large sets", "no choice of remedies was found within the limits of the search")
	}
	return d.conflict()
}

// take writes the choice down and bills it.
func (d *decision) take(assign []int) {
	m := d.model
	d.out.Choice = slices.Repeat([]int{-1}, len(d.sel.Parts))
	for v, p := range m.parts {
		d.out.Choice[p] = m.option[v][assign[v]]
	}
	b := m.bill(assign)
	d.needed = b.needed
	d.out.Steps, d.out.Operations = b.open, b.paid
	d.out.Money, d.out.Value = b.money, b.money+b.risk
}

// marginals writes the least value with each option, and without each operation paid.
func (d *decision) marginals(sol solution) {
	m := d.model
	d.out.Marginals = make([][]int64, len(d.sel.Parts))
	d.out.Without = make([]int64, len(d.sel.Operations))
	var slab []int64
	for v, p := range m.parts {
		row := room(&slab, len(d.sel.Parts[p].Options))
		for range d.sel.Parts[p].Options {
			row = append(row, core.Infeasible)
		}
		for k, x := range sol.least[v] {
			if x < never {
				row[m.option[v][k]] = x + m.base
			}
		}
		row[d.out.Choice[p]] = d.out.Value
		d.out.Marginals[p] = row
	}
	for o, pays := range d.out.Operations {
		if pays {
			d.out.Without[o] = d.without(o, sol)
		}
	}
}

// without is the least value when no choice may need an operation.
func (d *decision) without(o int, sol solution) int64 {
	m := d.model
	least := core.Infeasible
	if v := m.opOf[o]; v >= 0 {
		if x := sol.least[v][0]; x < never {
			least = x + m.base
		}
		return least
	}
	for v, p := range m.parts {
		if !slices.Contains(m.at(v, sol.assign[v]).Operations, o) {
			continue
		}
		for _, option := range m.option[v] {
			if !slices.Contains(d.sel.Parts[p].Options[option].Operations, o) {
				least = min(least, d.out.Marginals[p][option])
			}
		}
	}
	return least
}
