package core

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat/distuv"
	"pgregory.net/rapid"
)

// closedWith is a closed job whose hours were so many where one was expected, and whose gearbox settled some rows.
func closedWith(number string, ratio float64, seen, happened []string) Closed {
	t := &Taught{Rows: []RowsTaught{{Subsystem: "gearbox", Unit: "gearbox", Seen: seen, Happened: happened}}}
	if ratio > 0 {
		t.Hours, t.Expected = 10*ratio, 10
	} else {
		t.NoHours = "no hours are written on what was agreed to"
	}
	return Closed{Job: number, Taught: t}
}

// By hand, of ratios 1.2 and 1.4: logarithms .182322 and .336472, mean .259397; the centre 2 x .259397 / 6 = .086466, so the median is 1.090314.
// The sum of squares is 4 x .0225 / 1.25 = .072 of the prior, .011881 about the mean and 4 x 2 / 6 x .259397^2 = .089716 of the mean from the
// prior's: .173597; over 6, times 1 + 1/6, its root is .183725.
func TestLabourRatioOfTwoJobs(t *testing.T) {
	l := Learn([]Closed{closedWith("J-001", 1.2, nil, nil), closedWith("J-002", 1.4, nil, nil), closedWith("J-003", 0, nil, nil), {Job: "J-004"}}, "J-009")
	require.Equal(t, 2, l.Ratio.Jobs)
	require.Equal(t, 2, l.Ratio.None)
	require.InDelta(t, 1.090314, l.Ratio.Median, 5e-7)
	require.InDelta(t, .183725, l.Ratio.SD, 5e-7)
	require.Equal(t, LabourRatio{l.Ratio.Median, l.Ratio.SD, 6}, l.ratio())
}

// Jobs that turn out as expected make the ratio surer, and leave it where it is; of many jobs their own median and spread are left.
func TestLabourRatioSettles(t *testing.T) {
	before := ratioSD
	for n := 1; n <= 20; n++ {
		median, sd := learnRatio(make([]float64, n))
		require.Equal(t, 1.0, median)
		require.Less(t, sd, before, "after %d jobs", n)
		before = sd
	}
	random := rand.New(rand.NewPCG(1956, 7))
	logs := make([]float64, 4000)
	for i := range logs {
		logs[i] = math.Log(1.25) + .1*random.NormFloat64()
	}
	median, sd := learnRatio(logs)
	require.InDelta(t, 1.25, median, .01)
	require.InDelta(t, .1, sd, .005)
}

// The prediction against the same prior, drawn and weighted by how likely it makes the jobs: variances from the scaled inverse chi-squared, means
// given them. The shares of jobs to come under the quartiles of the t distribution are those of the quartiles.
func TestLabourRatioIsThePrediction(t *testing.T) {
	logs := []float64{.1, .3, .25, -.05}
	median, sd := learnRatio(logs)
	student := distuv.StudentsT{Mu: math.Log(median), Sigma: sd, Nu: ratioJobs + float64(len(logs))}
	chi := distuv.ChiSquared{K: ratioJobs, Src: rand.NewPCG(1, 2)}
	normal := rand.New(rand.NewPCG(3, 4))
	all, under := 0.0, [3]float64{}
	for range 400_000 {
		variance := ratioJobs * ratioSD * ratioSD / 1.25 / chi.Rand()
		mean := math.Sqrt(variance/ratioJobs) * normal.NormFloat64()
		weight := 1.0
		for _, x := range logs {
			weight *= distuv.Normal{Mu: mean, Sigma: math.Sqrt(variance)}.Prob(x)
		}
		all += weight
		for i, q := range []float64{.25, .5, .75} {
			under[i] += weight * distuv.Normal{Mu: mean, Sigma: math.Sqrt(variance)}.CDF(student.Quantile(q))
		}
	}
	require.InDelta(t, .25, under[0]/all, .004)
	require.InDelta(t, .50, under[1]/all, .004)
	require.InDelta(t, .75, under[2]/all, .004)
}

// By hand: a sheet's .15, worth 4 jobs, settled 5 times, happened twice: (4 x .15 + 2) / (4 + 5) = 2.6 / 9.
func TestARowsChanceAfterClosedJobs(t *testing.T) {
	r := RowLearned{Seen: 5, Happened: 2}
	require.InDelta(t, 2.6/9, r.Chance(.15, 0), 1e-15)
	beta := distuv.Beta{Alpha: 4*.15 + 2, Beta: 4*.85 + 5 - 2}
	require.InDelta(t, beta.Mean(), r.Chance(.15, 4), 1e-15)
	require.InDelta(t, (10*.15+2)/15, r.Chance(.15, 10), 1e-15, "a sheet may be worth more")
	require.Equal(t, .15, RowLearned{}.Chance(.15, 0))
}

func TestLearnCountsRowsByUnitAndLeavesItsOwnJobOut(t *testing.T) {
	two := closedWith("J-002", 1, []string{"H17", "H18"}, []string{"H18"})
	two.Taught.Rows = append(two.Taught.Rows, RowsTaught{Subsystem: "gearbox", Unit: "gearbox-2", Seen: []string{"H17"}, Happened: []string{"H17"}})
	all := []Closed{closedWith("J-001", 1, []string{"H17"}, []string{"H17"}), two, {Job: "J-003"}}
	l := Learn(all, "")
	require.Equal(t, []RowLearned{{"gearbox", "H17", 3, 2, 2}, {"gearbox", "H18", 1, 1, 1}}, l.Rows)
	require.Equal(t, []RowLearned{{"gearbox", "H17", 1, 1, 1}}, Learn(all, "J-002").Rows)
	require.Zero(t, l.row("gearbox", "H19").Seen)
	require.Zero(t, l.row("head", "H17").Seen)
	sheet := UnitSheet{Subsystem: "gearbox", Sheet: Sheet{Hidden: []Hidden{{ID: "H17", Chance: .7}, {ID: "H19", Chance: .15}}}}
	over := l.over(sheet)
	require.InDelta(t, (4*.7+2)/7, over.Sheet.Hidden[0].Chance, 1e-15)
	require.Equal(t, .15, over.Sheet.Hidden[1].Chance)
	require.Equal(t, .7, sheet.Sheet.Hidden[0].Chance, "the sheet itself stays")
	here := l.Here([]UnitSheet{sheet, sheet})
	require.Len(t, here.Rows, 1)
	require.Equal(t, .7, here.Rows[0].Sheet)
}

// What closed jobs teach counts before the vehicle's history and before what this job has shown.
func TestLearnedChanceComesBeforeHistory(t *testing.T) {
	s := UnitSheet{Subsystem: "frame", Sheet: Sheet{Hidden: []Hidden{{ID: "H40", Chance: .2, HistoryKeys: []string{"water"}}}}}
	l := Learned{Rows: []RowLearned{{"frame", "H40", 4, 1, 4}}}
	o := newOutlook(Brief{Stored: "damp"}, l.over(s))
	require.InDelta(t, (4*.2+1)/8*waterFactor, o.rowChance(0), 1e-15)
}

// A chance stays one, moves towards what was found and never past it; no job taught leaves every figure bit for bit.
func TestLearningIsBounded(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := rapid.Float64Range(0, 1).Draw(t, "p")
		seen := rapid.IntRange(0, 50).Draw(t, "seen")
		r := RowLearned{Seen: seen, Happened: rapid.IntRange(0, seen).Draw(t, "happened")}
		got := r.Chance(p, 0)
		if seen == 0 {
			if got != p {
				t.Fatalf("%v moved to %v by nothing", p, got)
			}
			return
		}
		f := float64(r.Happened) / float64(seen)
		if got < math.Min(p, f)-1e-12 || got > math.Max(p, f)+1e-12 {
			t.Fatalf("%v, seen %v, gives %v", p, f, got)
		}
	})
	require.Equal(t, LabourRatio{ratioMedian, ratioSD, ratioJobs}, Learned{}.ratio())
	require.Equal(t, LabourRatio{ratioMedian, ratioSD, ratioJobs}, Learn([]Closed{{Job: "J-001"}}, "").ratio(), "a job that teaches nothing")
	require.Nil(t, Learn(nil, "").Ratio)
	require.Nil(t, Learned{}.Here([]UnitSheet{{Subsystem: "gearbox", Sheet: Sheet{Hidden: []Hidden{{ID: "H17", Chance: .7}}}}}))
}
