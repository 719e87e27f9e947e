package decide

import (
	"cmp"
	"context"
	"fmt"
	"math/rand/v2"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// raced is a kind of generated choices on which the solvers are timed side by side.
type raced struct {
	name   string
	far    float64 // the share of couplings across the whole tree
	capped bool
}

// What a race runs: so many choices of a size, each solver once on each, for at most so long.
const (
	raceInstances = 3
	raceTime      = 30 * time.Second
)

// BenchmarkRace times the choice side by side with GLPK, CBC and HiGHS, in one run on the same choices: free ones, those
// under a cap, and hard ones, 60 % of whose couplings span the whole tree. Theirs is the time of the whole process, one
// for each choice, as such a solver is used from a program; "by its clock" is what each says itself. Ours, of a free
// choice, includes every other option's price, which they do not give.
//
// Metrics are medians over the choices, milliseconds: of each solver, and how many times ours goes into the least of
// them (x-fastest), into the least by their clocks (x-clock), and into CBC's (x-cbc). A solver out of time counts with
// the time it had. gap-% is the largest stated gap of ours.
func BenchmarkRace(b *testing.B) {
	for _, kind := range []raced{{name: "free"}, {name: "capped", capped: true}, {name: "hard", far: .6}} {
		for _, n := range []int{50, 300, 2000} {
			b.Run(fmt.Sprintf("%s/parts=%d", kind.name, n), func(b *testing.B) { kind.race(b, n) })
		}
	}
}

func (kind raced) race(b *testing.B, n int) {
	for _, s := range otherSolvers {
		s.look(b)
	}
	dir := b.TempDir()
	rows := map[string][]float64{}
	note := func(name string, x float64) { rows[name] = append(rows[name], x) }
	sels := make([]core.Selection, raceInstances)
	solver := Solver{Bare: true}
	for i := range sels {
		sels[i] = generateLocal(rand.New(rand.NewPCG(uint64(n), uint64(100+i))), n, 1, kind.far, true)
		if kind.capped {
			capHalfWay(b, &sels[i])
		}
		file := filepath.Join(dir, fmt.Sprintf("%d.lp", i))
		writeLP(b, file, &sels[i])
		var got core.Selected
		var ours []float64
		for start := time.Now(); len(ours) < 3 || time.Since(start) < time.Second/4; { // many of a short one: the machine is not awake at once
			one := time.Now()
			var err error
			got, err = solver.Decide(context.Background(), sels[i])
			require.NoError(b, err)
			ours = append(ours, ms(time.Since(one)))
		}
		note("ours-ms", median(ours))
		if gap := 100 * float64(got.Value-got.Bound) / float64(got.Value); len(rows["gap-%"]) == 0 || gap > rows["gap-%"][0] {
			rows["gap-%"] = []float64{gap}
		}
		fastest, clock := ms(time.Hour), ms(time.Hour)
		for _, s := range otherSolvers {
			start := time.Now()
			v := s.within(b, file)
			took := ms(time.Since(start))
			note(strings.ToLower(s.name)+"-ms", took)
			if s.name == "CBC" {
				note("x-cbc", took/median(ours))
			}
			if v.failed != "" {
				b.Logf("%s has no answer to choice %d in %v: %s", s.name, i, raceTime, v.failed)
				continue
			}
			require.LessOrEqual(b, got.Bound, v.optimum, "%s on choice %d", s.name, i)
			require.GreaterOrEqual(b, got.Value, v.optimum, "%s on choice %d", s.name, i)
			fastest, clock = min(fastest, took), min(clock, cmp.Or(ms(v.took), took))
		}
		note("x-fastest", fastest/median(ours))
		note("x-clock", clock/median(ours))
	}
	for b.Loop() {
		for _, sel := range sels {
			_, err := solver.Decide(context.Background(), sel)
			require.NoError(b, err)
		}
	}
	b.ReportMetric(0, "ns/op") // of all choices together: the median stands beside
	for name, list := range rows {
		b.ReportMetric(median(list), name)
	}
}

// within asks a solver about one programme, and stops it when its time is up.
func (s otherSolver) within(t testing.TB, file string) verdict {
	return s.solve(t, []string{file}, raceTime, false)[0]
}

func ms(d time.Duration) float64 { return float64(d) / float64(time.Millisecond) }

func median(list []float64) float64 {
	list = slices.Sorted(slices.Values(list))
	return list[len(list)/2]
}

// BenchmarkGrowth shows how time and memory grow with the number of parts where the width stays low: peak-MB is what a
// choice needs at once, the model and the tables.
func BenchmarkGrowth(b *testing.B) {
	for _, kind := range []raced{{name: "free"}, {name: "capped", capped: true}} {
		for _, n := range []int{100, 300, 1000, 3000, 10_000} {
			b.Run(fmt.Sprintf("%s/parts=%d", kind.name, n), func(b *testing.B) {
				sel := generateLocal(rand.New(rand.NewPCG(uint64(n), 5)), n, 1, 0, true)
				if kind.capped {
					capHalfWay(b, &sel)
				}
				b.ReportAllocs()
				var got core.Selected
				for b.Loop() {
					var err error
					got, err = Solver{Bare: true}.Decide(context.Background(), sel)
					require.NoError(b, err)
				}
				b.ReportMetric(float64(got.Width), "width")
				b.ReportMetric(100*float64(got.Value-got.Bound)/float64(got.Value), "gap-%")
				b.ReportMetric(peak(func() { _, _ = Solver{Bare: true}.Decide(context.Background(), sel) }), "peak-MB")
			})
		}
	}
}

// peak gives the most memory in use while something is done, above what was in use before, in MB.
func peak(do func()) float64 {
	defer debug.SetGCPercent(debug.SetGCPercent(10)) // garbage goes soon, so that what is left is in use
	runtime.GC()
	var before, now runtime.MemStats
	runtime.ReadMemStats(&before)
	done := make(chan struct{})
	go func() { defer close(done); do() }()
	most := before.HeapAlloc
	for {
		runtime.ReadMemStats(&now)
		most = max(most, now.HeapAlloc)
		select {
		case <-done:
			return float64(most-before.HeapAlloc) / 1e6
		case <-time.After(200 * time.Microsecond):
		}
	}
}

// BenchmarkVehicle measures the optimum of a whole vehicle of 232 parts, with every other option's price, and its curve
// of money against risk under twenty caps.
func BenchmarkVehicle(b *testing.B) {
	sel := wholeVehicle(b, 1)
	b.Run("optimum", func(b *testing.B) {
		for b.Loop() {
			_, err := Solver{}.Decide(context.Background(), sel)
			require.NoError(b, err)
		}
	})
	caps := twentyCaps(b, sel)
	b.Run("curve=20", func(b *testing.B) {
		proven := 0
		for b.Loop() {
			curve, err := Solver{}.Curve(context.Background(), sel, caps)
			require.NoError(b, err)
			proven = 0
			for _, got := range curve {
				if got.Proven {
					proven++
				}
			}
		}
		b.ReportMetric(float64(proven), "proven")
	})
}

// twentyCaps spreads caps from a little over the least money to a little over the free optimum's.
func twentyCaps(tb testing.TB, sel core.Selection) []int64 {
	free, err := Solver{}.Decide(context.Background(), sel)
	require.NoError(tb, err)
	none, err := Solver{}.Curve(context.Background(), sel, []int64{-1})
	require.NoError(tb, err)
	low, high := none[0].Bound, free.Money+free.Money/20
	var caps []int64
	for k := range int64(20) {
		caps = append(caps, low+(high-low)*(k+1)/20)
	}
	return caps
}
