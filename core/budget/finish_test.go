package budget

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/fettle-tools/fettle/core"
)

// finish draws, and checks that one worker and two give the same, bit for bit.
func finish(t require.TestingT, f core.Forecast, n core.Network) core.FinishSpread {
	one, err := Simulator{Workers: 1}.Finish(context.Background(), f, n)
	require.NoError(t, err)
	two, err := Simulator{Workers: 2}.Finish(context.Background(), f, n)
	require.NoError(t, err)
	require.Equal(t, one, two, "whatever the number of workers")
	return one
}

// activities one after another, each due whatever is found, in hours at a bench that has one a week: the finish in weeks is their sum.
func inARow(activities ...core.Range3) (core.Forecast, core.Network) {
	f := base(0, activities...)
	n := core.Network{Pace: core.Pace{HoursWeek: 1}}
	for i, r := range activities {
		n.Strip = append(n.Strip, core.NetworkStep{Cost: i, Hours: r})
	}
	return f, n
}

// The activities of a published case table, by the standard PERT formulas: mean (a + 4m + b)/6, variance ((b - a)/6)^2. Those of the path for
// which the table gives mean and variance alone stand here with ranges that have these: 25, 30, 35 and 10, 20, 30.
var caseTable = []struct {
	name           string
	hours          core.Range3
	mean, variance float64
}{
	{"A", core.Range3{Low: 20, Likely: 30, High: 40}, 30, 11.11},
	{"B", core.Range3{Low: 20, Likely: 65, High: 80}, 60, 100.00},
	{"C", core.Range3{Low: 50, Likely: 60, High: 100}, 65, 69.44},
	{"D", core.Range3{Low: 30, Likely: 50, High: 100}, 55, 136.11},
	{"G", core.Range3{Low: 25, Likely: 30, High: 35}, 30, 2.78},
	{"H", core.Range3{Low: 10, Likely: 20, High: 30}, 20, 11.11},
	{"I", core.Range3{Low: 20, Likely: 25, High: 60}, 30, 44.44},
	{"L", core.Range3{Low: 20, Likely: 25, High: 60}, 30, 44.44},
}

// Published case table; standard PERT formulas.
func TestFinishOfOneActivity(t *testing.T) {
	for _, a := range caseTable {
		c := ClosedForm([]core.Range3{a.hours}, 0, nil)
		require.InDelta(t, a.mean, c.Mean, .01, a.name)
		require.InDelta(t, a.variance, c.SD*c.SD, .01, a.name)
		f, n := inARow(a.hours)
		s := finish(t, f, n)
		require.InDelta(t, a.mean, s.Mean, 4*c.SD/math.Sqrt(float64(s.Trials)), a.name)
		require.InEpsilon(t, c.SD, s.SD, .02, a.name)
		require.Equal(t, 1., s.Bench)
		require.Empty(t, s.HeldUp)
	}
}

// The critical path of the published case table, A-C-D-G-H-I-L: 260 days, variance 319.44 (as printed there, from rounded variances, 319.43),
// standard deviation 17.87, and done in 270 days at .71226 with z rounded to .56, .71209 without. The table takes the sum for normal; the
// simulation does not, and its activities lean to the right, so that it is a little surer.
func TestFinishOfThePublishedPath(t *testing.T) {
	var path []core.Range3
	for _, a := range caseTable {
		if a.name != "B" {
			path = append(path, a.hours)
		}
	}
	c := ClosedForm(path, 0, nil)
	require.InDelta(t, 260, c.Mean, 1e-9)
	require.InDelta(t, 319.43, c.SD*c.SD, .02)
	require.InDelta(t, 17.87, c.SD, .01)
	require.InDelta(t, .71226, normalCDF(.56), .0005)
	require.InDelta(t, .71209, normalCDF((270-c.Mean)/c.SD), .0005)

	f, n := inARow(path...)
	f.Trials = 100_000
	s := finish(t, f, n)
	require.InDelta(t, c.Mean, s.Mean, 4*c.SD/math.Sqrt(1e5))
	require.InEpsilon(t, c.SD, s.SD, .01)
	require.InDelta(t, .71209, core.Finish{Curve: s.Curve}.By(270), .015)
	// At the bench, whatever the pace: half the hours a week take twice the weeks.
	n.Pace.HoursWeek = .5
	require.InEpsilon(t, 2*s.P80, finish(t, f, n).P80, 1e-9)
}

// Two independent activities of the published case table: mean 90, variance 111.11, standard deviation 10.541 (the sum of variances).
func TestFinishOfTwoActivities(t *testing.T) {
	f, n := inARow(caseTable[0].hours, caseTable[1].hours)
	f.Trials = 100_000
	s := finish(t, f, n)
	require.InDelta(t, 90, s.Mean, 4*10.541/math.Sqrt(1e5))
	require.InEpsilon(t, 10.541, s.SD, .01)
}

// certain is a forecast of constant costs that are all due, and a network of constant hours and waits beside it.
func certain(hoursWeek float64, strip []float64, work ...core.NetworkWork) (core.Forecast, core.Network) {
	f := constants(make([]float64, len(strip)+len(work))...)
	f.Trials = 400
	n := core.Network{Pace: core.Pace{HoursWeek: hoursWeek}, Work: work}
	for i := range f.Costs {
		f.Base = append(f.Base, i)
	}
	for i, h := range strip {
		n.Strip = append(n.Strip, core.NetworkStep{Cost: i, Hours: constant(h)})
	}
	for i := range n.Work {
		n.Work[i].Cost = len(strip) + i
	}
	return f, n
}

func job(hours, wait float64, off ...int) core.NetworkWork {
	w := core.NetworkWork{Hours: constant(hours), Wait: constant(wait), Off: off}
	if wait > 0 {
		w.WaitFor = fmt.Sprint("wait ", hours, "/", wait)
	}
	return w
}

func after(w core.NetworkWork, under ...int) core.NetworkWork {
	w.Under = under
	return w
}

// By hand, at 10 hours a week: step A takes 10 hours, step B 20, and they are off after 30. What lies behind A goes out at hour 10, week 1; what
// lies behind B is repaired here in 15. Refitting takes 10 for B and 5 for A, A after B.
func TestFinishByHand(t *testing.T) {
	away := func(weeks float64) core.FinishSpread {
		f, n := certain(10, []float64{10, 20}, job(5, weeks, 0), job(15, 0, 1), after(job(10, 0), 1), after(job(5, 0), 0, 2))
		return finish(t, f, n)
	}
	s := away(4)
	// Back in week 5, when the bench is still at B: it is busy from hour 0 to 65.
	require.InDelta(t, 6.5, s.P50, 1e-9)
	require.Equal(t, 1., s.Bench)
	require.InDelta(t, 65, s.Hours, 1e-9)
	require.Zero(t, s.SD)
	// Away 6 weeks it is back in week 7, when the bench has stood still since hour 55; 5 hours for it and 5 for A are left.
	s = away(6)
	require.InDelta(t, 8, s.P80, 1e-9)
	require.Len(t, s.HeldUp, 1)
	h := s.HeldUp[0]
	require.Equal(t, []float64{1, 1, 6, 1, 1.5}, []float64{h.Chance, h.Begins, h.Wait, round9(h.After), round9(h.Later)})
	require.Zero(t, s.Bench)
}

func round9(x float64) float64 { return math.Round(x*1e9) / 1e9 }

// By hand, at 10 hours a week: a panel comes in week 2 and takes 10 hours to fit, another comes in week 4 and takes 20. Painting goes out when both
// are on, in week 6, and is back in week 9; 5 hours are left.
func TestWhatGoesOutWaitsForTheWorkBeforeIt(t *testing.T) {
	paint := job(5, 3)
	paint.Before = []int{0, 1}
	f, n := certain(10, []float64{5}, job(10, 2, 0), job(20, 3.5, 0), paint)
	s := finish(t, f, n)
	require.InDelta(t, 9.5, s.P50, 1e-9)
	require.Equal(t, 6., round9(s.HeldUp[0].Begins))
	require.Equal(t, 3., s.HeldUp[0].Wait)
	require.Equal(t, 3., round9(s.HeldUp[0].Later), "painted at once, it is done when the second panel is on and the 5 hours are worked")
}

// By hand, at 30 hours a week: another job has 45 hours left, so each has 15 a week for 3 weeks; then this one has all 30.
func TestOtherJobsTakeTheirShareOfTheWeek(t *testing.T) {
	f, n := certain(30, []float64{60})
	n.Pace.Others = []float64{45}
	require.InDelta(t, 3.5, finish(t, f, n).P50, 1e-9)
	n.Pace.Others = []float64{45, 0, 45} // 10 a week for 4.5 weeks, then 30
	require.InDelta(t, 5, finish(t, f, n).P50, 1e-9)
	n.Pace.Others = []float64{1000} // not worked off before this one is done
	require.InDelta(t, 4, finish(t, f, n).P50, 1e-9)
	p := newPace(core.Pace{HoursWeek: 30, Others: []float64{10, 45, 45, 80}})
	for h := range 300 {
		require.InDelta(t, float64(h), p.by(p.weeks(float64(h))), 1e-9)
	}
}

// What does not fall due in a trial takes no time in it: by hand, a part that turns out bad in three trials of ten goes away for 10 weeks.
func TestFinishFollowsWhatFallsDue(t *testing.T) {
	f, n := certain(10, []float64{10}, job(10, 10, 0))
	f.Trials = 40_000
	f.Base = []int{0}
	f.Blocks = []core.ForecastBlock{{Name: "A", Members: []core.ForecastMember{goodOrBad("A", .3, 0b11, 0b10)}, Options: options(nil, []int{1})}}
	n.Work[0].Name = "A, grinding"
	s := finish(t, f, n)
	require.Equal(t, 1., round9(s.P50))
	require.Equal(t, 12., round9(s.P80))
	require.InDelta(t, .3, s.HeldUp[0].Chance, .01)
	require.Equal(t, "A, grinding", s.HeldUp[0].Name)
	require.InDelta(t, 1, s.HeldUp[0].Share, .1, "nothing else varies but the hours that go with it")
	require.InDelta(t, .7, core.Finish{Curve: s.Curve}.By(2), .01)
}

// Hours lie in their range where the money of the same cost lies, and the labour ratio multiplies both: a cost that is labour alone, at 10 an
// hour and an hour a week, takes a tenth of its money.
func TestFinishAndMoneyAreDrawnAlike(t *testing.T) {
	r := core.Range3{Low: 100, Likely: 150, High: 320}
	f := base(.3, r, r)
	f.Ratio = DefaultRatio
	for i := range f.Costs {
		f.Costs[i].LabourLow, f.Costs[i].LabourHigh = r.Low, r.High
	}
	n := core.Network{Pace: core.Pace{HoursWeek: 1}}
	for i := range f.Costs {
		n.Strip = append(n.Strip, core.NetworkStep{Cost: i, Hours: r.Scale(.1)})
	}
	money, weeks := budget(t, f), finish(t, f, n)
	for q := range money.Curve {
		require.InEpsilon(t, money.Curve[q]/10, weeks.Curve[q], 1e-9, "quantile %d", q)
	}
	require.InEpsilon(t, money.SE[2]/10, weeks.SE[2], 1e-9)
}

// randomNetwork takes every cost of a random forecast for a step or for work.
func randomNetwork(r *rand.Rand, f core.Forecast) core.Network {
	n := core.Network{Pace: core.Pace{HoursWeek: 5 + 30*r.Float64()}}
	for range r.IntN(3) {
		n.Pace.Others = append(n.Pace.Others, 100*r.Float64())
	}
	ranged := func(most float64) core.Range3 {
		low := most * r.Float64()
		likely := low + most*r.Float64()
		return core.Range3{Low: low, Likely: likely, High: likely + most*r.Float64()}
	}
	some := func(of int) []int {
		if of == 0 || r.IntN(2) == 0 {
			return nil
		}
		return r.Perm(of)[:1+r.IntN(min(of, 3))]
	}
	for i := range f.Costs {
		if i < 4 {
			n.Strip = append(n.Strip, core.NetworkStep{Cost: i, Hours: ranged(10)})
			continue
		}
		w := core.NetworkWork{Cost: i, Hours: ranged(20), Off: some(len(n.Strip)), Under: some(len(n.Work)), Before: some(len(n.Work))}
		if r.IntN(3) > 0 {
			w.Wait, w.WaitFor = ranged(8), fmt.Sprint("w", i%7)
		}
		n.Work = append(n.Work, w)
	}
	return n
}

func cloned(n core.Network) core.Network {
	n.Strip, n.Work, n.Pace.Others = slices.Clone(n.Strip), slices.Clone(n.Work), slices.Clone(n.Pace.Others)
	return n
}

// Whatever takes longer never ends earlier; more hours a week never later. Figures are drawn alike, so that this holds of every quantile.
func TestFinishNeverTurnsRound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 1))
		f := randomForecast(r)
		f.Trials = 300
		n := randomNetwork(r, f)
		was := finish(t, f, n)
		later := func(what string, n core.Network) {
			now := finish(t, f, n)
			for q := range now.Curve {
				require.GreaterOrEqual(t, now.Curve[q], was.Curve[q]-1e-9, "%s: quantile %d", what, q)
			}
		}
		more := cloned(n)
		more.Pace.HoursWeek *= .8
		later("fewer hours a week", more)
		more = cloned(n)
		more.Pace.Others = append(more.Pace.Others, 40)
		later("another job", more)
		i := r.IntN(len(n.Work))
		more = cloned(n)
		more.Work[i].Hours = more.Work[i].Hours.Scale(1.5)
		later("more hours of work", more)
		more = cloned(n)
		more.Work[i].Wait = more.Work[i].Wait.Scale(1.5)
		later("a longer wait", more)
		more = cloned(n)
		more.Strip[r.IntN(4)].Hours = core.Range3{Low: 30, Likely: 31, High: 32}
		later("a longer step", more)

		sum := was.Bench
		share := was.BenchShare
		for _, h := range was.HeldUp {
			sum, share = sum+h.Chance, share+h.Share
			require.GreaterOrEqual(t, h.Later, 0.)
		}
		require.InDelta(t, 1, sum, 1e-9)
		require.InDelta(t, 1, share, 1e-9)
	})
}

// A wait that is over while the bench is still stripping changes nothing, nor does one of what never falls due.
func TestAWaitOnNoPathDoesNothing(t *testing.T) {
	f, n := certain(10, []float64{10, 30}, job(5, 6, 0), job(8, 0, 1))
	f.Costs = append(f.Costs, core.ForecastCost{ID: "never"})
	was := finish(t, f, n)
	n.Work[1].Wait, n.Work[1].WaitFor, n.Work[1].Off = constant(3.9), "goods", nil
	n.Work = append(n.Work, core.NetworkWork{Cost: len(f.Costs) - 1, Hours: constant(9), Wait: constant(90), WaitFor: "never"})
	now := finish(t, f, n)
	require.Equal(t, was, now)
}

// No order of work on one machine ends earlier than the longest path: all orders are tried.
func TestNoOrderEndsEarlier(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 7))
	for range 300 {
		var queue []begins
		for range 1 + r.IntN(6) {
			queue = append(queue, begins{at: math.Floor(20 * r.Float64()), hours: math.Floor(8 * r.Float64())})
		}
		best := math.Inf(1)
		var try func(left []begins, now float64)
		try = func(left []begins, now float64) {
			if len(left) == 0 {
				best = min(best, now)
			}
			for i, q := range left {
				try(append(slices.Clone(left[:i]), left[i+1:]...), max(now, q.at)+q.hours)
			}
		}
		try(queue, 0)
		got, _ := longest(slices.Clone(queue), 0, nothing)
		require.InDelta(t, best, got, 1e-9, "%v", queue)
	}
}

func TestFinishRefusesFaults(t *testing.T) {
	for _, c := range []struct {
		says string
		edit func(*core.Network)
	}{
		{"0 hours a week", func(n *core.Network) { n.Pace.HoursWeek = 0 }},
		{"another job has -1 hours left", func(n *core.Network) { n.Pace.Others = []float64{-1} }},
		{"hours of step 0", func(n *core.Network) { n.Strip[0].Hours = core.Range3{Low: 2, Likely: 1, High: 3} }},
		{"hours of work 0", func(n *core.Network) { n.Work[0].Hours.Low = -1 }},
		{"wait of work 0", func(n *core.Network) { n.Work[0].Wait.High = math.NaN() }},
		{"no cost 9", func(n *core.Network) { n.Work[0].Cost = 9 }},
		{"steps before work 0: 1 does not come earlier", func(n *core.Network) { n.Work[0].Off = []int{1} }},
		{"work before work 0: 0 does not come earlier", func(n *core.Network) { n.Work[0].Under = []int{0} }},
		{"work before the wait of work 0: -1 does not come earlier", func(n *core.Network) { n.Work[0].Before = []int{-1} }},
	} {
		f, n := certain(10, []float64{10}, job(5, 1, 0))
		c.edit(&n)
		_, err := Simulator{}.Finish(t.Context(), f, n)
		require.Equal(t, core.Invalid, core.ErrorCode(err), c.says)
		require.ErrorContains(t, err, c.says)
	}
	f, n := certain(10, []float64{10})
	f.Rho = 2
	_, err := Simulator{}.Finish(t.Context(), f, n)
	require.Equal(t, core.Invalid, core.ErrorCode(err))
}
