package sdk

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// maxLimit and minLimit are limits in inches: larger, or smaller, is worse.
func maxLimit(low, high, wear float64) core.Limit {
	return core.Limit{NewLow: &low, NewHigh: &high, WearHigh: &wear, Unit: "in", Source: "common practice, no source"}
}

func minLimit(low, high, wear float64) core.Limit {
	return core.Limit{NewLow: &low, NewHigh: &high, WearLow: &wear, Unit: "in", Source: "common practice, no source"}
}

// One reading of each kind of check the trade has, with the instrument's uncertainty left out: the share of wear to
// two figures and the band. Limits are common practice unless a manual is named in the sheets.
func TestJudgeNominalBands(t *testing.T) {
	const (
		larger, smaller = false, true // is worse
	)
	const none = -1 // no share of wear is looked at: the other side decides
	for _, c := range []struct {
		id, check       string
		x, lo, hi, wear float64
		smaller         bool // is worse
		twoSided        bool
		w               float64
		grade           core.Grade
	}{
		{"BE01", "main journal diameter", 2.4946, 2.4995, 2.5, 2.4985, smaller, false, 4.90, core.PastLimit},
		{"BE02", "main journal out-of-round", .0008, 0, .0003, .001, larger, false, .71, core.NearLimit},
		{"BE10", "crankshaft end float", .0165, .003, .008, .012, larger, true, 2.12, core.PastLimit},
		{"BE10", "crankshaft end float", .002, .003, .008, .012, larger, true, none, core.TooTight},
		{"BE14", "main bearing oil clearance", .0023, .0015, .003, .0045, larger, true, 0, core.WithinNew},
		{"BE14", "main bearing oil clearance", .0012, .0015, .003, .0045, larger, true, none, core.TooTight},
		{"BE22", "small-end bush clearance", .0011, .0003, .0008, .0015, larger, true, .43, core.WornFit},
		{"CB01", "bore over standard", .0101, 0, .0005, .0081, larger, false, 1.26, core.PastLimit},
		{"CB02", "bore taper", .0064, 0, .0005, .0081, larger, false, .78, core.NearLimit},
		{"CB17", "piston skirt clearance", .0034, .0027, .00405, .00844, larger, true, 0, core.WithinNew},
		{"CB18", "top ring groove side clearance", .005, .0015, .003, .006, larger, true, .67, core.NearLimit},
		{"CH14", "valve guide stem clearance", .004, .001, .0025, .005, larger, true, .60, core.NearLimit},
		{"CH17", "valve spring load", 62, 66.5, 73.5, 63, smaller, false, 1.29, core.PastLimit},
		{"CH11", "exhaust valve margin", .05, .07, .09, .04, smaller, false, .67, core.NearLimit},
		{"CH08", "valve seat runout", .001, 0, .001, .002, larger, false, 0, core.WithinNew},
		{"CL01", "driven plate lining above rivets", .03, .055, .07, .02, smaller, false, .71, core.NearLimit},
		{"CL11", "flywheel face runout", .006, 0, .0033, .0077, larger, false, .61, core.NearLimit},
		{"GB08", "layshaft cluster end float", .016, .004, .012, .02, larger, true, .50, core.WornFit},
		{"GB02", "gear backlash", .002, .003, .008, .014, larger, true, none, core.TooTight},
		{"TB03", "fixed shaft in case", .0018, -.0005, .0005, .0015, larger, false, 1.30, core.PastLimit},
		{"PS01", "shaft tube runout", .012, 0, .01, .02, larger, false, .20, core.WornFit},
		{"RA01", "crown wheel backlash", .014, .006, .01, .016, larger, true, .67, core.NearLimit},
		{"RA03", "crown wheel back face runout", .0045, 0, .003, .006, larger, false, .50, core.WornFit},
		{"FA01", "knuckle rolling torque", 9, 40, 60, 15, smaller, true, 1.24, core.PastLimit},
		{"FA01", "knuckle rolling torque", 48, 40, 60, 15, smaller, true, 0, core.WithinNew},
		{"ST01", "steering wheel free play", 2.4, 0, 1, 2.125, larger, false, 1.24, core.PastLimit},
		{"ST29", "toe-in", .1875, 0, .125, .1875, larger, true, 1.00, core.NearLimit},
		{"BR01", "drum diameter", 12.031, 12, 12.005, 12.09, larger, false, .31, core.WornFit},
		{"BR02", "drum diameter after turning", 12.07, 12, 12.04, 12.06, larger, false, 1.50, core.PastLimit},
		{"BR03", "drum out-of-round", .007, 0, .003, .01, larger, false, .57, core.NearLimit},
		{"BR10", "riveted lining above rivets", .06, .125, .1875, .03125, smaller, false, .69, core.NearLimit},
		{"SP01", "spring free camber", 5.3, 5.7, 6, 5.4, smaller, false, 1.33, core.PastLimit},
		{"SP02", "spring rate", 312.5, 323, 357, 306, smaller, false, .62, core.NearLimit},
		{"HW01", "hub end float", .012, .001, .005, .01, larger, true, 1.40, core.PastLimit},
		{"HW01", "hub end float", .0005, .001, .005, .01, larger, true, none, core.TooTight},
		{"HW21", "rolling circumference spread", .91, 0, .5, 1, larger, false, .82, core.NearLimit},
		{"CO09", "water pump shaft end float", .009, 0, .005, .015, larger, false, .40, core.WornFit},
		{"FU04", "fuel pump pressure", 1.2, 2, 3.5, 1.5, smaller, true, 1.60, core.PastLimit},
		{"EL20", "battery cell gravity", 1.24, 1.26, 1.28, 1.225, smaller, false, .57, core.NearLimit},
		{"EL23", "starter circuit drop", .289, 0, .1, .2, larger, false, 1.89, core.PastLimit},
		{"CF05", "side rail thickness", .09, .0988, .104, .0832, smaller, false, .56, core.NearLimit},
		{"CF01", "frame diagonal difference", .31, 0, .125, .25, larger, false, 1.48, core.PastLimit},
		{"BO10", "door shut gap", .22, .125, .1875, .25, larger, true, .52, core.NearLimit},
	} {
		limit := maxLimit(c.lo, c.hi, c.wear)
		if c.smaller {
			limit = minLimit(c.lo, c.hi, c.wear)
		}
		j := Judge(c.x, 0, limit, core.Measured, c.twoSided)
		require.Equal(t, c.grade, j.Grade, "%s %s: %s", c.id, c.check, j.Words)
		if c.w != none {
			require.InDelta(t, c.w, math.Max(0, *j.Wear), .0051, "%s %s", c.id, c.check)
		}
	}
}

// A main journal not to be under 2.4985 in, reading 2.4986: a micrometer can tell, a vernier caliper cannot.
func TestJudgeAsksWhichInstrument(t *testing.T) {
	limit := minLimit(2.4995, 2.5, 2.4985)
	micrometer := Judge(2.4986, StandardUncertainty(.0001), limit, core.Measured, false)
	require.Equal(t, core.NearLimit, micrometer.Grade, micrometer.Words)
	require.InDelta(t, .9, *micrometer.Wear, 1e-9)
	require.InDelta(t, .0577, *micrometer.WearU, 1e-4)
	require.InDelta(t, .0416, *micrometer.PPast, 1e-4, "Phi(-sqrt 3)")

	caliper := Judge(2.4986, StandardUncertainty(.001), limit, core.Measured, false)
	require.Equal(t, core.MeasureAgain, caliper.Grade, caliper.Words)
	require.InDelta(t, .431, *caliper.PPast, 1e-3)
	require.Equal(t, "2.4986 in, new 2.4995 to 2.5 in, not under 2.4985 in: measure again, the chance of being past the limit is 43 %: use a better instrument", caliper.Words)
}

// At the limit is not past it, in inches or in millimetres; a hair past the slack is.
func TestJudgeAtTheLimit(t *testing.T) {
	in := minLimit(2.4995, 2.5, 2.4985)
	mm := minLimit(2.4995*25.4, 2.5*25.4, 2.4985*25.4)
	require.Equal(t, core.NearLimit, Judge(2.4985, 0, in, core.Measured, false).Grade)
	require.Equal(t, core.NearLimit, Judge(63.4619, 0, mm, core.Measured, false).Grade)
	require.Equal(t, core.PastLimit, Judge(2.4985-1e-6, 0, in, core.Measured, false).Grade)
	require.Equal(t, 0.0, *Judge(2.4985, 0, in, core.Measured, false).PPast)
	require.Equal(t, 1.0, *Judge(2.4984, 0, in, core.Measured, false).PPast)
}

// Where the limit is the edge of new no wear is allowed and its share has no meaning.
func TestJudgeNoWearAllowed(t *testing.T) {
	l := maxLimit(0, .005, .005)
	in, out := Judge(.005, 0, l, core.Measured, false), Judge(.0051, 0, l, core.Measured, false)
	require.Equal(t, core.WithinNew, in.Grade)
	require.Equal(t, core.PastLimit, out.Grade)
	require.Nil(t, in.Wear)
	require.Nil(t, out.Wear)
	require.Nil(t, out.WearU)
	require.Equal(t, core.MeasureAgain, Judge(.005, .0001, l, core.Measured, false).Grade)

	drop := maxLimit(0, 0, 0)
	require.Equal(t, core.WithinNew, Judge(0, .01, drop, core.Measured, false).Grade, "only nothing will do: no instrument could prove it")
	require.Equal(t, core.PastLimit, Judge(.001, .01, drop, core.Measured, false).Grade)
}

func TestJudgeBetterThanNew(t *testing.T) {
	journal := minLimit(2.4995, 2.5, 2.4985)
	over := Judge(2.5010, StandardUncertainty(.0001), journal, core.Measured, false)
	require.Equal(t, core.MeasureAgain, over.Grade)
	require.Contains(t, over.Words, "check the reading, the part, the nominal")
	require.Equal(t, core.WithinNew, Judge(2.50005, StandardUncertainty(.0001), journal, core.Measured, false).Grade, "the micrometer explains it")

	drum := maxLimit(12, 12.005, 12.09)
	require.Equal(t, core.MeasureAgain, Judge(11.99, 0, drum, core.Measured, false).Grade)
	drum.NewLow = nil
	require.Equal(t, core.WithinNew, Judge(11.99, 0, drum, core.Measured, false).Grade, "no lower edge of new is known")
	require.Equal(t, core.MeasureAgain, Judge(-.0001, 0, maxLimit(0, .0003, .001), core.Measured, false).Grade, "less than nothing")
}

func TestJudgeTwoSided(t *testing.T) {
	torque := minLimit(40, 60, 15)
	require.Equal(t, core.TooTight, Judge(61, 0, torque, core.Measured, true).Grade, "over the new range of what wears downwards")
	require.Equal(t, core.WithinNew, Judge(60, 0, torque, core.Measured, true).Grade)

	gap := core.Limit{NewLow: new(.010), NewHigh: new(.020), Unit: "in"}
	require.Equal(t, core.TooTight, Judge(.009, 0, gap, core.Measured, true).Grade)
	require.Equal(t, core.TooTight, Judge(.021, 0, gap, core.Measured, true).Grade, "no wear limit on either side")
	require.Equal(t, core.MeasureAgain, Judge(.021, 0, gap, core.Measured, false).Grade)
	require.Equal(t, core.WithinNew, Judge(.015, 0, gap, core.Measured, true).Grade)
}

// Both wear limits: the worse side governs and the chances of both add.
func TestJudgeBothWearLimits(t *testing.T) {
	l := core.Limit{WearLow: new(14.0), NewLow: new(14.2), NewHigh: new(14.4), WearHigh: new(14.8), Unit: "V"}
	low, high := Judge(14.05, 0, l, core.Measured, true), Judge(14.5, 0, l, core.Measured, true)
	require.Equal(t, core.NearLimit, low.Grade)
	require.InDelta(t, .75, *low.Wear, 1e-9)
	require.Equal(t, core.WornFit, high.Grade)
	require.InDelta(t, .25, *high.Wear, 1e-9)
	require.Equal(t, core.PastLimit, Judge(13.9, 0, l, core.Measured, true).Grade)
	require.Equal(t, core.PastLimit, Judge(14.9, 0, l, core.Measured, true).Grade)
	vague := Judge(14.3, .5, l, core.Measured, true)
	require.InDelta(t, 1-Conformance(14.3, .5, l.WearLow, l.WearHigh), *vague.PPast, 1e-12)
	require.Equal(t, core.MeasureAgain, vague.Grade)
}

func TestJudgeWithoutAnEdgeOfNew(t *testing.T) {
	j := Judge(1.5, 0, core.Limit{WearHigh: new(2.0), Unit: "in"}, core.Measured, false)
	require.Equal(t, core.WornFit, j.Grade, "within the limit, and how new is not known")
	require.Nil(t, j.Wear)
	none := Judge(1.5, 0, core.Limit{Unit: "in"}, core.Measured, false)
	require.Equal(t, core.MeasureAgain, none.Grade, "no limit is never a pass")
	require.Nil(t, none.PPast)
	require.Equal(t, core.MeasureAgain, Judge(math.NaN(), 0, maxLimit(0, 1, 2), core.Measured, false).Grade)
}

// Damage classes 0 none, 1 light, 2 repairable, 3 past repair.
func TestJudgeClassesCountsAndPasses(t *testing.T) {
	class := func(worst int) core.Limit { return core.Limit{WorstClass: &worst, Unit: "class 0-3"} }
	for _, c := range []struct {
		name  string
		x     float64
		l     core.Limit
		kind  core.CheckKind
		grade core.Grade
	}{
		{"bright", 0, class(0), core.Judged, core.WithinNew},
		{"any mark on a bearing", 1, class(0), core.Judged, core.Failed},
		{"at the worst allowed", 1, class(1), core.Judged, core.WornFit},
		{"past the worst allowed", 2, class(1), core.Judged, core.Failed},
		{"no such class", 4, class(3), core.Judged, core.MeasureAgain},
		{"no worst class", 0, core.Limit{}, core.Judged, core.MeasureAgain},
		{"as new up to light", 1, core.Limit{NewHigh: new(1.0), WorstClass: new(2)}, core.Judged, core.WithinNew},
		{"no crack", 0, maxLimit(0, 0, 0), core.Counted, core.WithinNew},
		{"one crack", 1, maxLimit(0, 0, 0), core.Counted, core.PastLimit},
		{"teeth, as new", 2, maxLimit(0, 2, 6), core.Counted, core.WithinNew},
		{"teeth, at the limit", 6, maxLimit(0, 2, 6), core.Counted, core.NearLimit},
		{"teeth, over it", 7, maxLimit(0, 2, 6), core.Counted, core.PastLimit},
		{"a roller short", 19, minLimit(20, 20, 20), core.Counted, core.PastLimit},
		{"a roller too many", 21, minLimit(20, 20, 20), core.Counted, core.MeasureAgain},
		{"works", 1, core.Limit{}, core.GoNoGo, core.WithinNew},
		{"does not work", 0, core.Limit{}, core.GoNoGo, core.Failed},
		{"always new", 0, core.Limit{}, core.OneUse, core.WornFit},
	} {
		j := Judge(c.x, 0, c.l, c.kind, false)
		require.Equal(t, c.grade, j.Grade, "%s: %s", c.name, j.Words)
		require.Nil(t, j.Wear, c.name)
		require.NotEmpty(t, j.Words, c.name)
	}
}

// Fits tables of army technical manuals: which way each wears, its limit and a step past it.
func TestJudgeManualLimits(t *testing.T) {
	for _, c := range []struct {
		name, source string
		l            core.Limit
		twoSided     bool
	}{
		{"cylinder out-of-round", "TM 5-6115-465-34 table 1-1", maxLimit(0, .0005, .0030), false},
		{"cylinder taper", "TM 5-6115-465-34 table 1-1", maxLimit(0, .0005, .0020), false},
		{"main journal out-of-round", "TM 5-6115-465-34 table 1-1", maxLimit(0, .0003, .0020), false},
		{"main journal taper", "TM 5-6115-465-34 table 1-1", maxLimit(0, .0003, .0015), false},
		{"main bearing clearance", "TM 5-6115-465-34 table 1-1", maxLimit(.0009, .0034, .0070), true},
		{"rod bearing clearance", "TM 5-6115-465-34 table 1-1", maxLimit(.0010, .0030, .0050), true},
		{"rod side clearance", "TM 5-6115-465-34 table 1-1", maxLimit(.0050, .0120, .0200), true},
		{"crank thrust clearance", "TM 5-6115-465-34 table 1-1", maxLimit(.0050, .0100, .0150), true},
		{"ring end gap", "TM 5-4320-240-15 p. 4-2", maxLimit(.010, .020, .045), true},
		{"crown wheel backlash", "TM 10-3930-660-34 p. 8-28", maxLimit(.008, .012, .018), true},
		{"cylinder liner bore", "TM 9-2815-225-34&P app. F", maxLimit(5.4995, 5.501, 5.505), false},
		{"rod journal", "TM 9-2815-225-34&P app. F", minLimit(3.1235, 3.125, 3.122), false},
		{"main journal", "TM 9-2815-225-34&P app. F", minLimit(4.4985, 4.500, 4.4975), false},
	} {
		w, worse := c.l.WearHigh, +.0001
		if c.l.WearLow != nil {
			w, worse = c.l.WearLow, -.0001
		}
		require.Equal(t, core.NearLimit, Judge(*w, 0, c.l, core.Measured, c.twoSided).Grade, "%s at its limit, %s", c.name, c.source)
		require.Equal(t, core.PastLimit, Judge(*w+worse, 0, c.l, core.Measured, c.twoSided).Grade, "%s past it, %s", c.name, c.source)
		require.Equal(t, core.WithinNew, Judge(*c.l.NewLow, 0, c.l, core.Measured, c.twoSided).Grade, c.name)
		require.Equal(t, core.WithinNew, Judge(*c.l.NewHigh, 0, c.l, core.Measured, c.twoSided).Grade, c.name)
		if c.twoSided {
			require.Equal(t, core.TooTight, Judge(*c.l.NewLow-.0001, 0, c.l, core.Measured, true).Grade, c.name)
		}
	}
	// One figure alone: up to it nothing is done, beyond it something is.
	for _, c := range []struct {
		name, source string
		most         float64
	}{
		{"rod journal out of round or tapered, reground beyond", "TM 5-3805-262-34", .0005},
		{"runout of a crown wheel", "TM 10-3930-660-34 p. 8-28", .008},
		{"end play of a steering knuckle", "TM 10-3930-660-34 12-3", .013},
		{"end play of a steered wheel's bearings", "TM 10-3930-671-24 9.6", .003},
		{"play of a wheel's bearings at the sidewall of its tyre", "COMAR 11.22.03.04 B", 1. / 8},
		{"difference of compression pressures, lb/in2", "TM 10-3930-618-20 2-12", 10},
	} {
		l := maxLimit(0, c.most, c.most)
		require.Equal(t, core.WithinNew, Judge(c.most, 0, l, core.Derived, false).Grade, "%s, %s", c.name, c.source)
		require.Equal(t, core.PastLimit, Judge(c.most*1.01, 0, l, core.Derived, false).Grade, "%s, %s", c.name, c.source)
	}
}
