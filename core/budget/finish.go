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

// keeper works out the finish of a chunk of trials; each has its own room. What is not due in a trial has no hours there, and a release of 0.
type keeper struct {
	*worker
	net     *network
	strip   amounts   // hours of all steps
	done    []amounts // by step: the hours of the bench up to its end
	due     [][]uint8 // by work: the trials in which it falls due
	hours   []amounts // by work
	all     amounts   // hours of all of it
	scored  []amounts // by what is waited for
	wait    []amounts // by work: weeks
	begun   []amounts // by work: the hours of the bench at which its wait begins
	release []amounts // by work: the hours of the bench at which it may begin
	cause   []causes  // by work: the work whose wait its release comes from
	finish  amounts   // weeks
	held    causes    // the work whose wait the finish waits for
	without amounts   // weeks: the finish if that were not waited for
	queue   []begins
	queues  [chunkSize][]begins // by trial
}

// causes are indices of work by trial; nothing is none.
type causes [chunkSize]int32

const nothing = -1

// noCause is nothing in every trial.
var noCause = func() (c causes) {
	for t := range c {
		c[t] = nothing
	}
	return c
}()

// begins is a piece of work that may begin once the bench has had so many hours, and the work whose wait that comes from.
type begins struct {
	at, hours float64
	cause     int32
}

func newKeeper(n *network) *keeper {
	size := len(n.work)
	return &keeper{worker: newWorker(n.model), net: n, done: make([]amounts, len(n.strip)), due: make([][]uint8, size), hours: make([]amounts, size), scored: make([]amounts, len(n.waits)),
		wait: make([]amounts, size), begun: make([]amounts, size), release: make([]amounts, size), cause: make([]causes, size), queue: make([]begins, 0, size)}
}

// draw fills finish, held and without for the n trials from first; false if a block has no option in one of them.
func (k *keeper) draw(first, n int) bool {
	if !k.fall(first, n) {
		return false
	}
	k.drawStrip()
	k.drawWork()
	k.lay(&noCause)
	k.end(&k.finish, &k.held)
	skipped := noCause
	for t, w := range k.held[:n] {
		if w >= 0 {
			skipped[t] = int32(k.net.work[w].waiting)
		}
	}
	k.lay(&skipped)
	var held causes
	k.end(&k.without, &held)
	return true
}

// spent draws the hours of a cost in the trials in which it is due, at the place in its range at which its money lies.
func (k *keeper) spent(x *timed, to *amounts) {
	*to = amounts{}
	trials := k.paid[x.cost].list(k.trials[:0])
	if x.curve != nil {
		k.score(k.lines[x.cost].stream, trials)
	}
	for i, t := range trials {
		to[t] = x.at(k.scores[uint8(i)]) * k.ratio[t]
		if len(k.lines[x.cost].extras) > 0 {
			to[t] *= k.count(x.cost, int(t))
		}
	}
}

func (k *keeper) drawStrip() {
	k.strip = amounts{}
	for i := range k.net.strip {
		s := &k.net.strip[i]
		k.spent(s, &k.done[i])
		due := &k.paid[s.cost]
		for t, h := range &k.done[i] {
			k.strip[t] += h
			k.done[i][t] = 0
			if due.has(t) {
				k.done[i][t] = k.strip[t]
			}
		}
	}
}

// drawWork draws hours, and waits: what is waited for together has one draw, correlated with the lines as they are with one another.
func (k *keeper) drawWork() {
	every := k.worker.all.list(k.trials[:0])
	for i := range k.net.waits {
		k.score(k.net.waits[i].stream, every)
		k.scored[i] = k.scores
	}
	k.all = amounts{}
	for i := range k.net.work {
		w := &k.net.work[i]
		k.due[i] = k.paid[w.cost].list(k.due[i][:0])
		k.spent(&w.timed, &k.hours[i])
		k.release[i] = amounts{}
		for _, t := range k.due[i] {
			k.all[t] += k.hours[i][t]
			if w.waiting >= 0 {
				k.wait[i][t] = w.wait.at(k.scored[w.waiting][t])
			}
		}
	}
}

// lay works out when each piece of work may begin. What is waited for is here at once where skipped says so.
func (k *keeper) lay(skipped *causes) {
	pace := k.net.pace
	for i := range k.net.work {
		w := &k.net.work[i]
		release, begun, cause, due := &k.release[i], &k.begun[i], &k.cause[i], k.due[i]
		for _, t := range due {
			begun[t], release[t], cause[t] = 0, k.strip[t], nothing
		}
		for _, s := range w.off {
			done := &k.done[s]
			for _, t := range due {
				begun[t] = max(begun[t], done[t])
			}
		}
		for _, t := range due {
			why := int32(nothing)
			if len(w.before) > 0 {
				if h, held := k.together(w.before, int(t)); h > begun[t] {
					begun[t], why = h, held
				}
			}
			at := begun[t]
			if w.waiting >= 0 && skipped[t] != int32(w.waiting) {
				at, why = pace.by(pace.weeks(at)+k.wait[i][t]), int32(i)
			}
			if at > release[t] {
				release[t], cause[t] = at, why
			}
		}
		for _, u := range w.under {
			above, whys := &k.release[u], &k.cause[u]
			for _, t := range due {
				if above[t] > release[t] {
					release[t], cause[t] = above[t], whys[t]
				}
			}
		}
	}
}

// together is when some work is done in trial t if the bench has nothing else to do, in hours of the bench, and what that waits for.
func (k *keeper) together(work []int, t int) (at float64, held int32) {
	k.queue = k.queue[:0]
	for _, i := range work {
		if k.paid[k.net.work[i].cost].has(t) {
			k.queue = append(k.queue, begins{k.release[i][t], k.hours[i][t], k.cause[i][t]})
		}
	}
	return longest(k.queue, 0, nothing)
}

// end works out when each trial is done, in weeks, and what it waits for.
func (k *keeper) end(finish *amounts, held *causes) {
	for t := range k.queues {
		k.queues[t] = k.queues[t][:0]
	}
	for i := range k.net.work {
		for _, t := range k.due[i] {
			if at := k.release[i][t]; at > k.strip[t] { // all else is in the hours that are known
				k.queues[t] = append(k.queues[t], begins{at, k.hours[i][t], k.cause[i][t]})
			}
		}
	}
	for t := range k.n {
		var at float64
		at, held[t] = longest(k.queues[t], k.strip[t]+k.all[t], nothing)
		finish[t] = k.net.pace.weeks(at)
	}
}

// longest is the longest path, in hours of the bench, among one that is known and those that run up to the beginning of a piece of work and
// then through the hours of all that begins no earlier. Of equals it is the first. The queue's order is lost.
func longest(queue []begins, known float64, why int32) (float64, int32) {
	queue = latest(queue, known)
	slices.SortStableFunc(queue, func(a, b begins) int { return cmp.Compare(b.at, a.at) })
	var hours float64
	for _, q := range queue {
		hours += q.hours
		if q.at+hours > known {
			known, why = q.at+hours, q.cause
		}
	}
	return known, why
}

// latest keeps the work at whose beginning the longest path can turn: what begins so early that all that is kept, after it, ends before some
// path that is known is dropped, until nothing more can be.
func latest(queue []begins, known float64) []begins {
	var hours float64
	for _, q := range queue {
		known, hours = max(known, q.at+q.hours), hours+q.hours
	}
	for {
		kept, less := queue[:0], hours
		for _, q := range queue {
			if q.at+hours*(1+core.Slack) < known { // sums are rounded in another order
				less -= q.hours
			} else {
				kept = append(kept, q)
			}
		}
		if len(kept) == len(queue) {
			return kept
		}
		queue, hours = kept, less
	}
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
		begins, wait, later := k.net.pace.weeks(k.begun[i][t]), k.wait[i][t], k.finish[t]-k.without[t]
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
