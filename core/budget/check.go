package budget

import (
	"fmt"
	"math"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

const (
	maxOptions  = 64 // the bits of ForecastState.Feasible
	maxEvents   = 8  // that the states of one part hang on: each pattern of them has its outlook
	minTrials   = 100
	maxTrials   = 10_000_000
	chanceSlack = 1e-6
)

// checker gathers every fault of a forecast.
type checker struct {
	forecast core.Forecast
	faults   []string
}

// check gives nil, or one error of code core.Invalid that tells all faults.
func check(f core.Forecast) error {
	c := checker{forecast: f}
	c.settings()
	c.costs()
	c.events()
	for _, b := range f.Blocks {
		c.block(b)
	}
	return c.err("correct the prices, chances or remedies named; a block of too many options wants its set split", "the budget cannot be drawn")
}

// err tells all faults as one error; nil if there is none.
func (c *checker) err(next, what string) error {
	if len(c.faults) == 0 {
		return nil
	}
	return core.Errorf(core.Invalid, next, "%s: %s", what, strings.Join(c.faults, "; "))
}

func (c *checker) fault(format string, args ...any) {
	c.faults = append(c.faults, fmt.Sprintf(format, args...))
}

func finite(vs ...float64) bool {
	for _, v := range vs {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return false
		}
	}
	return true
}

func (c *checker) settings() {
	f := c.forecast
	if f.Trials != 0 && (f.Trials < minTrials || f.Trials > maxTrials) {
		c.fault("%d trials: give 0 for the default, or %d to %d", f.Trials, minTrials, maxTrials)
	}
	if !(f.Rho >= 0 && f.Rho <= 1) {
		c.fault("correlation %g is not between 0 and 1", f.Rho)
	}
	if !finite(f.Ratio.Median, f.Ratio.SD) || f.Ratio.Median < 0 {
		c.fault("labour ratio with median %g and sd %g", f.Ratio.Median, f.Ratio.SD)
	}
	for _, g := range f.Groups {
		if !finite(g.Shape, g.Rate) || g.Shape < 0 || g.Rate < 0 || (g.Shape == 0) != (g.Rate == 0) {
			c.fault("group %s: multiplier of shape %g and rate %g", g.Name, g.Shape, g.Rate)
		}
	}
}

func (c *checker) costs() {
	f := c.forecast
	for _, l := range f.Costs {
		t := l.Total
		switch {
		case !finite(t.Low, t.Likely, t.High, l.LabourLow, l.LabourHigh):
			c.fault("cost %s: not a number", l.ID)
		case t.Low > t.Likely || t.Likely > t.High:
			c.fault("cost %s: low %g, likely %g, high %g are not in that order", l.ID, t.Low, t.Likely, t.High)
		case l.LabourLow < 0 || l.LabourLow > l.LabourHigh:
			c.fault("cost %s: labour from %g to %g", l.ID, l.LabourLow, l.LabourHigh)
		}
	}
	c.indices("base", f.Base)
	if len(f.Includes) > len(f.Costs) {
		c.fault("includes of %d costs where there are %d", len(f.Includes), len(f.Costs))
		return
	}
	for i, js := range f.Includes {
		c.indices("includes of "+f.Costs[i].ID, js)
		for _, j := range js {
			if i == j { // closed transitively, every ring of includes shows as this
				c.fault("cost %s includes itself", f.Costs[i].ID)
			}
		}
	}
}

func (c *checker) indices(where string, is []int) {
	for _, i := range is {
		if i < 0 || i >= len(c.forecast.Costs) {
			c.fault("%s: no cost %d", where, i)
		}
	}
}

func (c *checker) chance(where string, p float64) {
	if !(p >= 0 && p <= 1+chanceSlack) {
		c.fault("%s: chance %g is not between 0 and 1", where, p)
	}
}

func (c *checker) group(where string, i int) {
	if i >= len(c.forecast.Groups) && i > 0 { // with no groups at all, 0 is "none"
		c.fault("%s: no group %d", where, i)
	}
}

func (c *checker) events() {
	for _, e := range c.forecast.Events {
		c.chance("event "+e.ID, e.Chance)
		c.group("event "+e.ID, e.Group)
		c.indices("event "+e.ID, e.Costs)
		if !finite(e.Times) || e.Times < 0 {
			c.fault("event %s: paid %g times", e.ID, e.Times)
		}
	}
}

func (c *checker) block(b core.ForecastBlock) {
	if len(b.Options) == 0 || len(b.Options) > maxOptions {
		c.fault("block %s: %d joint options, where 1 to %d can be drawn", b.Name, len(b.Options), maxOptions)
		return
	}
	for _, o := range b.Options {
		c.indices("block "+b.Name+", option "+o.Name, o.Costs)
	}
	for _, m := range b.Members {
		where := "block " + b.Name + ", part " + m.Name
		c.group(where, m.Group)
		c.states(where, m.States, len(b.Options))
	}
}

// states checks that some state holds whatever happens: one that hangs on no event, or both sides of one event.
func (c *checker) states(where string, states []core.ForecastState, options int) {
	var sum, bad float64
	free := false
	hung, without := map[int]bool{}, map[int]bool{}
	for _, s := range states {
		c.chance(where, s.Chance)
		sum += s.Chance
		if s.Bad && s.Event < 0 {
			bad += s.Chance
		}
		if s.Feasible == 0 || s.Feasible>>(options-1)>>1 != 0 {
			c.fault("%s: feasible options %b of %d", where, s.Feasible, options)
		}
		switch {
		case s.Event >= len(c.forecast.Events):
			c.fault("%s: no event %d", where, s.Event)
		case s.Event < 0:
			free = true
		case s.NotEvent:
			without[s.Event] = true
		default:
			hung[s.Event] = true
		}
	}
	for e := range without {
		free = free || hung[e]
	}
	if n := len(eventsOf(states)); n > maxEvents {
		c.fault("%s: its states hang on %d events, where %d can be drawn", where, n, maxEvents)
	}
	if !free {
		c.fault("%s: no state holds when nothing of the register happens", where)
	}
	c.sums(where, sum, bad, len(hung)+len(without) > 0)
}

// sums checks the chances of a part whose states hang on no event. Where some are bad, theirs stands before the multiplier and
// theirs alone counts; the others take what is left.
func (c *checker) sums(where string, sum, bad float64, hangs bool) {
	switch {
	case bad > 1+chanceSlack:
		c.fault("%s: chances of the bad states sum to %g", where, bad)
	case !hangs && bad == 0 && math.Abs(sum-1) > chanceSlack:
		c.fault("%s: chances sum to %g", where, sum)
	}
}
