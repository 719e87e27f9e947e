package budget

import "github.com/fettle-tools/fettle/core"

// member is one part of a block, with its draws. The events that its states hang on give a pattern of bits; each pattern has its outlook.
type member struct {
	index    int // in the block of the forecast
	stream   stream
	group    int // -1: no multiplier
	events   []int
	outlooks []outlook // by pattern: bit i set if events[i] happened
	hangs    bool      // one event decides its state, whatever else
	watched  *watched  // nil: nobody asks for its states
}

// outlook is what a part may turn out to be under one pattern of events. The bad states together have the chance bad, which the
// multiplier raises; the others share what is left in proportion, whatever they sum to.
type outlook struct {
	bad      float64
	ill, fit []outcome
}

// outcome is one state: the options feasible in it, and the share of its list up to and with it.
type outcome struct {
	upTo     float64
	feasible uint64
}

// compileMember works out the outlook of every pattern. A state whose event happened goes before all others; where there are several, their
// chances share it and nothing raises them. Otherwise one of the states holds that hang on no event, or on one that did not happen.
func compileMember(s stream, group int, states []core.ForecastState) member {
	m := member{stream: s, group: group, events: eventsOf(states)}
	for pattern := range 1 << len(m.events) {
		happened := func(event int) bool {
			for i, e := range m.events {
				if e == event {
					return pattern>>i&1 != 0
				}
			}
			return false
		}
		var struck, open []core.ForecastState
		left := 1.0 // of the chances, when none of the events happens
		for _, st := range states {
			if st.Event >= 0 && !st.NotEvent {
				left -= st.Chance
			}
			switch {
			case st.Event < 0 || st.NotEvent && !happened(st.Event):
				open = append(open, st)
			case !st.NotEvent && happened(st.Event):
				st.Bad = false
				struck = append(struck, st)
			}
		}
		if len(struck) > 0 {
			open = struck
		}
		m.outlooks = append(m.outlooks, newOutlook(open, left))
	}
	m.hangs = len(m.events) == 1 && m.outlooks[0].one() && m.outlooks[1].one()
	return m
}

// eventsOf lists the events that states hang on, once each, in order of mention.
func eventsOf(states []core.ForecastState) []int {
	var events []int
	seen := map[int]bool{}
	for _, s := range states {
		if s.Event >= 0 && !seen[s.Event] {
			seen[s.Event] = true
			events = append(events, s.Event)
		}
	}
	return events
}

// newOutlook shares a chance of left among states.
func newOutlook(states []core.ForecastState, left float64) outlook {
	var o outlook
	var bad, rest float64
	for _, s := range states {
		if s.Bad && s.Chance > 0 {
			bad += s.Chance
			o.ill = append(o.ill, outcome{bad, s.Feasible})
		} else {
			rest += s.Chance
			o.fit = append(o.fit, outcome{rest, s.Feasible})
		}
	}
	switch {
	case bad > 0 && rest > 0:
		o.bad = min(1, bad/max(left, bad))
	case bad > 0:
		o.bad = 1
	}
	scale(o.ill, bad)
	scale(o.fit, rest)
	return o
}

func scale(os []outcome, sum float64) {
	for i := range os {
		if sum > 0 {
			os[i].upTo /= sum
		}
	}
}

// one reports that there is one state, and nothing raises its chance.
func (o *outlook) one() bool { return len(o.ill) == 0 && len(o.fit) == 1 }

// sure reports whether the part is in the same state in every trial.
func (m *member) sure() bool {
	return len(m.outlooks) == 1 && len(m.outlooks[0].ill)+len(m.outlooks[0].fit) == 1
}

// draw gives the options feasible in the state drawn, for a uniform number u and the multiplier of the part's subsystem.
func (o *outlook) draw(u, times float64) uint64 {
	p := raised(o.bad, times)
	os := o.fit
	if u < p {
		os = o.ill
	}
	if len(os) == 1 {
		return os[0].feasible
	}
	if u < p {
		return pick(os, u, p)
	}
	return pick(os, u-p, 1-p)
}

// pick takes the outcome at at/of; the last takes what rounding leaves.
func pick(os []outcome, at, of float64) uint64 {
	last := len(os) - 1
	for i := range os[:last] {
		if at < os[i].upTo*of {
			return os[i].feasible
		}
	}
	return os[last].feasible
}
