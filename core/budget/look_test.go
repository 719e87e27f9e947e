package budget

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

func settles(t *testing.T, f core.Forecast, looks ...core.ForecastLook) []float64 {
	t.Helper()
	shares, err := Simulator{}.Settles(t.Context(), f, looks)
	require.NoError(t, err)
	one, err := Simulator{Workers: 1}.Settles(t.Context(), f, looks)
	require.NoError(t, err)
	require.Equal(t, one, shares, "whatever the number of workers")
	return shares
}

// twoParts may each turn out bad, at .3 for 1,000 and at .5 for 500: by hand, variances of .21 x 1,000^2 = 210,000 and .25 x 500^2 = 62,500.
func twoParts() core.Forecast {
	f := constants(1000, 500, 0)
	f.Trials = 40_000
	f.Blocks = []core.ForecastBlock{
		{Name: "A", Members: []core.ForecastMember{goodOrBad("A", .3, 0b11, 0b10)}, Options: options(nil, []int{0})},
		{Name: "B", Members: []core.ForecastMember{goodOrBad("B", .5, 0b11, 0b10)}, Options: options(nil, []int{1})},
		{Name: "C", Members: []core.ForecastMember{goodOrBad("C", .5, 0b11, 0b10)}, Options: options(nil, []int{2})},
	}
	return f
}

func TestALookSettlesWhatItsPartCosts(t *testing.T) {
	a, b, c := core.ForecastPart{Block: 0}, core.ForecastPart{Block: 1}, core.ForecastPart{Block: 2}
	got := settles(t, twoParts(), core.ForecastLook{a}, core.ForecastLook{b}, core.ForecastLook{a, b}, core.ForecastLook{c}, nil, core.ForecastLook{a, b, c})
	require.InDelta(t, 210_000./272_500, got[0], .01)
	require.InDelta(t, 62_500./272_500, got[1], .01)
	require.InDelta(t, 1, got[2], .001, "nothing is left to know")
	require.InDelta(t, 0, got[3], .0005, "what costs nothing either way tells nothing")
	require.Zero(t, got[4])
	require.LessOrEqual(t, got[5], 1.)
}

// One event behind two parts: a look at either tells the other's state.
func TestALookTellsWhatHangsOnTheSameEvent(t *testing.T) {
	f := constants(1000, 500)
	f.Trials = 40_000
	f.Events = []core.ForecastEvent{{ID: "H", Name: "H", Group: -1, Chance: .4}}
	hung := func(name string) core.ForecastMember {
		return core.ForecastMember{Name: name, Group: -1, States: []core.ForecastState{
			{Chance: .6, Event: 0, NotEvent: true, Feasible: 0b11}, {Chance: .4, Bad: true, Event: 0, Feasible: 0b10}}}
	}
	f.Blocks = []core.ForecastBlock{
		{Name: "A", Members: []core.ForecastMember{hung("A")}, Options: options(nil, []int{0})},
		{Name: "B", Members: []core.ForecastMember{hung("B")}, Options: options(nil, []int{1})},
	}
	got := settles(t, f, core.ForecastLook{{Block: 0}}, core.ForecastLook{{Block: 1}})
	require.InDelta(t, 1, got[0], 1e-9)
	require.InDelta(t, 1, got[1], 1e-9)
}

// A part whose spread is in the price of its remedy, not in what it may turn out to be, is not settled by looking.
func TestALookSettlesNoPrice(t *testing.T) {
	f := twoParts()
	f.Costs[1].Total = core.Range3{Low: 0, Likely: 500, High: 1000}
	f.Base = append(f.Base, 1)
	got := settles(t, f, core.ForecastLook{{Block: 0}}, core.ForecastLook{{Block: 1}})
	require.Less(t, got[0], .95)
	require.InDelta(t, 0, got[1], .0005)
}

func TestSharesLieBetweenNothingAndAll(t *testing.T) {
	for seed := range uint64(40) {
		f := randomForecast(rand.New(rand.NewPCG(seed, 9)))
		var looks []core.ForecastLook
		var all core.ForecastLook
		for b, block := range f.Blocks {
			for m := range block.Members {
				looks = append(looks, core.ForecastLook{{Block: b, Member: m}})
				all = append(all, core.ForecastPart{Block: b, Member: m})
			}
		}
		for i, share := range settles(t, f, append(looks, all)...) {
			require.GreaterOrEqual(t, share, 0., "seed %d look %d", seed, i)
			require.LessOrEqual(t, share, 1., "seed %d look %d", seed, i)
		}
	}
}

func TestALookAtNoPartIsRefused(t *testing.T) {
	_, err := Simulator{}.Settles(t.Context(), twoParts(), []core.ForecastLook{{{Block: 3}}})
	require.Equal(t, core.Invalid, core.ErrorCode(err))
}
