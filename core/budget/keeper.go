package budget

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
	began   amounts   // the hours of the bench at which that wait begins
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
			skipped[t], k.began[t] = int32(k.net.work[w].waiting), k.begun[w][t]
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
