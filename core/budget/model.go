package budget

import (
	"math"
	"math/bits"

	"github.com/fettle-tools/fettle/core"
)

// model is a forecast compiled for drawing. It is read only once built, and shared by all workers.
type model struct {
	forecast core.Forecast
	trials   int
	rows     int // of the strata, see strata.go
	lines    []line
	members  [][]member // by block
	options  [][][]int  // by block and option: costs
	always   []uint64   // by block: options that every sure member allows
	events   []event
	times    []*multiplier // by group; nil: no multiplier
	owners   []string      // names that the spread is shared out to
	centre   float64       // near the mean total: sums of products are taken about it
	factor   stream        // the common factor
	ratio    stream        // the labour ratio
	logSD    float64       // of the labour ratio; 0: none
	median   float64
	common   float64 // sqrt(rho)
	own      float64 // sqrt(1 - rho)
}

// line is one cost. Its amount at position v of its range is rest + restSpan v, and labour + labourSpan v that the labour ratio multiplies.
type line struct {
	stream             stream
	curve              *curve // nil: constant
	rest, restSpan     float64
	labour, labourSpan float64
	base               bool
	owner              int
	extras             []extra // paid beside the union
}

// extra is an event that pays a line so many times over.
type extra struct {
	event int
	times float64
}

type event struct {
	stream stream
	group  int
	chance float64
	once   []int // costs it adds to the union
}

type multiplier struct {
	stream stream
	curve  *curve
}

// compile needs a forecast without faults.
func compile(f core.Forecast) *model {
	m := &model{forecast: f, trials: f.Trials, median: f.Ratio.Median, logSD: f.Ratio.SD}
	if m.trials == 0 {
		m.trials = defaultTrials(f)
	}
	if m.median == 0 {
		m.median = DefaultRatio.Median
	}
	switch {
	case m.logSD == 0:
		m.logSD = DefaultRatio.SD
	case m.logSD < 0:
		m.logSD = 0
	}
	m.rows = int(math.Sqrt(float64(m.trials)))
	m.common, m.own = math.Sqrt(f.Rho), math.Sqrt(1-f.Rho)
	ids := newStreams(f.Seed)
	m.factor, m.ratio = ids.of("common factor", ""), ids.of("labour ratio", "")
	m.compileLines(ids)
	m.compileGroups(ids)
	m.compileEvents(ids)
	m.compileBlocks(ids)
	m.share()
	return m
}

func (m *model) compileLines(ids *streams) {
	m.lines = make([]line, len(m.forecast.Costs))
	for i, c := range m.forecast.Costs {
		span := c.Total.High - c.Total.Low
		l := line{stream: ids.of("cost", c.ID), labour: c.LabourLow, labourSpan: c.LabourHigh - c.LabourLow}
		l.rest, l.restSpan = c.Total.Low-c.LabourLow, span-l.labourSpan
		x := .5
		if span > 0 {
			x = (c.Total.Mean() - c.Total.Low) / span
			l.curve = shapes.of(x)
		} else { // constant: of labour that has a range of its own, the middle
			l.labour, l.labourSpan = l.labour+x*l.labourSpan, 0
			l.rest, l.restSpan = c.Total.Low-l.labour, 0
		}
		m.lines[i] = l
	}
	for _, i := range m.forecast.Base {
		m.lines[i].base = true
		m.centre += m.forecast.Costs[i].Total.Mean()
	}
}

func (m *model) compileGroups(ids *streams) {
	m.times = make([]*multiplier, len(m.forecast.Groups))
	for i, g := range m.forecast.Groups {
		s := ids.of("group", g.Name)
		if g.Shape > 0 {
			m.times[i] = &multiplier{s, gammaCurve(g.Shape, g.Rate)}
		}
	}
}

// compileEvents puts what an event pays once into the union, and what it pays Times over beside it.
func (m *model) compileEvents(ids *streams) {
	m.events = make([]event, len(m.forecast.Events))
	for i, e := range m.forecast.Events {
		v := event{stream: ids.of("event", e.ID), group: m.group(e.Group), chance: e.Chance}
		if e.Times == 0 || e.Times == 1 {
			v.once = e.Costs
		} else {
			for _, c := range e.Costs {
				m.lines[c].extras = append(m.lines[c].extras, extra{i, e.Times})
			}
		}
		m.events[i] = v
	}
}

func (m *model) compileBlocks(ids *streams) {
	for _, b := range m.forecast.Blocks {
		always := ^uint64(0) >> (64 - len(b.Options))
		var drawn []member
		for i, p := range b.Members {
			d := compileMember(ids.of("member", p.Name), m.group(p.Group), p.States)
			d.index = i
			if d.sure() {
				always &= p.States[0].Feasible
			} else {
				drawn = append(drawn, d)
			}
		}
		options := make([][]int, len(b.Options))
		for k, o := range b.Options {
			options[k] = o.Costs
		}
		m.members, m.options, m.always = append(m.members, drawn), append(m.options, options), append(m.always, always)
	}
}

// group gives the index of a group with a multiplier, or -1.
func (m *model) group(i int) int {
	if i < 0 || i >= len(m.times) || m.times[i] == nil {
		return -1
	}
	return i
}

// share gives each line an owner of its spread: itself where it is due whatever is found, the one block or event that can make it
// due, or itself again where several can.
func (m *model) share() {
	const nobody, several = -1, -2
	by := make([]int, len(m.lines))
	for i := range by {
		by[i] = nobody
	}
	claim := func(costs []int, owner int) {
		for _, c := range costs {
			if by[c] == nobody {
				by[c] = owner
			} else if by[c] != owner {
				by[c] = several
			}
		}
	}
	for _, b := range m.forecast.Blocks {
		for _, o := range b.Options {
			claim(o.Costs, len(m.owners))
		}
		m.owners = append(m.owners, b.Name)
	}
	for _, e := range m.forecast.Events {
		claim(e.Costs, len(m.owners))
		m.owners = append(m.owners, firstOf(e.Name, e.ID))
	}
	for i := range m.lines {
		m.lines[i].owner = by[i]
		if m.lines[i].base || by[i] < 0 {
			m.lines[i].owner = len(m.owners)
			m.owners = append(m.owners, firstOf(m.forecast.Costs[i].Name, m.forecast.Costs[i].ID))
		}
	}
}

func firstOf(name, id string) string {
	if name != "" {
		return name
	}
	return id
}

// firstOption is the first option in a mask; false if there is none.
func firstOption(mask uint64) (int, bool) { return bits.TrailingZeros64(mask), mask != 0 }
