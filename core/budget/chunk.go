package budget

// worker draws chunks; each has its own room.
type worker struct {
	*model
	normals  *normalTable
	first, n int // the chunk's first trial and its number of trials
	all      mask
	factor   amounts
	ratio    amounts
	times    []amounts // by group
	happened []mask    // by event
	once     []mask    // by line: asked for by the base, an option or an event that pays once
	due      []mask    // by line: the same, or by an event that pays several times
	paid     []mask    // by line: due and not included by another that is due
	chosen   [maxOptions]mask
	owners   []amounts // by owner of the spread
	total    amounts
	scratch  amounts
	scores   amounts // of the line being drawn, in the order of its trials
	trials   [chunkSize]uint8
	failed   int // block without a feasible option; -1: none
}

func newWorker(m *model) *worker {
	return &worker{
		model: m, normals: normals(), failed: -1,
		times: make([]amounts, len(m.times)), happened: make([]mask, len(m.events)),
		once: make([]mask, len(m.lines)), due: make([]mask, len(m.lines)), paid: make([]mask, len(m.lines)), owners: make([]amounts, len(m.owners)),
	}
}

// draw fills total and owners for the n trials from first; false if a block has no option in one of them.
func (w *worker) draw(first, n int) bool {
	if !w.fall(first, n) {
		return false
	}
	w.price()
	return true
}

// fall draws what falls due in the n trials from first, and what they share; false if a block has no option in one of them.
func (w *worker) fall(first, n int) bool {
	w.first, w.n = first, n
	w.all = mask{}
	for t := range n {
		w.all.set(t)
		w.factor[t], w.ratio[t] = w.shared(first + t)
	}
	for i := range w.once {
		w.once[i] = mask{}
		if w.lines[i].base {
			w.once[i] = w.all
		}
	}
	w.drawTimes()
	w.drawEvents()
	for b := range w.members {
		if !w.drawBlock(b) {
			w.failed = b
			return false
		}
	}
	w.settle()
	return true
}

func (w *worker) drawTimes() {
	for g, m := range w.model.times {
		if m == nil {
			continue
		}
		for t := range w.n {
			w.times[g][t] = m.curve.at(w.normals.at(m.stream.bits(w.first + t)))
		}
	}
}

// multiplier gives what a group's chances are multiplied by, by trial.
func (w *worker) multiplier(group int) *amounts {
	if group < 0 {
		return &ones
	}
	return &w.times[group]
}

// ones is the multiplier of what belongs to no group, or to one that has none.
var ones = func() (a amounts) {
	for t := range a {
		a[t] = 1
	}
	return a
}()

func (w *worker) drawEvents() {
	for i := range w.events {
		e := &w.events[i]
		var hit mask
		times := w.multiplier(e.group)
		for t := range w.n {
			if e.stream.uniform(w.first+t) < raised(e.chance, times[t]) {
				hit.set(t)
			}
		}
		w.happened[i] = hit
		for _, c := range e.once {
			w.once[c].or(&hit)
		}
	}
}

func (w *worker) drawBlock(b int) bool {
	options := w.options[b]
	clear(w.chosen[:len(options)])
	var feasible [chunkSize]uint64
	for t := range w.n {
		feasible[t] = w.always[b]
	}
	for i := range w.members[b] {
		w.drawMember(&w.members[b][i], &feasible)
	}
	for t, left := range feasible[:w.n] {
		k, ok := firstOption(left)
		if !ok {
			return false
		}
		if len(options[k]) > 0 {
			w.chosen[k].set(t)
		}
	}
	for k, costs := range options {
		for _, c := range costs {
			w.once[c].or(&w.chosen[k])
		}
	}
	return true
}

// drawMember strikes from each trial the options that the part's state does not allow.
func (w *worker) drawMember(m *member, feasible *[chunkSize]uint64) {
	if m.hangs && m.watched == nil {
		w.hang(m, feasible)
		return
	}
	times, o := w.multiplier(m.group), &m.outlooks[0]
	if len(m.events) == 0 && len(o.ill) == 1 && len(o.fit) == 1 && o.bad < 1 && m.watched == nil {
		w.turn(m, times, feasible)
		return
	}
	for t := range w.n {
		if len(m.events) > 0 {
			o = &m.outlooks[w.pattern(m.events, t)]
		}
		options := o.draw(m.stream.uniform(w.first+t), times[t])
		if m.watched != nil {
			m.watched.put(w.first+t, options)
		}
		feasible[t] &= options
	}
}

// turn strikes the options of a part that is either good or bad.
func (w *worker) turn(m *member, times *amounts, feasible *[chunkSize]uint64) {
	o := &m.outlooks[0]
	ill, fit, p, most := o.ill[0].feasible, o.fit[0].feasible, o.bad, max(chanceCap, o.bad)
	for t := range w.n {
		raised, options := p*times[t], fit
		if raised > most {
			raised = most
		}
		if m.stream.uniform(w.first+t) < raised {
			options = ill
		}
		feasible[t] &= options
	}
}

// hang strikes the options of a part that one event decides alone.
func (w *worker) hang(m *member, feasible *[chunkSize]uint64) {
	options := [2]uint64{m.outlooks[0].fit[0].feasible, m.outlooks[1].fit[0].feasible}
	happened := &w.happened[m.events[0]]
	for k, word := range happened {
		for i := range 64 {
			feasible[k<<6|i] &= options[word>>i&1]
		}
	}
}

// pattern has bit i set if the ith of these events happened in trial t.
func (w *worker) pattern(events []int, t int) int {
	p := 0
	for i, e := range events {
		if w.happened[e].has(t) {
			p |= 1 << i
		}
	}
	return p
}

// settle drops from each line the trials in which another that is due includes it.
func (w *worker) settle() {
	copy(w.due, w.once)
	for i := range w.lines {
		for _, x := range w.lines[i].extras {
			w.due[i].or(&w.happened[x.event])
		}
	}
	copy(w.paid, w.due)
	for i, included := range w.forecast.Includes {
		for _, j := range included {
			for k := range w.paid[j] {
				w.paid[j][k] &^= w.due[i][k]
			}
		}
	}
}

// price adds every line's amounts to its owner, and the owners to the total.
func (w *worker) price() {
	clear(w.owners)
	for i := range w.lines {
		l := &w.lines[i]
		if len(l.extras) == 0 && l.curve != nil && w.n == chunkSize && w.paid[i] == w.all {
			w.addAll(l, &w.owners[l.owner])
			continue
		}
		trials := w.paid[i].list(w.trials[:0])
		if len(l.extras) == 0 {
			w.add(l, &w.owners[l.owner], trials)
			continue
		}
		w.scratch = amounts{}
		w.add(l, &w.scratch, trials)
		for _, t := range trials {
			w.owners[l.owner][t] += w.scratch[t] * w.count(i, int(t))
		}
	}
	w.total = amounts{}
	for o := range w.owners {
		for t, v := range &w.owners[o] {
			w.total[t] += v
		}
	}
}

// count is how many times a line with extras is paid in trial t: once if anything but them asks for it, and each of them beside.
func (w *worker) count(i, t int) float64 {
	var n float64
	if w.once[i].has(t) {
		n = 1
	}
	for _, x := range w.lines[i].extras {
		if w.happened[x.event].has(t) {
			n += x.times
		}
	}
	return n
}

// add draws a line in the trials given: its position in its range by the copula, then money and labour at that position.
func (w *worker) add(l *line, to *amounts, trials []uint8) {
	if l.curve == nil {
		for _, t := range trials {
			to[t] += l.rest + l.labour*w.ratio[t]
		}
		return
	}
	scores := &w.scores
	w.score(l.stream, trials)
	curve, ratio := l.curve, &w.ratio
	rest, restSpan, labour, labourSpan := l.rest, l.restSpan, l.labour, l.labourSpan
	for i, t := range trials {
		v := curve.at(scores[uint8(i)])
		to[t] += rest + restSpan*v + (labour+labourSpan*v)*ratio[t]
	}
}

// addAll is add in every trial of a whole chunk.
func (w *worker) addAll(l *line, to *amounts) {
	table, factor, common, own, scores := w.normals, &w.factor, w.common, w.own, &w.scores
	for t := range scores {
		scores[t] = common*factor[t] + own*table.at(l.stream.bits(w.first+t))
	}
	curve, ratio := l.curve, &w.ratio
	rest, restSpan, labour, labourSpan := l.rest, l.restSpan, l.labour, l.labourSpan
	for t, z := range scores {
		v := curve.at(z)
		to[t] += rest + restSpan*v + (labour+labourSpan*v)*ratio[t]
	}
}

// score draws normal scores of the copula for the trials given, one after another.
func (w *worker) score(s stream, trials []uint8) {
	table, factor, common, own := w.normals, &w.factor, w.common, w.own
	for i, t := range trials {
		w.scores[uint8(i)] = common*factor[t] + own*table.at(s.bits(w.first+int(t)))
	}
}
