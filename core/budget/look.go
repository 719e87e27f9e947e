package budget

import (
	"context"
	"math"
	"slices"

	"github.com/fettle-tools/fettle/core"
)

// watched is a part whose state is written down in every trial.
type watched struct {
	masks []uint64 // the states told apart: by the options feasible in them
	state []uint8  // by trial
}

// maxWatched is how many states of a part are told apart; the last stands for all others.
const maxWatched = 256

// Settles implements core.Looker. A look's share is Cov(C, B)^2 / (Var C Var B), where C is the total and B sums up, part by part, the mean
// of the total in the state that the part is in; from it is taken what as many states would explain by chance in so many trials. For one
// part that is the variance between its states less (K - 1) s^2 / n.
func (s Simulator) Settles(ctx context.Context, f core.Forecast, looks []core.ForecastLook) ([]float64, error) {
	if err := check(f); err != nil {
		return nil, err
	}
	m := compile(f)
	for _, look := range looks {
		for _, p := range look {
			if p.Block < 0 || p.Block >= len(f.Blocks) || p.Member < 0 || p.Member >= len(f.Blocks[p.Block].Members) {
				return nil, core.Errorf(core.Invalid, "report this", "a look names the member %d of block %d, which is none", p.Member, p.Block)
			}
			m.watch(p)
		}
	}
	d, err := s.run(ctx, m)
	if err != nil {
		return nil, err
	}
	mean := 0.0
	for _, c := range d.total {
		mean += c
	}
	mean /= float64(len(d.total))
	known := map[core.ForecastPart]told{}
	sum := summed{far: make([]float64, len(d.total))}
	shares := make([]float64, len(looks))
	for i, look := range looks {
		if !sum.begins(look) {
			sum.forget()
		}
		for _, p := range look[len(sum.parts):] {
			if _, done := known[p]; !done {
				known[p] = d.tell(m.watchedAt(p), mean)
			}
			sum.add(p, known[p])
		}
		shares[i] = d.settled(sum, mean)
	}
	return shares, nil
}

// watch makes the model write down a part's states. A part that is sure has nothing to tell.
func (m *model) watch(p core.ForecastPart) {
	i := m.drawn(p)
	if i < 0 || m.members[p.Block][i].watched != nil {
		return
	}
	d := &m.members[p.Block][i]
	d.watched = &watched{state: make([]uint8, m.trials)}
	for _, o := range d.outlooks {
		for _, s := range slices.Concat(o.ill, o.fit) {
			if !slices.Contains(d.watched.masks, s.feasible) && len(d.watched.masks) < maxWatched {
				d.watched.masks = append(d.watched.masks, s.feasible)
			}
		}
	}
}

// drawn gives where a part stands among the members that are drawn; -1 if it is sure.
func (m *model) drawn(p core.ForecastPart) int {
	return slices.IndexFunc(m.members[p.Block], func(d member) bool { return d.index == p.Member })
}

func (m *model) watchedAt(p core.ForecastPart) *watched {
	if i := m.drawn(p); i >= 0 {
		return m.members[p.Block][i].watched
	}
	return nil
}

// put writes a state down.
func (w *watched) put(trial int, feasible uint64) {
	w.state[trial] = uint8(max(0, slices.Index(w.masks, feasible)))
}

// told is what a part tells of the total: how far from the mean the total lies, on average, in each of its states.
type told struct {
	state  []uint8
	far    []float64 // by state
	states int       // met in the trials
}

func (d *draws) tell(w *watched, mean float64) told {
	if w == nil {
		return told{}
	}
	t := told{state: w.state, far: make([]float64, len(w.masks))}
	count := make([]float64, len(w.masks))
	for i, c := range d.total {
		t.far[w.state[i]] += c - mean
		count[w.state[i]]++
	}
	for k, n := range count {
		if n > 0 {
			t.far[k] /= n
			t.states++
		}
	}
	return t
}

// summed is what parts tell together. Looks of which each holds the one before are gone through once.
type summed struct {
	parts core.ForecastLook
	far   []float64 // by trial
	free  float64   // states met, beyond one a part
}

// begins reports whether a look begins with the parts that are summed.
func (s *summed) begins(look core.ForecastLook) bool {
	return len(look) >= len(s.parts) && slices.Equal(s.parts, look[:len(s.parts)])
}

func (s *summed) forget() {
	clear(s.far)
	s.parts, s.free = s.parts[:0], 0
}

func (s *summed) add(p core.ForecastPart, t told) {
	s.parts = append(s.parts, p)
	if t.states < 2 {
		return
	}
	s.free += float64(t.states - 1)
	for i, state := range t.state {
		s.far[i] += t.far[state]
	}
}

// settled gives the share of the variance that the parts together explain, less what chance would.
func (d *draws) settled(sum summed, mean float64) float64 {
	var cc, cb, bb float64
	for i, total := range d.total {
		c, b := total-mean, sum.far[i]
		cc, cb, bb = cc+c*c, cb+c*b, bb+b*b
	}
	n := float64(len(d.total))
	if sum.free == 0 || n <= sum.free+1 || !(cc > 0) || !(bb > 0) {
		return 0
	}
	share := cb / cc * (cb / bb)
	return math.Max(0, share-sum.free*(1-share)/(n-sum.free-1))
}
