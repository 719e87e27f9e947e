package budgettest

import (
	"fmt"
	"slices"

	"github.com/fettle-tools/fettle/core"
)

// MostWorlds is how many things a job may turn out to be for it to be decided anew in each.
const MostWorlds = 64

// world is one thing that the unseen parts of a job may turn out to be together.
type world struct {
	chance float64
	states [][]int // by block and member, the state
}

// worldsOf lists the worlds of a forecast whose multipliers are off: every combination of register entries and states, equal ones put
// together, those of no chance left out.
func worldsOf(f core.Forecast) ([]world, error) {
	hung := hungOn(f)
	if len(hung) > 12 {
		return nil, fmt.Errorf("its parts hang on %d register entries", len(hung))
	}
	var all []world
	place := map[string]int{}
	for bits := range 1 << len(hung) {
		happened := map[int]bool{}
		chance := 1.0
		for i, e := range hung {
			p := f.Events[e].Chance
			if happened[e] = bits>>i&1 != 0; !happened[e] {
				p = 1 - p
			}
			chance *= p
		}
		some := []world{{chance: chance}}
		for _, b := range f.Blocks {
			some = inBlock(some, b, happened)
			if len(some) > 4*MostWorlds {
				return nil, fmt.Errorf("more than %d things it may turn out to be", 4*MostWorlds)
			}
		}
		for _, w := range some {
			key := fmt.Sprint(w.states)
			k, known := place[key]
			switch {
			case w.chance == 0:
			case known:
				all[k].chance += w.chance
			default:
				place[key] = len(all)
				all = append(all, w)
			}
		}
	}
	if len(all) > MostWorlds {
		return nil, fmt.Errorf("%d things it may turn out to be, more than %d", len(all), MostWorlds)
	}
	return all, nil
}

// hungOn lists the register entries that some state hangs on.
func hungOn(f core.Forecast) []int {
	var es []int
	for _, b := range f.Blocks {
		for _, m := range b.Members {
			for _, s := range m.States {
				if s.Event >= 0 && !slices.Contains(es, s.Event) {
					es = append(es, s.Event)
				}
			}
		}
	}
	return es
}

// inBlock goes on from each world with every combination of states of a block's members.
func inBlock(ws []world, b core.ForecastBlock, happened map[int]bool) []world {
	for i := range ws {
		ws[i].states = append(slices.Clone(ws[i].states), []int{})
	}
	for _, m := range b.Members {
		var next []world
		for _, w := range ws {
			for s, p := range chancesOf(m.States, happened) {
				if p == 0 {
					continue
				}
				v := world{w.chance * p, slices.Clone(w.states)}
				last := len(v.states) - 1
				v.states[last] = append(slices.Clone(v.states[last]), s)
				next = append(next, v)
			}
		}
		ws = next
	}
	return ws
}

// chancesOf gives the chance of each state of a part, given which register entries happened: those whose entry did go before all others;
// else those that hang on none, or on one that did not.
func chancesOf(states []core.ForecastState, happened map[int]bool) []float64 {
	struck := func(s core.ForecastState) bool { return s.Event >= 0 && !s.NotEvent && happened[s.Event] }
	holds := struck
	if !slices.ContainsFunc(states, struck) {
		holds = func(s core.ForecastState) bool { return s.Event < 0 || s.NotEvent && !happened[s.Event] }
	}
	chances, sum := make([]float64, len(states)), 0.0
	for i, s := range states {
		if holds(s) {
			chances[i] = s.Chance
			sum += s.Chance
		}
	}
	for i := range chances {
		chances[i] /= sum
	}
	return chances
}
