package plugins_test

import "github.com/fettle-tools/fettle/core"

// frontAxleRows are the rows of the front axle; none of its limits scales. FA30 is an item that is always new: two to the axle.
var frontAxleRows = []row{
	{"FA01", "swivel-bearings", "rolling-torque", core.Measured, "lbf-in", least(40, 60, 15), "high"},
	{"FA02", "upper-swivel-bearing", "condition", core.Judged, "class 0-3", class(0, 0), "high"},
	{"FA03", "swivel-pin", "bush-clearance", core.Derived, "in", most(.0015, .004, .01), "medium"},
	{"FA04", "knuckle", "vertical-play", core.Measured, "in", most(.002, .01, .015), "high"},
	{"FA05", "knuckle", "camber-change", core.Measured, "deg", most(0, .1, .25), "high"},
	{"FA06", "swivel-ball", "seal-track", core.Judged, "class 0-3", class(1, 1), "high"},
	{"FA07", "swivel-ball", "groove-depth", core.Measured, "in", most(0, .002, .01), "medium"},
	{"FA08", "axle-joint", "rotational-play", core.Measured, "in", most(.002, .01, .025), "low"},
	{"FA09", "axle-joint", "tracks", core.Judged, "class 0-3", class(1, 1), "high"},
	{"FA10", "stub-shaft", "journal-wear", core.Derived, "in", most(0, .0005, .003), "medium"},
	{"FA11", "stub-axle", "bush-clearance", core.Derived, "in", most(.003, .007, .014), "medium"},
	{"FA12", "drive-flange", "spline-backlash", core.Measured, "in", most(.001, .004, .01), "medium"},
	{"FA13", "steering-arm", "crack-test", core.GoNoGo, "pass/fail", goNoGo(), "high"},
	{"FA14", "steering-arm", "eye", core.Judged, "class 0-3", class(0, 0), "high"},
	{"FA15", "knuckle-housing", "crack-test", core.GoNoGo, "pass/fail", goNoGo(), "high"},
	{"FA16", "swivel-bolt", "threads", core.Counted, "count", most(0, 0, 0), "high"},
	{"FA17", "wheel-angles", "camber", core.Measured, "deg", most(1, 2, 2.5), "low"},
	{"FA18", "axle-alignment", "camber-difference", core.Derived, "deg", most(0, .5, .75), "medium"},
	{"FA19", "wheel-angles", "castor", core.Measured, "deg", least(2, 4, 1), "low"},
	{"FA20", "axle-alignment", "castor-difference", core.Derived, "deg", most(0, .5, .75), "medium"},
	{"FA21", "wheel-angles", "pin-inclination", core.Measured, "deg", most(6.5, 7.5, 8), "low"},
	{"FA22", "crown-wheel-pinion", "backlash", core.Measured, "in", most(.006, .01, .016), "high"},
	{"FA23", "crown-wheel", "back-face-runout", core.Measured, "in", most(0, .003, .006), "high"},
	{"FA24", "final-gear", "teeth", core.Judged, "class 0-3", class(1, 1), "high"},
	{"FA25", "pinion-bearings", "rolling-torque", core.Measured, "lbf-in", least(5, 15, 3), "medium"},
	{"FA26", "axle-tube", "bend", core.Measured, "in", most(0, .03, .09), "low"},
	{"FA27", "inner-shaft", "spline-twist", core.Measured, "deg", most(0, 0, .5), "high"},
	{"FA28", "steering-stop", "lock-angle", core.Measured, "deg", most(28, 31, 32), "low"},
	{"FA29", "steering-stop", "tyre-clearance", core.Measured, "in", least(1, 2, .75), "medium"},
	{"FA30", "swivel-seal", "always-new", core.OneUse, "count", goNoGo(), "high"},
}
