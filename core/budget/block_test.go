package budget

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// shares gives the share of trials in which the total is each of a few values, 1 trial in each if it is anything else.
func shares(t *testing.T, f core.Forecast) map[float64]float64 {
	t.Helper()
	require.NoError(t, check(f))
	d, err := Simulator{}.run(context.Background(), compile(f))
	require.NoError(t, err)
	got := map[float64]float64{}
	for _, v := range d.total {
		got[v] += 1 / float64(len(d.total))
	}
	return got
}

// requireShares checks shares against chances computed by hand, within four binomial standard errors.
func requireShares(t *testing.T, want, got map[float64]float64) {
	t.Helper()
	require.Len(t, got, len(want), "%v", got)
	for v, p := range want {
		require.InDelta(t, p, got[v], 4*math.Sqrt(p*(1-p)/DefaultTrials)+1e-9, "total %g of %v", v, got)
	}
}

// constants gives costs that are exactly these amounts.
func constants(amounts ...float64) core.Forecast {
	f := core.Forecast{Ratio: noRatio, Seed: 3}
	for i, v := range amounts {
		f.Costs = append(f.Costs, core.ForecastCost{ID: string(rune('a' + i)), Total: constant(v)})
	}
	return f
}

func options(costs ...[]int) []core.ForecastOption {
	var os []core.ForecastOption
	for _, c := range costs {
		os = append(os, core.ForecastOption{Costs: c})
	}
	return os
}

// goodOrBad is a part that may be bad, with the options feasible in each state.
func goodOrBad(name string, bad float64, ifGood, ifBad uint64) core.ForecastMember {
	return core.ForecastMember{Name: name, Group: -1, States: []core.ForecastState{
		{Chance: 1 - bad, Event: -1, Feasible: ifGood}, {Chance: bad, Bad: true, Event: -1, Feasible: ifBad},
	}}
}

// Two parts, three options in order: reuse both (nothing), renew the first (100), renew both (100 + 40). By hand: both good 0; the
// first bad alone 100; the second bad 140, whatever the first is.
func TestBlockTakesFirstFeasible(t *testing.T) {
	f := constants(100, 40, 1000)
	f.Base = []int{2}
	f.Blocks = []core.ForecastBlock{{Name: "pair", Options: options(nil, []int{0}, []int{0, 1}), Members: []core.ForecastMember{
		goodOrBad("first", .3, 0b111, 0b110), goodOrBad("second", .2, 0b111, 0b100),
	}}}
	requireShares(t, map[float64]float64{1000: .7 * .8, 1100: .3 * .8, 1140: .2}, shares(t, f))
}

// A cost asked for twice is paid once: by the base, by two blocks and by an event.
func TestUnionIsPaidOnce(t *testing.T) {
	f := constants(100, 7)
	one := core.ForecastBlock{Name: "one", Options: options(nil, []int{0}), Members: []core.ForecastMember{goodOrBad("p", .5, 3, 2)}}
	two := one
	two.Name = "two"
	f.Blocks = []core.ForecastBlock{one, two}
	f.Events = []core.ForecastEvent{{ID: "e", Chance: .5, Costs: []int{0}}}
	requireShares(t, map[float64]float64{0: .125, 100: .875}, shares(t, f))
	f.Base = []int{0, 1}
	requireShares(t, map[float64]float64{107: 1}, shares(t, f))
}

// A full overhaul (a, 300) includes opening and resealing (b, 50), which includes the gasket (c, 5); c is due by the base, b by the base
// too, a if the part is bad. What includes another takes its place; what is not due includes nothing.
func TestIncluded(t *testing.T) {
	f := constants(300, 50, 5)
	f.Includes = [][]int{{1, 2}, {2}}
	f.Base = []int{1, 2}
	f.Blocks = []core.ForecastBlock{{Name: "box", Options: options(nil, []int{0}), Members: []core.ForecastMember{goodOrBad("p", .25, 3, 2)}}}
	requireShares(t, map[float64]float64{50: .75, 300: .25}, shares(t, f))
	f.Base = []int{2}
	requireShares(t, map[float64]float64{5: .75, 300: .25}, shares(t, f))
}

// Two parts hang on one event: both are bad together or not at all, and the event's own cost falls due with them.
func TestEventBindsParts(t *testing.T) {
	f := constants(100, 10, 1)
	f.Events = []core.ForecastEvent{{ID: "cracked", Group: -1, Chance: .3, Costs: []int{2}}}
	hung := func(name string, options uint64) core.ForecastMember {
		return core.ForecastMember{Name: name, Group: -1, States: []core.ForecastState{
			{Chance: .3, Bad: true, Event: 0, Feasible: options}, {Chance: .7, Event: 0, NotEvent: true, Feasible: 3},
		}}
	}
	f.Blocks = []core.ForecastBlock{
		{Name: "one", Options: options(nil, []int{0}), Members: []core.ForecastMember{hung("p", 2)}},
		{Name: "two", Options: options(nil, []int{1}), Members: []core.ForecastMember{hung("q", 2)}},
	}
	requireShares(t, map[float64]float64{0: .7, 111: .3}, shares(t, f))
}

// A part with a state on an event and an outlook of its own for when that does not happen: by hand .2 struck; else .8 shared 1 : 3.
func TestEventAndOutlook(t *testing.T) {
	f := constants(100, 10)
	f.Events = []core.ForecastEvent{{ID: "struck", Group: -1, Chance: .2}}
	part := core.ForecastMember{Name: "p", Group: -1, States: []core.ForecastState{
		{Chance: .2, Bad: true, Event: 0, Feasible: 0b100},
		{Chance: .2, Bad: true, Event: 0, NotEvent: true, Feasible: 0b110},
		{Chance: .6, Event: 0, NotEvent: true, Feasible: 0b111},
	}}
	f.Blocks = []core.ForecastBlock{{Name: "one", Options: options(nil, []int{1}, []int{0}), Members: []core.ForecastMember{part}}}
	requireShares(t, map[float64]float64{100: .2, 10: .2, 0: .6}, shares(t, f))
}

// An event that is paid several times over is paid beside whatever else asks for the same cost, and not where another includes it.
func TestEventTimes(t *testing.T) {
	f := constants(100, 1000)
	f.Events = []core.ForecastEvent{{ID: "patches", Group: -1, Chance: .4, Costs: []int{0}, Times: 1.5}}
	requireShares(t, map[float64]float64{0: .6, 150: .4}, shares(t, f))
	f.Base = []int{0}
	requireShares(t, map[float64]float64{100: .6, 250: .4}, shares(t, f))
	f.Base, f.Includes = []int{1}, [][]int{nil, {0}}
	requireShares(t, map[float64]float64{1000: 1}, shares(t, f))
	f.Includes, f.Events[0].Times = nil, 1
	f.Base = []int{0}
	requireShares(t, map[float64]float64{100: 1}, shares(t, f))
}

// The multiplier of a subsystem: one draw a trial for all its chances. With M ~ Gamma(6, 5) the mean of min(.95, p M) is found by
// integrating the density numerically, and events of one subsystem happen together more often than their chances' product.
func TestMultiplier(t *testing.T) {
	const p, shape, rate = .3, 6.0, 5.0
	var mean, pair, all float64
	for i := range 200_000 {
		m := (float64(i) + .5) * 1e-4
		w := math.Pow(m, shape-1) * math.Exp(-rate*m)
		q := math.Min(.95, p*m)
		mean, pair, all = mean+w*q, pair+w*q*q, all+w
	}
	mean, pair = mean/all, pair/all

	f := constants(1, 10)
	f.Groups = []core.ForecastGroup{{Name: "quiet"}, {Name: "seen worse", Shape: shape, Rate: rate}}
	f.Events = []core.ForecastEvent{{ID: "a", Group: 1, Chance: p, Costs: []int{0}}, {ID: "b", Group: 1, Chance: p, Costs: []int{1}}}
	want := map[float64]float64{0: 1 - 2*mean + pair, 1: mean - pair, 10: mean - pair, 11: pair}
	requireShares(t, want, shares(t, f))

	// The same for the bad state of a part; the good state takes the rest.
	f.Events, f.Blocks = nil, []core.ForecastBlock{{Name: "one", Options: options(nil, []int{0}), Members: []core.ForecastMember{goodOrBad("p", p, 3, 2)}}}
	f.Blocks[0].Members[0].Group = 1
	requireShares(t, map[float64]float64{0: 1 - mean, 1: mean}, shares(t, f))

	// A group that has shown nothing has M = 1.
	f.Blocks[0].Members[0].Group = 0
	requireShares(t, map[float64]float64{0: 1 - p, 1: p}, shares(t, f))
}

func TestRaised(t *testing.T) {
	for _, c := range [][3]float64{{.3, 1, .3}, {.3, 2, .6}, {.6, 2, .95}, {.97, 1, .97}, {.97, 3, .97}, {.97, .5, .485}, {1, .2, 1}, {0, 9, 0}} {
		require.InDelta(t, c[2], raised(c[0], c[1]), 1e-12, "%v", c)
	}
}

// Shares of the variance by hand: a block of 100 at .5, an event of 100 at .2 and a constant line. Variances 2500 : 1600 : 0.
func TestWidest(t *testing.T) {
	f := constants(100, 100, 5000)
	f.Base = []int{2}
	f.Blocks = []core.ForecastBlock{{Name: "pair", Options: options(nil, []int{0}), Members: []core.ForecastMember{goodOrBad("p", .5, 3, 2)}}}
	f.Events = []core.ForecastEvent{{ID: "e", Name: "cracked block", Chance: .2, Costs: []int{1}}}
	w := budget(t, f).Widest
	require.Len(t, w, 2)
	require.Equal(t, "pair", w[0].Name)
	require.InDelta(t, 2500.0/4100, w[0].Share, .02)
	require.Equal(t, "cracked block", w[1].Name)
	require.InDelta(t, 1, w[0].Share+w[1].Share, 1e-9)

	many := budget(t, linesOf(30)).Widest
	require.Len(t, many, maxWidest)
	for i := 1; i < len(many); i++ {
		require.LessOrEqual(t, many[i].Share, many[i-1].Share)
	}
}
