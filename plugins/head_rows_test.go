package plugins_test

import "github.com/fettle-tools/fettle/core"

// headRows are the rows for a head of 3.5 in, valve springs of 2.0 in and 70 lbf, with a pair of timing gears beside the
// chain so that every row is there. Rows that speak of inlet and exhaust alike stand for both: see plugins/head.
var headRows = []row{
	{"CH01", "head-face", "flatness-overall", core.Measured, "in", most(0, .002, .004), "high"},
	{"CH02", "head-face", "flatness-local", core.Measured, "in", most(0, .001, .003), "medium"},
	{"CH03", "head-thickness", "thickness", core.Measured, "in", least(3.495, 3.5, 3.46), "medium"},
	{"CH04", "head", "pressure-test", core.GoNoGo, "pass/fail", goNoGo(), "high"},
	{"CH05", "head", "cracks", core.Counted, "count", most(0, 0, 0), "high"},
	{"CH06", "inlet-seat", "contact-width", core.Measured, "in", most(.06, .08, .094), "high"},
	{"CH07", "exhaust-seat", "contact-width", core.Measured, "in", most(.07, .09, .1), "high"},
	{"CH08", "inlet-seat", "runout", core.Measured, "in", most(0, .001, .002), "high"},
	{"CH09", "exhaust-seat", "recession", core.Measured, "in", most(0, .01, .06), "low"},
	{"CH10", "inlet-valve", "margin", core.Measured, "in", least(.06, .07, .031), "high"},
	{"CH11", "exhaust-valve", "margin", core.Measured, "in", least(.07, .09, .04), "medium"},
	{"CH12", "inlet-valve", "face-runout", core.Measured, "in", most(0, .001, .002), "high"},
	{"CH13", "exhaust-valve", "stem-wear", core.Derived, "in", most(0, .0005, .002), "high"},
	{"CH14", "inlet-guide", "stem-clearance", core.Derived, "in", most(.001, .0025, .005), "high"},
	{"CH15", "exhaust-guide", "stem-clearance", core.Derived, "in", most(.0015, .0035, .006), "high"},
	{"CH16", "valve-spring", "free-length", core.Measured, "in", least(1.96, 2.02, 1.94), "medium"},
	{"CH17", "valve-spring", "load", core.Measured, "lbf", least(66.5, 73.5, 63), "high"},
	{"CH18", "valve-spring", "squareness", core.Measured, "in", most(0, .02, .04), "high"},
	{"CH19", "collets-and-cap", "wear-step", core.Judged, "class 0-3", class(1, 1), "high"},
	{"CH20", "rocker", "bush-clearance", core.Derived, "in", most(.001, .0025, .005), "medium"},
	{"CH21", "rocker-shaft", "wear", core.Derived, "in", most(0, .0003, .0015), "medium"},
	{"CH22", "rocker", "pad-hollow", core.Measured, "in", most(0, .001, .01), "medium"},
	{"CH23", "pushrod", "runout", core.Measured, "in", most(0, .005, .015), "medium"},
	{"CH24", "tappet", "foot-wear", core.Judged, "class 0-3", class(1, 1), "high"},
	{"CH25", "cam-lobe", "lift-loss", core.Derived, "in", most(0, .002, .008), "medium"},
	{"CH26", "camshaft", "runout", core.Measured, "in", most(0, .001, .002), "medium"},
	{"CH27", "camshaft", "end-float", core.Measured, "in", most(.002, .007, .012), "low"},
	{"CH28", "timing-chain", "deflection", core.Measured, "in", most(0, .25, .5), "medium"},
	{"CH29", "timing-gears", "backlash", core.Measured, "in", most(.003, .01, .012), "medium"},
	{"CH30", "timing-sprocket", "hooking", core.Judged, "class 0-3", class(1, 1), "high"},
	{"CH31", "manifold-face", "flatness", core.Measured, "in", most(0, .005, .015), "medium"},
	{"CH32", "manifold", "cracks", core.Counted, "count", most(0, 0, 0), "high"},
	{"CH33", "manifold-stud", "broken", core.Counted, "count", most(0, 0, 0), "high"},
}

// headFacts are those of the demonstration engine, with a pair of timing gears and a tensioner that it does not have.
func headFacts() []core.Fact {
	fs := sizedFacts(size{"T", 3.5, "in"}, size{"L", 2, "in"}, size{"P", 70, "lbf"}, size{"lift", .26, "in"})
	for _, name := range []string{"gear_pairs", "tensioners"} {
		fs = append(fs, core.Fact{Name: name, Source: "every row of the table", Value: core.Value{Kind: core.ValueCount, Count: 1}})
	}
	return fs
}
