package budget

import (
	"context"
	"fmt"
	"testing"

	"github.com/fettle-tools/fettle/core"
)

// linesOf gives n base lines of assorted size and shape, half of the money labour.
func linesOf(n int) core.Forecast {
	f := core.Forecast{Rho: DefaultRho, Seed: 1}
	for i := range n {
		low := float64(10_000 + 1_000*(i*7%40))
		r := core.Range3{Low: low, Likely: low * (1.1 + .05*float64(i%9)), High: low * (2 + .1*float64(i%11))}
		f.Costs = append(f.Costs, core.ForecastCost{
			ID: fmt.Sprintf("line-%d", i), Total: r, LabourLow: r.Low / 2, LabourHigh: r.High / 2,
		})
		f.Base = append(f.Base, i)
	}
	return f
}

// typicalJob has 60 lines of which 26 are always due, 20 blocks of two parts not yet seen, 8 events and 4 subsystems.
func typicalJob() core.Forecast {
	f := linesOf(60)
	f.Base = f.Base[:26]
	for g := range 4 {
		f.Groups = append(f.Groups, core.ForecastGroup{Name: fmt.Sprintf("subsystem-%d", g), Shape: 4 + float64(g), Rate: 5})
	}
	for b := range 20 {
		line := 26 + b
		block := core.ForecastBlock{Name: fmt.Sprintf("block-%d", b), Options: []core.ForecastOption{{Name: "reuse"}, {Name: "one", Costs: []int{line}}, {Name: "both", Costs: []int{line, 26 + (b+1)%20}}}}
		for p := range 2 {
			block.Members = append(block.Members, core.ForecastMember{Name: fmt.Sprintf("part-%d", p), Group: b % 4, States: []core.ForecastState{
				{Chance: .7 - .02*float64(b), Event: -1, Feasible: 7}, {Chance: .3 + .02*float64(b), Bad: true, Event: -1, Feasible: 6},
			}})
		}
		f.Blocks = append(f.Blocks, block)
	}
	for e := range 8 {
		f.Events = append(f.Events, core.ForecastEvent{ID: fmt.Sprintf("event-%d", e), Group: e % 4, Chance: .08 * float64(e+1), Costs: []int{46 + e}, Times: float64(e % 3)})
	}
	return f
}

func BenchmarkTypicalJob(b *testing.B) { benchmark(b, typicalJob(), 0) }

func BenchmarkTypicalJobOneWorker(b *testing.B) { benchmark(b, typicalJob(), 1) }

func BenchmarkLargeJob(b *testing.B) {
	f := linesOf(300)
	f.Trials = 100_000
	benchmark(b, f, 0)
}

func benchmark(b *testing.B, f core.Forecast, workers int) {
	for b.Loop() {
		if _, err := (Simulator{Workers: workers}).Budget(context.Background(), f); err != nil {
			b.Fatal(err)
		}
	}
}
