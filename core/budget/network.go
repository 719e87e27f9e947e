package budget

import (
	"fmt"

	"github.com/fettle-tools/fettle/core"
)

// network is a core.Network compiled for drawing beside its model. It is read only once built, and shared by all workers.
type network struct {
	*model
	strip []timed
	work  []working
	waits []waiting
	pace  pace
}

// timed is a range that is read at a normal score.
type timed struct {
	cost      int
	low, span float64
	curve     *curve // nil: constant
}

func newTimed(cost int, r core.Range3) timed {
	t := timed{cost: cost, low: r.Low, span: r.High - r.Low}
	if t.span > 0 {
		t.curve = shapes.of((r.Mean() - r.Low) / t.span)
	}
	return t
}

func (t *timed) at(score float64) float64 {
	if t.curve == nil {
		return t.low
	}
	return t.low + t.span*t.curve.at(score)
}

type working struct {
	timed         // hours
	wait    timed // weeks
	waiting int   // index of waits, or -1
	off     []int
	before  []int
	under   []int
}

// waiting is what is waited for together.
type waiting struct {
	name   string
	stream stream
}

func compileNetwork(m *model, n core.Network) *network {
	out := &network{model: m, pace: newPace(n.Pace)}
	for _, s := range n.Strip {
		out.strip = append(out.strip, newTimed(s.Cost, s.Hours))
	}
	known := map[string]int{}
	for _, w := range n.Work {
		x := working{timed: newTimed(w.Cost, w.Hours), wait: newTimed(w.Cost, w.Wait), waiting: -1, off: w.Off, before: w.Before, under: w.Under}
		if w.Wait != (core.Range3{}) {
			i, found := known[w.WaitFor]
			if !found {
				i = len(out.waits)
				known[w.WaitFor] = i
				out.waits = append(out.waits, waiting{firstOf(w.Name, w.WaitFor), newStream(m.forecast.Seed, "wait", w.WaitFor, 0)})
			}
			x.waiting = i
		}
		out.work = append(out.work, x)
	}
	return out
}

// checkNetwork gives nil, or one error of code core.Invalid that tells all faults.
func checkNetwork(f core.Forecast, n core.Network) error {
	c := checker{forecast: f}
	ranged := func(where string, r core.Range3) {
		if !finite(r.Low, r.Likely, r.High) || r.Low < 0 || r.Low > r.Likely || r.Likely > r.High {
			c.fault("%s: low %g, likely %g, high %g are not in that order from 0 on", where, r.Low, r.Likely, r.High)
		}
	}
	for i, s := range n.Strip {
		c.indices(fmt.Sprint("step ", i), []int{s.Cost})
		ranged(fmt.Sprint("hours of step ", i), s.Hours)
	}
	earlier := func(where string, is []int, end int) {
		for _, i := range is {
			if i < 0 || i >= end {
				c.fault("%s: %d does not come earlier", where, i)
			}
		}
	}
	for i, w := range n.Work {
		c.indices(fmt.Sprint("work ", i), []int{w.Cost})
		ranged(fmt.Sprint("hours of work ", i), w.Hours)
		ranged(fmt.Sprint("wait of work ", i), w.Wait)
		earlier(fmt.Sprint("steps before work ", i), w.Off, len(n.Strip))
		earlier(fmt.Sprint("work before the wait of work ", i), w.Before, i)
		earlier(fmt.Sprint("work before work ", i), w.Under, i)
	}
	if !finite(n.Pace.HoursWeek) || n.Pace.HoursWeek <= 0 {
		c.fault("%g hours a week", n.Pace.HoursWeek)
	}
	for _, h := range n.Pace.Others {
		if !finite(h) || h < 0 {
			c.fault("another job has %g hours left", h)
		}
	}
	return c.err("correct the hours and the weeks named; the bench's hours are weekly_hours in fettle.yaml", "the finish cannot be drawn")
}
