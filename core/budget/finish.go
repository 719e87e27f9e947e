package budget

import (
	"cmp"
	"context"
	"slices"

	"github.com/fettle-tools/fettle/core"
)

// Finish implements core.Timekeeper. In a trial the bench strips first; then it takes what may begin, in the order in which it may begin. No
// other order ends earlier (the makespan of one machine with release dates), and so the finish is the longest of all paths that run up to the
// beginning of a piece of work and then through the hours of all work that begins no earlier. More hours or a longer wait never end earlier.
//
// Work that comes before a wait is taken as done as if the bench had nothing else to do: what has to go out is done first.
//
// What a trial waits for is the wait at the beginning of its longest path; how much later it makes the finish is told by working the trial out
// again without it. Its share of the variance is the covariance of that with the finish, over the variance; what is left is the bench's.
//
// Errors are of code core.Invalid and core.Conflict, as Budget's.
func (s Simulator) Finish(ctx context.Context, f core.Forecast, n core.Network) (core.FinishSpread, error) {
	if err := check(f); err != nil {
		return core.FinishSpread{}, err
	}
	if err := checkNetwork(f, n); err != nil {
		return core.FinishSpread{}, err
	}
	net := compileNetwork(compile(f), n)
	weeks := &draws{model: net.model, total: make([]float64, net.trials)}
	told := make([]finishSums, net.chunks())
	err := s.each(ctx, net.model, func() drawing {
		k := newKeeper(net)
		return drawing{k.worker, k.draw, func(c int) {
			copy(weeks.total[k.first:k.first+k.n], k.finish[:k.n])
			told[c] = k.sums()
		}}
	})
	if err != nil {
		return core.FinishSpread{}, err
	}
	return net.spread(weeks, told), nil
}

// finishSums is what a chunk comes to.
type finishSums struct {
	hours float64
	free  int // trials that wait for nothing
	held  []heldSums
}

// heldSums are sums over the trials of a chunk that wait for one thing.
type heldSums struct {
	trials                            int
	begins, wait, after, later, cross float64 // cross: of later and the finish
}

func (k *keeper) sums() finishSums {
	s := finishSums{held: make([]heldSums, len(k.net.waits))}
	for t := range k.n {
		s.hours += k.strip[t] + k.all[t]
		i := k.held[t]
		if i < 0 {
			s.free++
			continue
		}
		h := &s.held[k.net.work[i].waiting]
		begins, wait, later := k.net.pace.weeks(k.began[t]), k.wait[i][t], k.finish[t]-k.without[t]
		h.trials++
		h.begins, h.wait, h.after, h.later, h.cross = h.begins+begins, h.wait+wait, h.after+k.finish[t]-begins-wait, h.later+later, h.cross+later*k.finish[t]
	}
	return s
}

// maxHeldUp is the most that are named.
const maxHeldUp = 10

// spread puts the chunks together.
func (n *network) spread(d *draws, chunks []finishSums) core.FinishSpread {
	s := core.FinishSpread{Trials: n.trials, Seed: n.forecast.Seed, Curve: make([]float64, 101), BenchShare: 1}
	s.Mean, s.SD = moments(d.total)
	sorted := slices.Sorted(slices.Values(d.total))
	for i := range s.Curve {
		s.Curve[i] = quantile(sorted, float64(i)/100)
	}
	s.P10, s.P50, s.P80, s.P90 = s.Curve[10], s.Curve[50], s.Curve[80], s.Curve[90]
	for i, p := range figures {
		s.SE[i] = d.quantileError(sorted, p)
	}
	trials, sums, free := float64(n.trials), make([]heldSums, len(n.waits)), 0
	for _, c := range chunks {
		s.Hours += c.hours / trials
		free += c.free
		for i, h := range c.held {
			x := &sums[i]
			x.trials += h.trials
			x.begins, x.wait, x.after, x.later, x.cross = x.begins+h.begins, x.wait+h.wait, x.after+h.after, x.later+h.later, x.cross+h.cross
		}
	}
	s.Bench = float64(free) / trials
	for i, h := range sums {
		if h.trials == 0 {
			continue
		}
		m := float64(h.trials)
		u := core.HoldUp{Name: n.waits[i].name, Chance: m / trials, Begins: h.begins / m, Wait: h.wait / m, After: h.after / m, Later: h.later / m}
		if s.SD > core.Slack {
			u.Share = (h.cross/trials - h.later/trials*s.Mean) / (s.SD * s.SD)
		}
		s.HeldUp = append(s.HeldUp, u)
	}
	slices.SortStableFunc(s.HeldUp, func(a, b core.HoldUp) int { return cmp.Compare(b.Chance, a.Chance) })
	s.HeldUp = s.HeldUp[:min(len(s.HeldUp), maxHeldUp)]
	for _, u := range s.HeldUp {
		s.BenchShare -= u.Share
	}
	return s
}
