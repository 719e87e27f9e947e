package budget

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// enumerate works out the chance of every total of a forecast of constants, by going through every combination of events and states. It is
// written from the rules, not from the simulation: sets of costs where that has bit masks.
type enumerate struct {
	f      core.Forecast
	totals map[float64]float64
}

func (e *enumerate) events(i int, chance float64, happened []bool) {
	if i == len(e.f.Events) {
		due := map[int]bool{}
		for _, c := range e.f.Base {
			due[c] = true
		}
		e.blocks(0, 0, ^uint64(0), chance, happened, due)
		return
	}
	p := e.f.Events[i].Chance
	e.events(i+1, chance*p, append(happened[:i:i], true))
	e.events(i+1, chance*(1-p), append(happened[:i:i], false))
}

func (e *enumerate) blocks(b, m int, feasible uint64, chance float64, happened []bool, due map[int]bool) {
	if b == len(e.f.Blocks) {
		e.totals[e.cost(happened, due)] += chance
		return
	}
	block := e.f.Blocks[b]
	if m == len(block.Members) {
		with := map[int]bool{}
		for c := range due {
			with[c] = true
		}
		for k, o := range block.Options {
			if feasible&(1<<k) != 0 {
				for _, c := range o.Costs {
					with[c] = true
				}
				break
			}
		}
		e.blocks(b+1, 0, ^uint64(0), chance, happened, with)
		return
	}
	holds := map[int]float64{}
	var sum float64
	for pass := 0; pass < 2 && sum == 0; pass++ { // first the states whose event happened
		for i, s := range block.Members[m].States {
			struck := s.Event >= 0 && !s.NotEvent && happened[s.Event]
			open := s.Event < 0 || s.NotEvent && !happened[s.Event]
			if pass == 0 && struck || pass == 1 && open {
				holds[i] = s.Chance
				sum += s.Chance
			}
		}
	}
	for i, p := range holds {
		e.blocks(b, m+1, feasible&block.Members[m].States[i].Feasible, chance*p/sum, happened, due)
	}
}

func (e *enumerate) cost(happened []bool, due map[int]bool) float64 {
	count := map[int]float64{}
	for c := range due {
		count[c] = 1
	}
	for i, v := range e.f.Events {
		for _, c := range v.Costs {
			switch {
			case !happened[i]:
			case v.Times == 0 || v.Times == 1:
				if !due[c] {
					due[c] = true
					count[c]++
				}
			default:
				count[c] += v.Times
			}
		}
	}
	included := map[int]bool{}
	for i, js := range e.f.Includes {
		for _, j := range js {
			included[j] = included[j] || count[i] > 0
		}
	}
	var total float64
	for c, n := range count {
		if !included[c] {
			total += n * e.f.Costs[c].Total.Low
		}
	}
	return total
}

func TestAgainstEnumeration(t *testing.T) {
	for seed := range uint64(40) {
		t.Run(fmt.Sprint(seed), func(t *testing.T) {
			f := randomForecast(rand.New(rand.NewPCG(seed, 1)))
			e := enumerate{f, map[float64]float64{}}
			e.events(0, 1, nil)
			got := shares(t, f)
			var sum, unseen float64
			for v, p := range e.totals {
				sum += p
				if got[v] == 0 {
					unseen += p
				}
				require.InDelta(t, p, got[v], 5*math.Sqrt(p*(1-p)/DefaultTrials)+1e-9, "total %g", v)
			}
			for v := range got {
				require.Contains(t, e.totals, v)
			}
			require.InDelta(t, 1, sum, 1e-9)
			require.Less(t, unseen, .01)
		})
	}
}

// randomForecast has ten constant costs (powers of two, so that totals tell them apart), three events, three blocks of two parts.
func randomForecast(r *rand.Rand) core.Forecast {
	f := constants(1, 2, 4, 8, 16, 32, 64, 128, 256, 512)
	f.Seed = r.Uint64()
	pick := func(n int) []int { return r.Perm(len(f.Costs))[:n] }
	f.Base = pick(3)
	f.Includes = [][]int{{3, 7}, {3}, nil, nil, {5}}
	for i := range 3 {
		f.Events = append(f.Events, core.ForecastEvent{ID: fmt.Sprint(i), Group: -1, Chance: .1 + .5*r.Float64(), Costs: pick(2), Times: []float64{0, 1, 1.5}[i]})
	}
	for b := range 3 {
		block := core.ForecastBlock{Name: fmt.Sprint(b), Options: options(pick(0), pick(1), pick(2), pick(3))}
		for m := range 2 {
			part := core.ForecastMember{Name: fmt.Sprint(m), Group: -1}
			bad, e := .1+.4*r.Float64(), r.IntN(3)
			mask := func() uint64 { return 8 | uint64(r.IntN(8)) }
			switch r.IntN(3) {
			case 0: // an outlook
				part.States = []core.ForecastState{{Chance: bad, Bad: true, Event: -1, Feasible: mask()}, {Chance: (1 - bad) / 3, Event: -1, Feasible: mask()}, {Chance: (1 - bad) * 2 / 3, Event: -1, Feasible: mask()}}
			case 1: // an event or not
				p := f.Events[e].Chance
				part.States = []core.ForecastState{{Chance: p, Bad: true, Event: e, Feasible: mask()}, {Chance: 1 - p, Event: e, NotEvent: true, Feasible: mask()}}
			case 2: // two events, and an outlook when neither happens
				part.States = []core.ForecastState{{Chance: .2, Event: e, Feasible: mask()}, {Chance: .1, Event: (e + 1) % 3, Feasible: mask()}, {Chance: .7 * bad, Bad: true, Event: -1, Feasible: mask()}, {Chance: .7 * (1 - bad), Event: -1, Feasible: mask()}}
			}
			block.Members = append(block.Members, part)
		}
		f.Blocks = append(f.Blocks, block)
	}
	return f
}
