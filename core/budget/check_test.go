package budget

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// Every fault is told, in one error, with its place.
func TestCheckTellsAll(t *testing.T) {
	f := core.Forecast{
		Trials: 5, Rho: 1.5, Ratio: core.LabourRatio{Median: math.NaN()},
		Groups:   []core.ForecastGroup{{Name: "gearbox", Shape: 4}},
		Costs:    []core.ForecastCost{{ID: "a", Total: core.Range3{Low: 3, Likely: 2, High: 4}}, {ID: "b", LabourLow: 2, LabourHigh: 1}, {ID: "c", Total: core.Range3{High: math.Inf(1)}}},
		Base:     []int{7},
		Includes: [][]int{{0, 9}},
		Events:   []core.ForecastEvent{{ID: "e", Chance: 2, Times: -1, Costs: []int{-1}, Group: 3}},
		Blocks: []core.ForecastBlock{
			{Name: "wide", Options: make([]core.ForecastOption, 65)},
			{Name: "box", Options: []core.ForecastOption{{Name: "o", Costs: []int{5}}}, Members: []core.ForecastMember{
				{Name: "p", States: []core.ForecastState{{Chance: .4, Event: -1, Feasible: 2}}},
				{Name: "q", States: []core.ForecastState{{Chance: 1, Event: 0, Feasible: 1}}},
				{Name: "r", States: []core.ForecastState{{Chance: 1, Event: 4, Feasible: 1}}},
			}},
		},
	}
	_, err := Simulator{}.Budget(context.Background(), f)
	require.Equal(t, core.Invalid, core.ErrorCode(err))
	require.NotEmpty(t, core.ErrorNext(err))
	for _, want := range []string{
		"5 trials", "correlation 1.5", "labour ratio", "group gearbox", "cost a: low 3", "cost b: labour from 2 to 1", "cost c: not a number", "base: no cost 7",
		"includes of a: no cost 9", "cost a includes itself", "event e: chance 2", "event e: paid -1 times", "event e: no cost -1", "event e: no group 3",
		"block wide: 65 joint options", "option o: no cost 5", "part p: feasible options 10 of 1", "part p: chances sum to 0.4", "part q: no state holds", "part r: no event 4",
	} {
		require.ErrorContains(t, err, want)
	}
}

// Two parts that leave no joint option in some trials: the block is named, whatever the number of workers.
func TestNoOptionLeft(t *testing.T) {
	f := constants(1)
	f.Blocks = []core.ForecastBlock{{Name: "matched pair", Options: options(nil, []int{0}), Members: []core.ForecastMember{goodOrBad("p", .05, 3, 2), goodOrBad("q", .05, 3, 1)}}}
	for _, workers := range []int{1, 4} {
		_, err := Simulator{Workers: workers}.Budget(context.Background(), f)
		require.Equal(t, core.Conflict, core.ErrorCode(err))
		require.ErrorContains(t, err, "matched pair")
	}
}
