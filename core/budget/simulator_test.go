package budget

import (
	"context"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat/distuv"
	"pgregory.net/rapid"

	"github.com/fettle-tools/fettle/core"
)

// noRatio switches the labour ratio off.
var noRatio = core.LabourRatio{Median: 1, SD: -1}

func budget(t *testing.T, f core.Forecast) core.Spread {
	t.Helper()
	s, err := Simulator{}.Budget(context.Background(), f)
	require.NoError(t, err)
	return s
}

// base gives a forecast of lines that are always due, without a labour ratio.
func base(rho float64, lines ...core.Range3) core.Forecast {
	f := core.Forecast{Rho: rho, Ratio: noRatio, Seed: 42}
	for i, r := range lines {
		f.Costs = append(f.Costs, core.ForecastCost{ID: string(rune('a' + i)), Name: "line " + string(rune('a'+i)), Total: r})
		f.Base = append(f.Base, i)
	}
	return f
}

func constant(v float64) core.Range3 { return core.Range3{Low: v, Likely: v, High: v} }

// Published three-point activities, simulated one at a time: the mean and variance are those of (a + 4m + b)/6 and ((b - a)/6)^2.
func TestBudgetOneLine(t *testing.T) {
	for _, r := range []core.Range3{{Low: 20, Likely: 30, High: 40}, {Low: 20, Likely: 65, High: 80}, {Low: 50, Likely: 60, High: 100}, {Low: 30, Likely: 50, High: 100}, {Low: 20, Likely: 25, High: 60}, {Low: 100, Likely: 150, High: 320}} {
		f := base(1, r)
		f.Trials = 100_000
		s, want := budget(t, f), ClosedForm([]core.Range3{r}, 0, nil)
		require.InEpsilon(t, want.Mean, s.Mean, 1e-4)
		require.InEpsilon(t, want.SD, s.SD, 1e-3)
		require.GreaterOrEqual(t, s.Curve[0], r.Low-1e-9)
		require.LessOrEqual(t, s.Curve[100], r.High+1e-9)

		alpha, beta := betaParameters((r.Mean() - r.Low) / (r.High - r.Low))
		ref := distuv.Beta{Alpha: alpha, Beta: beta}
		for _, p := range []int{1, 10, 50, 80, 90, 99} {
			require.InDelta(t, r.Low+(r.High-r.Low)*ref.Quantile(float64(p)/100), s.Curve[p], 2e-3*(r.High-r.Low))
		}
	}
}

// A three-point range is not a triangle: on 100, 150, 320 the triangle has mean 190, variance 2216.667, P50 183.252 and P90 258.844
// (mean (a + b + c)/3, variance (a^2 + b^2 + c^2 - ab - ac - bc)/18, percentiles from scipy.stats.triang: computed), the trade's beta 170 and
// 1344.444. On 20, 30, 40 the triangle's variance is 16.6667.
func TestBudgetIsNotTriangular(t *testing.T) {
	small := distuv.NewTriangle(20, 40, 30, nil)
	require.InDelta(t, 30, small.Mean(), 1e-4)
	require.InDelta(t, 16.6667, small.Variance(), 1e-4)
	triangle := distuv.NewTriangle(100, 320, 150, nil)
	require.InDelta(t, 190, triangle.Mean(), 1e-3)
	require.InDelta(t, 2216.667, triangle.Variance(), 1e-3)
	require.InDelta(t, 183.252, triangle.Quantile(.5), 1e-3)
	require.InDelta(t, 258.844, triangle.Quantile(.9), 1e-3)

	s := budget(t, base(0, core.Range3{Low: 100, Likely: 150, High: 320}))
	require.InDelta(t, 170, s.Mean, 1)
	require.InDelta(t, math.Sqrt(1344.444), s.SD, 1)
	require.Less(t, s.P50, triangle.Quantile(.5)-10)
	require.Less(t, s.P90, triangle.Quantile(.9)-20)
}

func TestBudgetWorkedExample(t *testing.T) {
	f := base(DefaultRho, exampleLines...)
	for i, h := range exampleHidden {
		f.Costs = append(f.Costs, core.ForecastCost{ID: h.Name, Total: constant(h.Cost)})
		f.Events = append(f.Events, core.ForecastEvent{ID: h.Name, Chance: h.Chance, Costs: []int{len(exampleLines) + i}})
	}
	s, want := budget(t, f), ClosedForm(exampleLines, DefaultRho, exampleHidden)
	require.InEpsilon(t, 10575, s.P80, .01)
	require.InEpsilon(t, want.Mean, s.Mean, .002)
	require.InEpsilon(t, want.SD, s.SD, .02)
	require.InEpsilon(t, 11011, s.P90, .015)
	require.Less(t, s.P50, s.Mean, "skewed to the dear side")
	require.Less(t, s.SE[2], .0025*s.P80)
}

// With correlation 1 and one shape all lines stand at the same place of their ranges, so percentiles add; with 0 variances do.
func TestBudgetCorrelationLimits(t *testing.T) {
	a, b := core.Range3{Low: 100, Likely: 120, High: 200}, core.Range3{Low: 1000, Likely: 1200, High: 2000}
	one, ten, both := budget(t, base(1, a)), budget(t, base(1, b)), budget(t, base(1, a, b))
	for p := range both.Curve {
		require.InDelta(t, one.Curve[p]+ten.Curve[p], both.Curve[p], 1e-9*both.Curve[p])
	}
	apart := base(0, a, a, a, a)
	apart.Trials = 100_000
	s := budget(t, apart)
	require.InEpsilon(t, 2*100.0/6, s.SD, .01)
	require.InDelta(t, 4*a.Mean(), s.Mean, 4*s.SD/math.Sqrt(100_000))
	for _, w := range s.Widest {
		require.InDelta(t, .25, w.Share, .01)
	}
}

// The labour ratio is log-normal and multiplies labour alone: with nothing but labour that has no range, the total is the ratio.
func TestBudgetLabourRatio(t *testing.T) {
	f := base(.3, constant(1000))
	f.Costs[0].LabourLow, f.Costs[0].LabourHigh = 1000, 1000
	f.Ratio = core.LabourRatio{}
	s := budget(t, f)
	ref := distuv.LogNormal{Mu: 0, Sigma: .15}
	for _, p := range []int{5, 10, 50, 80, 90, 95} {
		require.InEpsilon(t, 1000*ref.Quantile(float64(p)/100), s.Curve[p], .002)
	}
	f.Ratio = core.LabourRatio{Median: 1.25, SD: .3}
	f.Costs[0].Total = constant(3000)
	ref = distuv.LogNormal{Mu: math.Log(1.25), Sigma: .3}
	s = budget(t, f)
	require.InEpsilon(t, 2000+1000*ref.Mean(), s.Mean, .001)
	require.InEpsilon(t, 1000*ref.StdDev(), s.SD, .01)

	f.Ratio = core.LabourRatio{Median: 2, SD: -1}
	require.Equal(t, 4000.0, budget(t, f).P90)
}

// Labour stands at the same place in its range as the money: at low the low labour, at high the high.
func TestBudgetLabourInProportion(t *testing.T) {
	f := base(0, core.Range3{Low: 100, Likely: 200, High: 400})
	f.Costs[0].LabourLow, f.Costs[0].LabourHigh = 100, 100
	fixed := budget(t, f)
	f.Ratio = core.LabourRatio{Median: 3, SD: -1}
	tripled := budget(t, f)
	f.Costs[0].LabourHigh = 400
	all := budget(t, f)
	for p := range fixed.Curve {
		require.InDelta(t, fixed.Curve[p]+200, tripled.Curve[p], 1e-9*tripled.Curve[p])
		require.InDelta(t, 3*fixed.Curve[p], all.Curve[p], 1e-9*all.Curve[p])
	}
}

func TestBudgetSameBits(t *testing.T) {
	for _, f := range []core.Forecast{typicalJob(), wholeVehicle()} {
		want := budget(t, f)
		for _, workers := range []int{1, 2, 3, 7, 1000} {
			got, err := Simulator{Workers: workers}.Budget(context.Background(), f)
			require.NoError(t, err)
			require.Equal(t, want, got, "%d workers", workers)
		}
	}
	f := typicalJob()
	want := budget(t, f)
	f.Seed++
	other := budget(t, f)
	require.NotEqual(t, want.P80, other.P80)
	require.InDelta(t, want.P80, other.P80, 4*math.Hypot(want.SE[2], other.SE[2]))
}

// What is never due moves no bit, and a constant moves every percentile by itself.
func TestBudgetNothingChanged(t *testing.T) {
	f := typicalJob()
	before := budget(t, f)
	f.Costs = append(f.Costs, core.ForecastCost{ID: "never due", Total: exampleLines[0]}, core.ForecastCost{ID: "constant", Total: constant(5000)})
	require.Equal(t, before, budget(t, f))
	f.Base = append(slices.Clone(f.Base), len(f.Costs)-1)
	after := budget(t, f)
	for p := range before.Curve {
		require.InEpsilon(t, before.Curve[p]+5000, after.Curve[p], 1e-12)
	}
}

// A line's place in the forecast does not move its draws.
func TestBudgetOrderOfLines(t *testing.T) {
	a, b, c := exampleLines[0], exampleLines[1], exampleLines[2]
	x, y := base(.3, a, b, c), base(.3, c, b, a)
	y.Costs[0].ID, y.Costs[2].ID = "c", "a"
	require.InEpsilonSlice(t, budget(t, x).Curve, budget(t, y).Curve, 1e-12)
}

// What a block is called, and who else is in it, does not move its parts' draws: a word changed or a part settled moves no other figure.
func TestBudgetNamesOfBlocks(t *testing.T) {
	f := constants(100, 40, 1000)
	f.Base = []int{2}
	f.Blocks = []core.ForecastBlock{{Name: "first, second not settled", Options: options(nil, []int{0}), Members: []core.ForecastMember{
		goodOrBad("first", .3, 0b11, 0b10), goodOrBad("second", 0, 0b11, 0b10),
	}}}
	was := budget(t, f)
	f.Blocks[0].Name, f.Blocks[0].Members = "first not settled", f.Blocks[0].Members[:1]
	now := budget(t, f)
	require.Equal(t, was.Mean, now.Mean, "as many trials have the first bad")
	require.Equal(t, was.Curve, now.Curve)
}

// Adding a positive cost never lowers a percentile, wherever it is added.
func TestBudgetMonotone(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		f := linesOf(rapid.IntRange(1, 8).Draw(r, "lines"))
		f.Trials, f.Seed = 500, rapid.Uint64().Draw(r, "seed")
		f.Rho = rapid.Float64Range(0, 1).Draw(r, "rho")
		f.Events = []core.ForecastEvent{{ID: "e", Chance: rapid.Float64Range(0, 1).Draw(r, "chance"), Costs: []int{0}, Times: rapid.Float64Range(0, 3).Draw(r, "times")}}
		before, err := Simulator{}.Budget(t.Context(), f)
		require.NoError(r, err)
		low, likely, high := rapid.Float64Range(0, 1e6).Draw(r, "low"), rapid.Float64Range(0, 1e6).Draw(r, "over"), rapid.Float64Range(0, 1e6).Draw(r, "further")
		added := core.ForecastCost{ID: "one more", Total: core.Range3{Low: low, Likely: low + likely, High: low + likely + high}, LabourHigh: low}
		f.Costs = append(f.Costs, added)
		if rapid.Bool().Draw(r, "due whatever is found") {
			f.Base = append(slices.Clone(f.Base), len(f.Costs)-1)
		} else {
			f.Events[0].Costs = []int{0, len(f.Costs) - 1}
		}
		after, err := Simulator{}.Budget(t.Context(), f)
		require.NoError(r, err)
		for p := range before.Curve {
			require.GreaterOrEqual(r, after.Curve[p], before.Curve[p]*(1-1e-12))
		}
	})
}

// The standard errors are those of repeated runs with other seeds: neither too small nor more than twice too large.
func TestBudgetStandardErrors(t *testing.T) {
	const runs = 60
	f := typicalJob()
	f.Trials = 2_000
	values, told := make([][]float64, 4), make([]float64, 4)
	for i := range runs {
		f.Seed = uint64(i)
		s := budget(t, f)
		for k, v := range []float64{s.P10, s.P50, s.P80, s.P90} {
			values[k] = append(values[k], v)
			told[k] += s.SE[k] / runs
		}
	}
	for k := range values {
		_, sd := moments(values[k])
		t.Logf("%g: told %.0f, seen %.0f", figures[k], told[k], sd)
		require.Greater(t, told[k], .75*sd)
		require.Less(t, told[k], 2*sd)
	}
	f.Trials = 0
	s := budget(t, f)
	for _, se := range s.SE {
		require.Less(t, se, .0025*s.P80, "the default number of trials is enough")
	}
}

// The default number of trials is enough for each percentile to stand to a quarter of a per cent of P80: of a whole vehicle, of a typical job, and of
// one unit with a few wide lines, most of which nobody has seen.
func TestBudgetDefaultTrialsAreEnough(t *testing.T) {
	unit := typicalJob()
	unit.Base = unit.Base[:4]
	for name, of := range map[string]struct {
		core.Forecast
		trials int
	}{"whole vehicle": {wholeVehicle(), manyLinesTrials}, "typical job": {typicalJob(), DefaultTrials}, "one unit": {unit, fewLinesTrials}} {
		f := of.Forecast
		s := budget(t, f)
		t.Logf("%s: %d trials, SD %.1f %% of the mean, standard errors %.3f %% of P80", name, s.Trials, 100*s.SD/s.Mean, 100*slices.Max(s.SE[:])/s.P80)
		require.Equal(t, of.trials, s.Trials, name)
		for i, se := range s.SE {
			require.Less(t, se, .0025*s.P80, "%s, P%g", name, 100*figures[i])
		}
	}
}

// What is drawn the quick way is what is drawn the long way: a part that is either good or bad, one that an event decides, lines due in every trial.
func TestBudgetQuickWays(t *testing.T) {
	f := wholeVehicle()
	var looks core.ForecastLook // a part that is watched is drawn the long way
	for b, block := range f.Blocks {
		for m := range block.Members {
			looks = append(looks, core.ForecastPart{Block: b, Member: m})
		}
	}
	m := compile(f)
	for _, p := range looks {
		m.watch(p)
	}
	long, err := Simulator{}.run(t.Context(), m)
	require.NoError(t, err)
	quick, err := Simulator{}.run(t.Context(), compile(f))
	require.NoError(t, err)
	require.Equal(t, long.total, quick.total)

	w := newWorker(m)
	require.True(t, w.draw(0, chunkSize))
	var all, one amounts
	w.addAll(&m.lines[3], &all)
	w.add(&m.lines[3], &one, w.all.list(nil))
	require.Equal(t, one, all)
}

func TestBudgetEmptyAndConstant(t *testing.T) {
	require.Equal(t, 0.0, budget(t, core.Forecast{}).P90)
	s := budget(t, base(.3, constant(500), constant(250)))
	require.Equal(t, []float64{750, 750, 750, 750, 0}, []float64{s.Mean, s.P10, s.P50, s.P90, s.SD})
	require.Equal(t, [4]float64{}, s.SE)
	require.Empty(t, s.Widest)
	require.Equal(t, fewLinesTrials, s.Trials)
}

func TestBudgetCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	_, err := Simulator{}.Budget(ctx, typicalJob())
	require.ErrorIs(t, err, context.Canceled)
}
