package budgettest

import (
	"context"
	"fmt"
	"math/bits"
	"slices"

	"github.com/fettle-tools/fettle/core"
)

// Gap is what a plan gives away by not knowing: its options are ordered once, and its known parts are decided before the others are seen. All
// figures are in minor units; those of Once and Anew hold the risk of what is reused as money that is certain.
type Gap struct {
	Unseen, Worlds int
	Expected       [2]float64 // exact, money and risk: deciding once, and anew
	Money          [2]float64 // exact, money alone
	Simulated      core.Spread
	Once, Anew     core.Spread // drawn with the same lines at the same prices in every trial
	Cheaper        int         // worlds in which deciding anew saves anything
	Worst          float64     // the most it saves in one of them, as a share of what that comes to
}

// Share is by how much deciding once is expected to be dearer, as a share of deciding anew.
func (g Gap) Share() float64 { return of(g.Expected[0], g.Expected[1]) }

// At is the same of a percentile: P10, P50, P80 or P90.
func (g Gap) At(p func(core.Spread) float64) float64 { return of(p(g.Once), p(g.Anew)) }

func of(once, anew float64) float64 {
	if anew == 0 {
		return 0
	}
	return once/anew - 1
}

// decided is what a job comes to one way in one world.
type decided struct {
	costs       []int // of the forecast, all that is paid
	money, risk int64
}

// Reoptimise decides the job that last went through the tap anew in everything that its unseen parts may turn out to be. What a subsystem
// has shown is left out, so that the chances are those of the sheets. It is an error if there are more than MostWorlds, or if deciding
// anew is dearer anywhere.
func (t *Tap) Reoptimise(ctx context.Context, trials int) (Gap, error) {
	f := t.Forecast
	if slices.ContainsFunc(f.Events, func(e core.ForecastEvent) bool { return len(e.Costs) > 0 }) {
		return Gap{}, fmt.Errorf("a register entry has costs of its own")
	}
	f.Groups, f.Trials = slices.Clone(f.Groups), trials
	for i := range f.Groups {
		f.Groups[i].Shape, f.Groups[i].Rate = 0, 0
	}
	worlds, err := worldsOf(f)
	if err != nil {
		return Gap{}, err
	}
	g := Gap{Worlds: len(worlds)}
	for _, b := range t.Selected.Blocks {
		for _, p := range b.Parts {
			if len(t.Selection.Parts[p].States) > 1 {
				g.Unseen++
			}
		}
	}
	once, anew := make([]decided, len(worlds)), make([]decided, len(worlds))
	for i, w := range worlds {
		if once[i], err = t.once(f, w); err != nil {
			return g, err
		}
		if anew[i], err = t.anew(ctx, f, w); err != nil {
			return g, err
		}
		a, b := once[i].money+once[i].risk, anew[i].money+anew[i].risk
		if a < b {
			return g, fmt.Errorf("deciding once comes to %d where the least is %d, in world %v", a, b, w.states)
		}
		if a > b {
			g.Cheaper++
			g.Worst = max(g.Worst, of(float64(a), float64(b)))
		}
		g.Expected[0] += w.chance * float64(a)
		g.Expected[1] += w.chance * float64(b)
		g.Money[0] += w.chance * float64(once[i].money)
		g.Money[1] += w.chance * float64(anew[i].money)
	}
	if g.Simulated, err = t.Budgeter.Budget(ctx, t.withRisk(f)); err != nil {
		return g, err
	}
	if g.Once, err = t.Budgeter.Budget(ctx, asWorlds(f, worlds, once)); err != nil {
		return g, err
	}
	g.Anew, err = t.Budgeter.Budget(ctx, asWorlds(f, worlds, anew))
	return g, err
}

// once is the plan's own way: in each block the first option that suits the states.
func (t *Tap) once(f core.Forecast, w world) (decided, error) {
	costs := slices.Clone(f.Base)
	d := decided{risk: t.sureRisk()}
	for b, block := range f.Blocks {
		mask := ^uint64(0)
		for m, s := range w.states[b] {
			mask &= block.Members[m].States[s].Feasible
		}
		k := bits.TrailingZeros64(mask)
		if k >= len(block.Options) {
			return d, fmt.Errorf("block %s has no option for %v", block.Name, w.states[b])
		}
		costs = append(costs, block.Options[k].Costs...)
		d.risk += t.optionRisk(b, k)
	}
	d.costs, d.money = paid(f, costs)
	return d, nil
}

// sureRisk is the risk of the parts that are in no block.
func (t *Tap) sureRisk() int64 {
	risk := int64(0)
	in := map[int]bool{}
	for _, b := range t.Selected.Blocks {
		for _, p := range b.Parts {
			in[p] = true
		}
	}
	for p, k := range t.Selected.Choice {
		if !in[p] {
			risk += t.Selection.Parts[p].Options[k].Risk
		}
	}
	return risk
}

func (t *Tap) optionRisk(block, option int) int64 {
	risk := int64(0)
	b := t.Selected.Blocks[block]
	for m, k := range b.Options[option].Choice {
		risk += t.Selection.Parts[b.Parts[m]].Options[k].Risk
	}
	return risk
}

// anew asks the Decider with every part known.
func (t *Tap) anew(ctx context.Context, f core.Forecast, w world) (decided, error) {
	known := t.Selection
	known.Parts = slices.Clone(known.Parts)
	for b, block := range t.Selected.Blocks {
		for m, p := range block.Parts {
			s := known.Parts[p].States[w.states[b][m]]
			s.Chance, s.Event, s.NotEvent = 1, -1, false
			known.Parts[p].States = []core.SelectState{s}
		}
	}
	sel, err := t.Decider.Decide(ctx, known)
	switch {
	case err != nil:
		return decided{}, err
	case !sel.Proven:
		return decided{}, fmt.Errorf("the choice in world %v is not proven", w.states)
	}
	var costs []int
	for o, due := range sel.Operations {
		if due {
			costs = append(costs, o)
		}
	}
	strip := len(sel.Operations)
	for s, open := range sel.Steps {
		if open {
			costs = append(costs, strip+s, strip+len(sel.Steps)+s)
		}
	}
	d := decided{risk: sel.Value - sel.Money}
	if d.costs, d.money = paid(f, costs); d.money != sel.Money {
		return d, fmt.Errorf("the forecast reckons %d where the choice comes to %d, in world %v", d.money, sel.Money, w.states)
	}
	return d, nil
}

// paid is the union of costs without those that others include, and what it is expected to come to.
func paid(f core.Forecast, costs []int) (union []int, money int64) {
	slices.Sort(costs)
	costs = slices.Compact(costs)
	for _, c := range costs {
		included := slices.ContainsFunc(costs, func(o int) bool { return o < len(f.Includes) && slices.Contains(f.Includes[o], c) })
		if !included {
			union = append(union, c)
			money += f.Costs[c].Expected
		}
	}
	return union, money
}

// withRisk is the forecast with the risk of every option beside what it costs.
func (t *Tap) withRisk(f core.Forecast) core.Forecast {
	r := withCosts(f)
	r.Base = append(slices.Clone(f.Base), r.certain("risk", t.sureRisk()))
	r.Blocks = slices.Clone(f.Blocks)
	for b := range r.Blocks {
		r.Blocks[b].Options = slices.Clone(r.Blocks[b].Options)
		for k := range r.Blocks[b].Options {
			o := &r.Blocks[b].Options[k]
			o.Costs = append(slices.Clone(o.Costs), r.certain(fmt.Sprintf("risk of %d of %d", k, b), t.optionRisk(b, k)))
		}
	}
	return r.Forecast
}

// asWorlds is a forecast of one block with one part whose states are the worlds, each with what was decided in it. Its lines are drawn as
// those of the other forecasts are.
func asWorlds(f core.Forecast, worlds []world, way []decided) core.Forecast {
	r := withCosts(f)
	r.Base, r.Includes, r.Events = nil, nil, nil
	part := core.ForecastMember{Name: "all", Group: -1}
	block := core.ForecastBlock{Name: "all"}
	for i, w := range worlds {
		part.States = append(part.States, core.ForecastState{Chance: w.chance, Event: -1, Feasible: 1 << i})
		costs := append(slices.Clone(way[i].costs), r.certain(fmt.Sprint("risk in ", i), way[i].risk))
		block.Options = append(block.Options, core.ForecastOption{Costs: costs})
	}
	block.Members = []core.ForecastMember{part}
	r.Blocks = []core.ForecastBlock{block}
	return r.Forecast
}

// costed is a forecast that costs can be added to.
type costed struct{ core.Forecast }

func withCosts(f core.Forecast) *costed {
	f.Costs = slices.Clone(f.Costs)
	return &costed{f}
}

// certain adds a cost without a range and gives its index.
func (r *costed) certain(id string, amount int64) int {
	v := float64(amount)
	r.Costs = append(r.Costs, core.ForecastCost{ID: id, Total: core.Range3{Low: v, Likely: v, High: v}, Expected: amount})
	return len(r.Costs) - 1
}
