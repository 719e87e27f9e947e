package core

import (
	"context"
	"fmt"
	"slices"
	"strings"
)

// Defaults of the forecast (common practice, no source): one correlation between lines, one labour ratio a trial.
const (
	commonRho   = .3
	ratioMedian = 1
	ratioSD     = .15
	ratioJobs   = 4
)

// forecast lays out every cost that may fall due, and what decides whether it does.
func (b *bench) forecast(d *due) Forecast {
	f := Forecast{Rho: commonRho, Ratio: b.req.Learned.ratio(), Seed: b.req.Job.Seed, Trials: b.req.Trials}
	for _, o := range b.ops {
		f.addCost(o.key, b.inArea(o.sheet, o.op.Name), o.cost)
	}
	for i := range b.ops {
		f.Includes[i] = slices.Clone(b.sel.Operations[i].Includes)
	}
	stripAt := len(f.Costs)
	for _, s := range b.access.steps {
		c := s.strip
		if s.absent || s.apart {
			c = Cost{}
		}
		f.addCost("strip:"+s.key, s.step.Name, c)
	}
	refitAt := len(f.Costs)
	for _, s := range b.access.steps {
		c := s.refit
		if s.absent {
			c = Cost{}
		}
		f.addCost("refit:"+s.key, "Refit: "+s.step.Name, c)
	}
	for n, p := range d.opDue {
		if p == 1 {
			f.Base = append(f.Base, n)
		}
	}
	for n, p := range d.stepDue {
		if p == 1 {
			f.Base = append(f.Base, stripAt+n, refitAt+n)
		}
	}
	slices.Sort(f.Base)
	for i, o := range b.outlooks {
		s := b.sheets[i]
		f.Groups = append(f.Groups, ForecastGroup{Name: s.Subsystem + "@" + s.Unit, Shape: o.shape, Rate: o.rate})
	}
	b.forecastEvents(&f, d)
	for _, blk := range d.sel.Blocks {
		f.Blocks = append(f.Blocks, b.forecastBlock(blk, stripAt, refitAt))
	}
	return f
}

// areaOf is a sheet as it is spoken of, with its unit where another unit has the same.
func (b *bench) areaOf(sheet int) string {
	s := b.sheets[sheet]
	name := strings.ReplaceAll(s.Subsystem, "-", " ")
	if slices.ContainsFunc(b.sheets, func(x UnitSheet) bool { return x.Subsystem == s.Subsystem && x.Unit != s.Unit }) {
		name += " of " + s.Unit
	}
	return Capital(name)
}

// inArea is a name with the sheet that it is of, unless it begins so.
func (b *bench) inArea(sheet int, name string) string {
	area := b.areaOf(sheet)
	if strings.HasPrefix(strings.ToLower(name), strings.ToLower(area)) {
		return name
	}
	return area + ": " + name
}

func (f *Forecast) addCost(id, name string, c Cost) {
	f.Costs = append(f.Costs, ForecastCost{ID: id, Name: name, Total: c.Total(), LabourLow: c.Labour.Low, LabourHigh: c.Labour.High, Expected: c.Expected})
	f.Includes = append(f.Includes, nil)
}

// forecastEvents gives the events that parts hang on (in the Selection's order), then those of their own. Chances are those
// before M, which a trial draws; one that a seen part has shown stays as it is.
func (b *bench) forecastEvents(f *Forecast, d *due) {
	f.Events = make([]ForecastEvent, len(b.events))
	for i, s := range b.sheets {
		o := b.outlooks[i]
		for j, h := range s.Sheet.Hidden {
			n, ok := b.eventOf[fmt.Sprint(i, "/", h.ID)]
			if !ok {
				continue
			}
			e := ForecastEvent{ID: opKey(s, h.ID), Name: b.inArea(i, h.Name), Group: i, Chance: o.chances[j]}
			if o.happened[j] {
				e.Group, e.Chance = -1, o.rowChance(j)
			}
			f.Events[n] = e
		}
	}
	for _, e := range b.ownEvents(d) {
		f.addCost("event:"+e.key, b.inArea(e.sheet, e.row.Name), e.cost)
		j := slices.IndexFunc(b.sheets[e.sheet].Sheet.Hidden, func(h Hidden) bool { return h.ID == e.row.ID })
		f.Events = append(f.Events, ForecastEvent{ID: e.key, Name: b.inArea(e.sheet, e.row.Name), Group: e.sheet, Chance: b.outlooks[e.sheet].chances[j],
			Costs: []int{len(f.Costs) - 1}, Times: 1})
	}
}

func (b *bench) forecastBlock(blk Block, stripAt, refitAt int) ForecastBlock {
	out := ForecastBlock{}
	var names []string
	for m, part := range blk.Parts {
		p := b.parts[part]
		names = appendNew(names, p.part.Name)
		member := ForecastMember{Name: p.place.String(), Group: p.sheet}
		unseen := p.cond.Grade == NotSeen || p.cond.ReadingsTaken == 0
		for _, st := range b.sel.Parts[part].States {
			fs := ForecastState{Chance: st.Chance, Bad: st.Grade.ClosesReuse(false) && unseen, Event: st.Event, NotEvent: st.NotEvent, Feasible: feasibleMask(blk, m, st)}
			if fs.Bad && st.Event < 0 && st.Prior > 0 { // a trial draws M itself
				fs.Chance = st.Prior
			}
			member.States = append(member.States, fs)
		}
		out.Members = append(out.Members, member)
	}
	first := b.parts[blk.Parts[0]]
	what := strings.Join(names, ", ")
	if len(blk.Parts) == 1 {
		what = strings.TrimSpace(what + " " + first.place.Position)
	}
	out.Name = b.inArea(first.sheet, what+" not settled")
	for _, o := range blk.Options {
		fo := ForecastOption{Costs: slices.Clone(o.Operations)}
		for _, s := range o.Steps {
			fo.Costs = append(fo.Costs, stripAt+s, refitAt+s)
		}
		out.Options = append(out.Options, fo)
	}
	return out
}

// budget asks the Budgeter and puts its answer beside the order's total.
func (p *Planner) budget(ctx context.Context, b *bench, f Forecast, w WorkOrder) (Budget, error) {
	s, err := p.Budgeter.Budget(ctx, f)
	if err != nil {
		return Budget{}, err
	}
	m := func(v float64) Money { return b.money(round(v)) }
	likelies := int64(0)
	for _, l := range w.Lines {
		if l.Kind != LineReserve {
			likelies += Minor(l.Likely)
		}
	}
	expected := Minor(w.TotalBeforeTax)
	out := Budget{Expected: w.TotalBeforeTax, P10: m(s.P10), P50: m(s.P50), P80: m(s.P80), P90: m(s.P90),
		Contingency: b.money(round(s.P80) - expected), SumOfLikelies: b.money(likelies), OverLikelies: b.money(round(s.P80) - likelies),
		Mean: m(s.Mean), SD: m(s.SD), Widest: s.Widest, Trials: s.Trials, Seed: s.Seed}
	for _, e := range s.SE {
		out.StandardErrors = append(out.StandardErrors, m(e))
	}
	for _, q := range s.Curve {
		out.Curve = append(out.Curve, m(q))
	}
	return out, nil
}
