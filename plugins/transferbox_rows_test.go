package plugins_test

import "github.com/fettle-tools/fettle/core"

// transferBoxRows scale by nothing.
var transferBoxRows = []row{
	{"TB01", "intermediate-gear", "end-float", core.Measured, "in", most(.004, .012, .02), "medium"},
	{"TB02", "intermediate-shaft", "track-wear", core.Derived, "in", most(0, .0003, .0015), "medium"},
	{"TB03", "intermediate-shaft-bore", "clearance", core.Derived, "in", most(-.0005, .0005, .0015), "medium"},
	{"TB04", "rear-output-shaft", "end-float", core.Measured, "in", most(.002, .006, .01), "medium"},
	{"TB05", "front-output-shaft", "end-float", core.Measured, "in", most(.002, .006, .01), "medium"},
	{"TB06", "gear-pair", "backlash", core.Measured, "in", most(.004, .01, .016), "medium"},
	{"TB07", "gear", "teeth", core.Judged, "class 0-3", class(1, 1), "high"},
	{"TB08", "dog-clutch", "rounding", core.Judged, "class 0-3", class(1, 1), "high"},
	{"TB09", "front-drive-sleeve", "spline-backlash", core.Measured, "in", most(.002, .006, .012), "medium"},
	{"TB10", "selector-fork", "side-clearance", core.Measured, "in", most(.006, .015, .03), "medium"},
	{"TB11", "selector-shaft-bore", "clearance", core.Derived, "in", most(.001, .003, .008), "medium"},
	{"TB12", "output-flange", "face-runout", core.Measured, "in", most(0, .003, .006), "medium"},
	{"TB13", "output-flange", "pilot-runout", core.Measured, "in", most(0, .003, .006), "medium"},
	{"TB14", "output-flange", "spline-backlash", core.Measured, "in", most(0, .004, .01), "medium"},
	{"TB15", "flange-seal-land", "groove-depth", core.Measured, "in", most(0, .0005, .005), "medium"},
	{"TB16", "output-bearing", "condition", core.Judged, "class 0-3", class(0, 0), "high"},
	{"TB17", "speedometer-gear", "damaged-teeth", core.Counted, "count", most(0, 0, 0), "medium"},
	{"TB18", "case", "cracks", core.Counted, "count", most(0, 0, 0), "high"},
	{"TB19", "case", "joint-face", core.Judged, "class 0-3", class(1, 1), "medium"},
	{"TB20", "interlock", "blocks-low", core.GoNoGo, "pass/fail", goNoGo(), "high"},
	{"TB21", "oil-seal", "always-new", core.OneUse, "count", goNoGo(), "high"},
}
