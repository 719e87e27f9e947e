package plugins_test

import "github.com/fettle-tools/fettle/core"

// pumpPressure has a limit on both sides: a pump that presses too hard floods.
var pumpPressure = func() bounds {
	b, floods := least(2, 3.5, 1.5), 4.5
	b.wearHigh = &floods
	return b
}()

// fuelRows are the rows for a float set at .75 in.
var fuelRows = []row{
	{"FU01", "fuel-tank", "leak", core.GoNoGo, "pass/fail", goNoGo(), "high"},
	{"FU02", "fuel-tank", "inside-rust", core.Judged, "class 0-3", class(1, 1), "high"},
	{"FU03", "fuel-tank", "sediment", core.Measured, "in3", most(0, .5, 3), "low"},
	{"FU04", "fuel-pump", "static-pressure", core.Measured, "psi", pumpPressure, "medium"},
	{"FU05", "fuel-pump", "suction", core.Measured, "inHg", least(10, 20, 8), "medium"},
	{"FU06", "fuel-pump", "delivery", core.Measured, "US pt/min", least(1.5, 3, 1), "medium"},
	{"FU07", "fuel-pump", "arm-pad-wear", core.Measured, "in", most(0, .01, .03), "low"},
	{"FU08", "pump-diaphragm", "always-new", core.OneUse, "count", goNoGo(), "high"},
	{"FU09", "throttle-spindle", "clearance", core.Derived, "in", most(.001, .0025, .006), "medium"},
	{"FU10", "carburettor-flange", "bow", core.Measured, "in", most(0, .003, .01), "medium"},
	{"FU11", "float", "weight-gain", core.Derived, "g", most(0, .2, 1), "medium"},
	{"FU12", "float", "level", core.Measured, "in", most(.735, .765, .78), "low"},
	{"FU13", "needle-and-seat", "leak-down", core.Measured, "psi", most(0, 0, .5), "low"},
	{"FU14", "jets", "oversize", core.Measured, "%", most(0, 1, 3), "low"},
	{"FU15", "fuel-hose", "always-new", core.OneUse, "count", goNoGo(), "high"},
	{"FU16", "fuel-pipe", "corrosion", core.Judged, "class 0-3", class(1, 1), "high"},
	{"FU17", "tap-and-bowl", "seals-and-glass", core.Judged, "class 0-3", class(1, 1), "medium"},
	{"FU18", "tank-strap", "corrosion", core.Judged, "class 0-3", class(1, 1), "medium"},
	{"FU19", "tank-sender", "resistance-error", core.Measured, "%", most(0, 5, 10), "medium"},
	{"FU20", "accelerator-joint", "elongation", core.Measured, "in", most(0, .01, .03), "medium"},
	{"FU21", "air-cleaner", "mesh-and-bath", core.Judged, "class 0-3", class(1, 1), "medium"},
	{"FU22", "exhaust", "perforations", core.Counted, "count", most(0, 0, 0), "medium"},
	{"FU23", "inlet-vacuum", "at-idle", core.Measured, "inHg", least(17, 21, 15), "medium"},
}
