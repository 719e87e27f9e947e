package budget

import "github.com/fettle-tools/fettle/core"

// member is one part of a block, with its draws.
type member struct {
	stream stream
	group  int // -1: no multiplier
	states []core.ForecastState
}

// sure reports whether the part is in the same state in every trial.
func (m *member) sure() bool { return len(m.states) == 1 }

// draw gives the options feasible in the state that the part is in, for a uniform number u, a multiplier and the events that happened. A
// state whose event happened goes before all others; where there are several, their chances share it. Otherwise one of the states that
// hang on no event, or on one that did not happen, holds: the bad ones with their raised chance, the rest scaled.
func (m *member) draw(u, times float64, happened func(event int) bool) uint64 {
	if m.sure() {
		return m.states[0].Feasible
	}
	var live, bad, rest float64
	struck := false
	for i := range m.states {
		s := &m.states[i]
		switch {
		case s.Event < 0 || s.NotEvent && !happened(s.Event):
			if s.Bad {
				bad += s.Chance
			} else {
				rest += s.Chance
			}
		case !s.NotEvent && happened(s.Event):
			struck = true
			live += s.Chance
		}
	}
	if struck {
		return m.pick(u*live, func(s *core.ForecastState) bool {
			return s.Event >= 0 && !s.NotEvent && happened(s.Event)
		})
	}
	p := 1.0
	if rest > 0 {
		p = raised(bad/(bad+rest), times)
	}
	isBad := bad > 0 && u < p
	at := u / p * bad
	if !isBad {
		at = (u - p) / (1 - p) * rest
	}
	return m.pick(at, func(s *core.ForecastState) bool {
		return s.Bad == isBad && (s.Event < 0 || s.NotEvent && !happened(s.Event))
	})
}

// pick walks the states that are in the draw until their chances pass at; the last of them takes what rounding leaves.
func (m *member) pick(at float64, in func(*core.ForecastState) bool) uint64 {
	var mask uint64
	for i := range m.states {
		s := &m.states[i]
		if !in(s) {
			continue
		}
		mask = s.Feasible
		if at < s.Chance {
			return mask
		}
		at -= s.Chance
	}
	return mask
}
