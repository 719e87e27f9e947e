package plugins_test

import "github.com/fettle-tools/fettle/core"

// axleFacts are the tooth counts of the demonstration vehicle, 43 and 9 at both ends.
func axleFacts() []core.Fact {
	count := func(name string, n int) core.Fact {
		return core.Fact{Name: name, Source: "demonstration unit", Value: core.Value{Kind: core.ValueCount, Count: n}}
	}
	return []core.Fact{count("crown_teeth", 43), count("pinion_teeth", 9)}
}

// rearAxleRows are the rows of the rear axle; none of its limits scales.
var rearAxleRows = []row{
	{"RA01", "crown-wheel-pinion", "backlash", core.Measured, "in", most(.006, .01, .016), "high"},
	{"RA02", "crown-wheel-pinion", "backlash-variation", core.Derived, "in", most(0, .002, .003), "high"},
	{"RA03", "crown-wheel", "back-face-runout", core.Measured, "in", most(0, .003, .006), "high"},
	{"RA04", "crown-wheel-pinion", "contact-pattern", core.Judged, "class 0-3", class(1, 1), "high"},
	{"RA05", "final-gear", "teeth", core.Judged, "class 0-3", class(1, 1), "high"},
	{"RA06", "crown-wheel-pinion", "pair-marks", core.GoNoGo, "pass/fail", goNoGo(), "high"},
	{"RA07", "axle-ratio", "ratio-difference", core.Derived, "%", most(0, 0, 0), "high"},
	{"RA08", "pinion-bearings", "rolling-torque", core.Measured, "lbf-in", least(5, 15, 3), "medium"},
	{"RA09", "pinion-bearings", "rolling-torque-set", core.Measured, "lbf-in", most(15, 30, 35), "medium"},
	{"RA10", "pinion-bearings", "end-float", core.Measured, "in", most(0, 0, .001), "high"},
	{"RA11", "side-bearings", "preload", core.Measured, "in", least(.006, .01, .004), "low"},
	{"RA12", "side-gear", "backlash", core.Measured, "in", most(.002, .008, .015), "medium"},
	{"RA13", "thrust-washer", "thickness-loss", core.Derived, "in", most(0, .003, .01), "medium"},
	{"RA14", "cross-pin", "wear-step", core.Measured, "in", most(0, .0005, .003), "medium"},
	{"RA15", "half-shaft", "runout", core.Measured, "in", most(0, .02, .04), "medium"},
	{"RA16", "half-shaft", "flange-runout", core.Measured, "in", most(0, .005, .01), "medium"},
	{"RA17", "half-shaft", "spline-twist", core.Measured, "deg", most(0, 0, .5), "high"},
	{"RA18", "half-shaft", "crack-test", core.GoNoGo, "pass/fail", goNoGo(), "high"},
	{"RA19", "drive-flange", "spline-backlash", core.Measured, "in", most(.001, .004, .01), "medium"},
	{"RA20", "axle-case", "bend", core.Measured, "in", most(0, .02, .06), "medium"},
	{"RA21", "spindle", "seat-wear", core.Derived, "in", most(0, .0005, .002), "medium"},
	{"RA22", "axle-case", "cracks", core.Counted, "count", most(0, 0, 0), "high"},
	{"RA23", "breather", "clear", core.GoNoGo, "pass/fail", goNoGo(), "high"},
	{"RA24", "pinion-flange", "groove-depth", core.Measured, "in", most(0, .0005, .005), "medium"},
	{"RA25", "pinion-flange", "face-runout", core.Measured, "in", most(0, .003, .006), "medium"},
	{"RA26", "pinion-bearing", "condition", core.Judged, "class 0-3", class(0, 0), "high"},
	{"RA27", "crown-wheel-bolt", "stretch", core.Counted, "count", most(0, 0, 0), "medium"},
	{"RA28", "axle-oil", "metal-or-water", core.Judged, "class 0-3", class(1, 1), "high"},
}
