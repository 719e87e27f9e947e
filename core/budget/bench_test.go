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

// wholeVehicle is of the size of a vehicle that is stripped to its bare frame: 700 lines of which 400 are due whatever is found, 230 blocks with 290
// parts not yet seen, 70 register entries that parts hang on and ten of their own, 18 subsystems, and overhauls that include other work.
func wholeVehicle() core.Forecast {
	f := linesOf(700)
	f.Base = f.Base[:400]
	f.Includes = make([][]int, 700)
	for i := range 60 {
		f.Includes[400+5*i] = []int{2 * i, 401 + 5*i}
	}
	for g := range 18 {
		f.Groups = append(f.Groups, core.ForecastGroup{Name: fmt.Sprintf("subsystem-%d", g), Shape: 4 + float64(g%5), Rate: 4 + .3*float64(g)})
	}
	for e := range 80 {
		v := core.ForecastEvent{ID: fmt.Sprintf("event-%d", e), Group: e % 18, Chance: .05 + .01*float64(e)}
		if e >= 70 {
			v.Costs, v.Times = []int{620 + e}, float64(e%3)
		}
		f.Events = append(f.Events, v)
	}
	for b := range 230 {
		line := 400 + b
		block := core.ForecastBlock{Name: fmt.Sprintf("block-%d", b), Options: options(nil, []int{line}, []int{line, 400 + (b+7)%290})}
		for p := range 1 + b%4/3 {
			bad := .05 + .003*float64(b)
			m := goodOrBad(fmt.Sprintf("part-%d", p), bad, 7, 6)
			m.Group = b % 18
			if b%3 == 0 {
				m.States[0].Event, m.States[0].NotEvent, m.States[1].Event = b/3%70, true, b/3%70
			}
			block.Members = append(block.Members, m)
		}
		f.Blocks = append(f.Blocks, block)
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

// BenchmarkWholeVehicle is 100,000 trials of 700 lines: the aim is 0.4 s on two cores and 150 MB.
func BenchmarkWholeVehicle(b *testing.B) {
	f := wholeVehicle()
	f.Trials = 100_000
	b.Run("two workers", func(b *testing.B) { benchmark(b, f, 2) })
	b.Run("one worker", func(b *testing.B) { benchmark(b, f, 1) })
	b.Run("700 lines always due", func(b *testing.B) {
		always := linesOf(700)
		always.Trials = 100_000
		benchmark(b, always, 2)
	})
}

// benchmark shows the processor's time too, which other work on the machine hardly moves, and the most memory that the process ever held.
func benchmark(b *testing.B, f core.Forecast, workers int) {
	before, _ := usage(b)
	for b.Loop() {
		if _, err := (Simulator{Workers: workers}).Budget(context.Background(), f); err != nil {
			b.Fatal(err)
		}
	}
	after, peak := usage(b)
	b.ReportMetric(float64((after-before).Milliseconds())/float64(b.N), "cpu-ms/op")
	b.ReportMetric(peak, "peak-MB")
}
