package budget

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat/distuv"

	"github.com/fettle-tools/fettle/core"
)

// nature draws what vehicles truly come to. It is written from the rules of the model with other means than the simulator's: a library's
// distributions, one vehicle after another, sets where that has bit masks.
type nature struct {
	*rand.Rand
	shapes map[float64][]float64 // by mean, the quantiles of a range at normal scores from -scores to scores
}

const (
	scores = 5.0
	steps  = 2_000
)

func newNature(seed uint64) *nature {
	return &nature{rand.New(rand.NewPCG(seed, 80)), map[float64][]float64{}}
}

// total is what one vehicle comes to.
func (n *nature) total(f core.Forecast) float64 {
	times := make([]float64, len(f.Groups))
	for i, g := range f.Groups {
		times[i] = 1
		if g.Shape > 0 {
			times[i] = distuv.Gamma{Alpha: g.Shape, Beta: g.Rate, Src: n}.Rand()
		}
	}
	in := func(group int) float64 {
		if group < 0 || group >= len(times) {
			return 1
		}
		return times[group]
	}
	happened := make([]bool, len(f.Events))
	count := map[int]float64{} // how often each line is paid
	for _, c := range f.Base {
		count[c] = 1
	}
	for i, e := range f.Events {
		happened[i] = n.Float64() < worse(e.Chance, in(e.Group))
	}
	for _, b := range f.Blocks {
		for _, c := range b.Options[n.option(b, happened, in)].Costs {
			count[c] = 1
		}
	}
	for _, often := range []bool{false, true} { // what is paid once joins the others; what is paid several times comes on top
		for i, e := range f.Events {
			for _, c := range e.Costs {
				switch {
				case !happened[i] || often == (e.Times == 0 || e.Times == 1):
				case often:
					count[c] += e.Times
				default:
					count[c] = 1
				}
			}
		}
	}
	return n.price(f, count)
}

// option is the first that suits what each part of a block turns out to be.
func (n *nature) option(b core.ForecastBlock, happened []bool, in func(int) float64) int {
	left := map[int]bool{}
	for k := range b.Options {
		left[k] = true
	}
	for _, m := range b.Members {
		s := n.state(m, happened, in(m.Group))
		for k := range b.Options {
			left[k] = left[k] && s.Feasible>>k&1 != 0
		}
	}
	for k := range b.Options {
		if left[k] {
			return k
		}
	}
	panic("no option")
}

// state is what a part turns out to be: what an event says if one speaks of it, else a bad state at its chance in what the events leave, else one of the
// others in proportion.
func (n *nature) state(m core.ForecastMember, happened []bool, times float64) core.ForecastState {
	var struck, bad, good []core.ForecastState
	left := 1.0
	for _, s := range m.States {
		switch {
		case s.Event >= 0 && !s.NotEvent:
			left -= s.Chance
			if happened[s.Event] {
				struck = append(struck, s)
			}
		case s.Event >= 0 && happened[s.Event]:
		case s.Bad:
			bad = append(bad, s)
		default:
			good = append(good, s)
		}
	}
	sum := func(of []core.ForecastState) (p float64) {
		for _, s := range of {
			p += s.Chance
		}
		return p
	}
	from := good
	if p := sum(bad); len(struck) > 0 {
		from = struck
	} else if p > 0 && (len(good) == 0 || n.Float64() < worse(p/left, times)) {
		from = bad
	}
	u := n.Float64() * sum(from)
	for _, s := range from {
		if u -= s.Chance; u < 0 {
			return s
		}
	}
	return from[len(from)-1]
}

// worse is a chance under a subsystem's multiplier.
func worse(p, times float64) float64 {
	if p >= .95 {
		return min(p, p*times)
	}
	return min(.95, p*times)
}

// price draws one factor that all lines share, one of its own for each, and the labour ratio.
func (n *nature) price(f core.Forecast, count map[int]float64) (total float64) {
	ratio := f.Ratio
	if ratio.Median == 0 {
		ratio.Median = DefaultRatio.Median
	}
	if ratio.SD == 0 {
		ratio.SD = DefaultRatio.SD
	}
	hours := distuv.LogNormal{Mu: math.Log(ratio.Median), Sigma: max(0, ratio.SD), Src: n}.Rand()
	shared := n.NormFloat64()
	unneeded := map[int]bool{}
	for i, js := range f.Includes {
		for _, j := range js {
			unneeded[j] = unneeded[j] || count[i] > 0
		}
	}
	for i, c := range f.Costs { // in their order: a map has none, and a seed would not tell what is drawn
		z := math.Sqrt(f.Rho)*shared + math.Sqrt(1-f.Rho)*n.NormFloat64()
		if count[i] == 0 || unneeded[i] {
			continue
		}
		at := n.place(c.Total, z)
		labour := c.LabourLow + at*(c.LabourHigh-c.LabourLow)
		total += count[i] * (c.Total.Low + at*(c.Total.High-c.Total.Low) - labour + labour*hours)
	}
	return total
}

// place is where in its range a line comes to stand: the beta distribution with the mean (a + 4m + b)/6 and the standard deviation (b - a)/6.
func (n *nature) place(r core.Range3, z float64) float64 {
	if r.High == r.Low {
		return .5
	}
	mean := (r.Low + 4*r.Likely + r.High) / 6
	x := (mean - r.Low) / (r.High - r.Low)
	q, known := n.shapes[x]
	if !known {
		sum := 36*x*(1-x) - 1
		beta := distuv.Beta{Alpha: x * sum, Beta: (1 - x) * sum}
		for i := range steps + 1 {
			q = append(q, beta.Quantile(distuv.UnitNormal.CDF(float64(i)*2*scores/steps-scores)))
		}
		n.shapes[x] = q
	}
	at := (min(scores, max(-scores, z)) + scores) * steps / (2 * scores)
	i := min(steps-1, int(at))
	return q[i] + (at-float64(i))*(q[i+1]-q[i])
}

// Of vehicles that differ as many as are seen in a workshop's life; of one kind as many as make two points four standard errors of P50.
const (
	vehicles  = 2_000
	ofOneKind = 10_000
)

// held counts the vehicles that came to no more than a percentile said.
type held struct {
	within [4]float64
	all    float64
}

func (h *held) add(s core.Spread, total float64) {
	h.all++
	for i, v := range []float64{s.P10, s.P50, s.P80, s.P90} {
		if total <= v {
			h.within[i]++
		}
	}
}

// require holds every percentile to two points.
func (h *held) require(t *testing.T, what string) {
	t.Helper()
	share := h.within
	for i := range share {
		share[i] /= h.all
	}
	t.Logf("%s: of %g vehicles %.1f %% came within P10, %.1f %% P50, %.1f %% P80, %.1f %% P90", what, h.all, 100*share[0], 100*share[1], 100*share[2], 100*share[3])
	for i, p := range figures {
		require.InDelta(t, p, share[i], .02, "%s, P%g", what, 100*p)
	}
}

// One forecast, and what 10,000 vehicles of its kind truly come to: each percentile holds as often as it says, and the whole distribution is the
// one drawn, within a point and the Kolmogorov bound of 1 %.
func TestPercentilesHold(t *testing.T) {
	for name, f := range map[string]core.Forecast{"a typical job": typicalJob(), "a whole vehicle": wholeVehicle()} {
		s := budget(t, f)
		n := newNature(1)
		var h held
		totals := make([]float64, ofOneKind)
		for i := range totals {
			totals[i] = n.total(f)
			h.add(s, totals[i])
		}
		h.require(t, name)
		slices.Sort(totals)
		bound := .01 + 1.63/math.Sqrt(ofOneKind)
		for p, v := range s.Curve {
			at, _ := slices.BinarySearch(totals, v)
			require.InDelta(t, float64(p)/100, float64(at)/ofOneKind, bound, "%s, %d %%", name, p)
		}
	}
}

// 2,000 vehicles that all differ, each with a forecast of its own.
func TestPercentilesHoldOnVehiclesThatDiffer(t *testing.T) {
	n := newNature(2)
	var h held
	for i := range vehicles {
		f := n.job()
		f.Seed, f.Trials = uint64(i), 400
		h.add(budget(t, f), n.total(f))
	}
	h.require(t, "jobs that differ")
}

// job is a forecast of some twenty lines, with parts that are joined, parts that hang on events, events of their own, and work that includes other.
func (n *nature) job() core.Forecast {
	lines := 12 + n.IntN(20)
	f := core.Forecast{Rho: .6 * n.Float64(), Ratio: core.LabourRatio{Median: .9 + .4*n.Float64(), SD: .05 + .2*n.Float64()}, Includes: make([][]int, lines)}
	for i := range lines {
		low := 50 + 500*n.Float64()
		r := core.Range3{Low: low, Likely: low * (1 + .25*float64(n.IntN(4))), High: low * 2}
		f.Costs = append(f.Costs, core.ForecastCost{ID: fmt.Sprint(i), Total: r, LabourLow: r.Low / 2, LabourHigh: r.High * .3})
		if i < lines/2 {
			f.Base = append(f.Base, i)
		}
	}
	f.Includes[lines-1] = []int{0, lines - 2}
	for g := range 3 {
		f.Groups = append(f.Groups, core.ForecastGroup{Name: fmt.Sprint(g), Shape: 4 + float64(n.IntN(4)), Rate: 4 + 2*n.Float64()})
	}
	may := func() []int { return []int{lines/2 + n.IntN(lines-lines/2)} }
	for e := range 4 {
		v := core.ForecastEvent{ID: fmt.Sprint(e), Group: n.IntN(3), Chance: .05 + .6*n.Float64()}
		if e > 1 {
			v.Costs, v.Times = may(), []float64{0, 1, 1.5}[n.IntN(3)]
		}
		f.Events = append(f.Events, v)
	}
	for b := range 2 + n.IntN(6) {
		block := core.ForecastBlock{Name: fmt.Sprint(b), Options: options(nil, may(), append(may(), may()...))}
		for p := range 1 + n.IntN(3) {
			m := goodOrBad(fmt.Sprint(p), .05+.6*n.Float64(), 7, 6-2*uint64(n.IntN(2)))
			m.Group = n.IntN(3)
			if n.IntN(3) == 0 {
				e := n.IntN(2)
				m.States[0].Event, m.States[0].NotEvent, m.States[1].Event = e, true, e
			}
			block.Members = append(block.Members, m)
		}
		f.Blocks = append(f.Blocks, block)
	}
	return f
}
