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
