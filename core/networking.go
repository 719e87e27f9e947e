package core

import (
	"fmt"
	"slices"
	"strings"
)

// network lays out how long what the forecast prices takes, and what it waits for (common practice, no source, where no other is named):
//
//   - Steps come off in the order of the plan, and go back on the other way round.
//   - What is sent out waits for the steps that lay it open, and for those of a set that goes out together.
//   - Goods that are needed for certain are ordered today; what may be needed is ordered when the parts have been laid open.
//   - What is out or on order is there on the day promised, or as much later as it usually may be.
//   - What comes after other work waits until that is done, then goes out, is ordered or is begun.
//   - Bench work on a part follows its wait. A step is refitted when the parts behind it are ready.
func (b *bench) network(d *due, f Forecast) Network {
	w := networkWriter{b: b, d: d, refits: make([]int, len(b.access.steps)), at: make([]int, len(b.access.steps))}
	w.net.Pace = b.req.Pace
	order := b.comingApart()
	for pos, n := range order {
		w.at[n] = pos
	}
	w.strip(order)
	w.work()
	w.events(f)
	w.refit(order)
	return w.net
}

type networkWriter struct {
	b      *bench
	d      *due
	net    Network
	at     []int   // by step: its place in the order of coming apart, which is its index in net.Strip
	refits []int   // by step: the index of its refitting in net.Work, or -1
	behind [][]int // by step: work that must be done before it is refitted
}

// comingApart lists the steps, each after those that it needs, any-of included.
func (b *bench) comingApart() []int {
	var out []int
	done := make([]bool, len(b.access.steps))
	var visit func(n int)
	visit = func(n int) {
		if done[n] {
			return
		}
		done[n] = true
		s := &b.access.steps[n]
		for _, m := range s.allOf {
			visit(m)
		}
		for _, clause := range s.anyOf {
			for _, m := range clause {
				visit(m)
			}
		}
		out = append(out, n)
	}
	for n := range b.access.steps {
		visit(n)
	}
	return out
}

// stripCost and refitCost are where forecast puts a step's costs.
func (b *bench) stripCost(step int) int { return len(b.ops) + step }
func (b *bench) refitCost(step int) int { return len(b.ops) + len(b.access.steps) + step }

func (w *networkWriter) strip(order []int) {
	w.behind = make([][]int, len(w.b.access.steps))
	for _, n := range order {
		s := &w.b.access.steps[n]
		hours := s.step.StripHours
		if s.absent || s.apart {
			hours = Range3{}
		}
		w.net.Strip = append(w.net.Strip, NetworkStep{w.b.stripCost(n), rising(hours)})
	}
}

// work lays out the operations that may fall due, each after those that it comes after. A ring of them is cut where it closes.
func (w *networkWriter) work() {
	begun := make([]bool, len(w.b.ops))
	at := make([]int, len(w.b.ops)) // in net.Work; -1 until it is there
	for n := range at {
		at[n] = -1
	}
	var visit func(n int)
	visit = func(n int) {
		if begun[n] || w.d.opDue[n] == 0 {
			return
		}
		begun[n] = true
		var before []int
		for _, m := range w.earlier(n) {
			if visit(m); at[m] >= 0 {
				before = append(before, at[m])
			}
		}
		at[n] = w.operation(n, before)
	}
	for n := range w.b.ops {
		visit(n)
	}
}

// earlier lists the operations of the same sheet that one comes after, whatever their pieces.
func (w *networkWriter) earlier(n int) []int {
	o := w.b.ops[n]
	if len(o.op.After) == 0 {
		return nil
	}
	var out []int
	for m, x := range w.b.ops {
		if x.sheet == o.sheet && slices.Contains(o.op.After, kindOf(x.op)) {
			out = append(out, m)
		}
	}
	return out
}

// kindOf is an operation's id without the piece.
func kindOf(o Operation) string {
	kind, _, _ := strings.Cut(o.ID, "/")
	return kind
}

func (w *networkWriter) operation(n int, before []int) int {
	o := w.b.ops[n]
	line := "work:" + o.key
	x := NetworkWork{Cost: n, Hours: w.b.left(line, o.cost.Hours), Before: before}
	sent := o.op.OutworkKind != "" || !o.op.Outwork.Empty()
	reach, group, unread := w.reach(n)
	x.Wait = o.cost.Lead
	if w.d.opDue[n] < 1 || sent {
		x.Off = w.places(reach)
	}
	if sent || unread {
		x.Off = w.places(append(reach, group...))
	}
	if wait, begun := w.b.promised(line, o.cost.Lead); begun {
		x.Wait, x.Off, x.Before = wait, nil, nil
	}
	if x.Wait != (Range3{}) {
		x.WaitFor = "wait:" + opKey(w.b.sheets[o.sheet], kindOf(o.op)) // what is ordered alike comes together
		plain, _, _ := strings.Cut(o.op.Name, " (")
		x.Name = withKind(plain, o.op.OutworkKind)
		if x.Wait != o.cost.Lead {
			x.WaitFor = "wait:" + o.key // it has a day of its own
		}
	}
	at := w.add(x)
	for _, s := range reach {
		w.behind[s] = append(w.behind[s], at)
	}
	return at
}

// rising takes a range as far as it goes: one of which the likely alone is stated, or which falls, is its likely, and no reason to say nothing of
// the finish.
func rising(r Range3) Range3 {
	if r.Low < 0 || r.Low > r.Likely || r.High < r.Likely {
		likely := max(0, r.Likely)
		return Range3{likely, likely, likely}
	}
	return r
}

func withKind(name, kind string) string {
	if kind == "" {
		return name
	}
	return name + ", " + kind
}

// reach gives the steps that lay an operation's parts open; those that lay open the other members of a set that is ordered for together; and
// whether one of these is not read.
func (w *networkWriter) reach(op int) (own, group []int, unread bool) {
	var places []Place
	for _, part := range w.d.opParts[op] {
		p := w.b.parts[part]
		places = append(places, p.place)
		own = appendSteps(own, p.reach)
	}
	s := w.b.sheets[w.b.ops[op].sheet]
	for _, set := range s.Sheet.Sets {
		touches := func(t Target) bool { return slices.Contains(places, Place{s.Subsystem, s.Unit, t}) }
		if !set.CompleteBeforeOrder || !slices.ContainsFunc(set.Members, touches) {
			continue
		}
		for i, p := range w.b.parts {
			if p.sheet == w.b.ops[op].sheet && slices.Contains(set.Members, p.place.Target) {
				group = appendSteps(group, w.b.parts[i].reach)
				unread = unread || p.cond.Grade == NotSeen
			}
		}
	}
	return own, group, unread
}

func appendSteps(to, more []int) []int {
	for _, n := range more {
		if !slices.Contains(to, n) {
			to = append(to, n)
		}
	}
	return to
}

// places turns steps into indices of net.Strip.
func (w *networkWriter) places(steps []int) []int {
	var out []int
	for _, n := range steps {
		out = append(out, w.at[n])
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// events are found when all that comes apart is apart, and hold nothing but the finish.
func (w *networkWriter) events(f Forecast) {
	var all []int
	for i := range w.net.Strip {
		all = append(all, i)
	}
	for _, e := range w.b.ownEvents(w.d) {
		x := NetworkWork{Cost: slices.IndexFunc(f.Costs, func(c ForecastCost) bool { return c.ID == "event:"+e.key }), Hours: e.cost.Hours, Off: all}
		for _, n := range w.b.operations(w.b.sheets[e.sheet], e.row.Operations) {
			if w.d.opDue[n] < 1 {
				x.Wait = x.Wait.longer(w.b.ops[n].cost.Lead)
			}
		}
		if x.Wait != (Range3{}) {
			x.WaitFor, x.Name = "wait:event:"+e.key, e.row.Name
		}
		w.add(x)
	}
}

// add gives the index of what it adds.
func (w *networkWriter) add(x NetworkWork) int {
	x.Hours, x.Wait = rising(x.Hours), rising(x.Wait)
	w.net.Work = append(w.net.Work, x)
	return len(w.net.Work) - 1
}

// refit goes back through the steps: each after those that came off later because of it, and after the parts behind it.
func (w *networkWriter) refit(order []int) {
	needs := func(m, n int) bool { // does m need n off?
		s := &w.b.access.steps[m]
		return slices.Contains(s.allOf, n) || slices.ContainsFunc(s.anyOf, func(c []int) bool { return slices.Contains(c, n) })
	}
	for pos, n := range slices.Backward(order) {
		if w.d.stepDue[n] == 0 {
			w.refits[n] = -1
			continue
		}
		s := &w.b.access.steps[n]
		line := "refit:" + s.key
		x := NetworkWork{Cost: w.b.refitCost(n), Under: slices.Clone(w.behind[n])}
		if !s.absent {
			x.Hours = w.b.left(line, s.step.Refit())
			for _, it := range s.refit.Items {
				x.Wait = x.Wait.longer(it.Lead)
			}
		}
		if wait, begun := w.b.promised(line, x.Wait); begun {
			x.Wait = wait
		}
		if x.Wait != (Range3{}) {
			x.WaitFor, x.Name = fmt.Sprint("wait:refit:", s.key), "Goods for refitting: "+s.step.Name
		}
		for _, m := range order[pos+1:] {
			if w.refits[m] >= 0 && needs(m, n) {
				x.Under = append(x.Under, w.refits[m])
			}
		}
		w.refits[n] = w.add(x)
	}
}
