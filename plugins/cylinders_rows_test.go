package plugins_test

import "github.com/fettle-tools/fettle/core"

// cylindersRows are the rows for a bore of 3.375 in.
var cylindersRows = []row{
	{"CB01", "bore", "over-standard", core.Derived, "in", most(0, .0005, .0081), "medium"},
	{"CB02", "bore", "taper", core.Derived, "in", most(0, .0005, .0081), "medium"},
	{"CB03", "bore", "out-of-round", core.Derived, "in", most(0, .0005, .0050625), "medium"},
	{"CB04", "bore-surface", "pit-depth", core.Measured, "in", most(0, 0, .002), "medium"},
	{"CB05", "bore", "wall-thickness", core.Measured, "in", least(.18, .25, .125), "low"},
	{"CB06", "bore", "ridge-height", core.Measured, "in", most(0, .002, .004), "medium"},
	{"CB07", "block-deck", "flatness-overall", core.Measured, "in", most(0, .002, .004), "medium"},
	{"CB08", "block-deck", "flatness-local", core.Measured, "in", most(0, .001, .003), "medium"},
	{"CB09", "block", "pressure-test", core.GoNoGo, "pass/fail", goNoGo(), "high"},
	{"CB10", "block", "cracks", core.Counted, "count", most(0, 0, 0), "high"},
	{"CB11", "core-plug", "sound", core.Counted, "count", most(0, 0, 0), "high"},
	{"CB12", "main-cap", "slack", core.Measured, "in", most(-.002, 0, .001), "medium"},
	{"CB13", "head-stud-thread", "stripped", core.Counted, "count", most(0, 0, 0), "high"},
	{"CB14", "oilway", "cleaned", core.GoNoGo, "pass/fail", goNoGo(), "high"},
	{"CB15", "camshaft-bearing", "oil-clearance", core.Derived, "in", most(.0012, .0037, .0057), "medium"},
	{"CB16", "tappet-bore", "clearance", core.Derived, "in", most(.0005, .0015, .005), "high"},
	{"CB17", "piston", "skirt-clearance", core.Derived, "in", most(.0027, .00405, .0084375), "medium"},
	{"CB18", "piston", "top-groove", core.Measured, "in", most(.0015, .003, .006), "high"},
	{"CB19", "piston", "lower-groove", core.Measured, "in", most(.0015, .003, .006), "medium"},
	{"CB20", "piston-ring", "end-gap", core.Measured, "in", most(.010125, .016875, .03375), "medium"},
	{"CB21", "gudgeon-pin", "clearance", core.Derived, "in", most(0, .0005, .001), "medium"},
	{"CB22", "piston-set", "weight-spread", core.Derived, "g", most(0, 4, 8), "medium"},
	{"CB23", "piston", "crown", core.Judged, "class 0-3", class(1, 1), "high"},
	{"CB24", "cylinder", "compression", core.Derived, "%", least(90, 100, 75), "medium"},
	{"CB25", "cylinder", "wet-rise", core.Derived, "%", most(0, 5, 15), "low"},
	{"CB26", "cylinder", "leak-down", core.Measured, "%", most(0, 10, 20), "medium"},
}
