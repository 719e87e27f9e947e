package plugins_test

import "github.com/fettle-tools/fettle/core"

// propShaftRows scale by nothing.
var propShaftRows = []row{
	{"PS01", "shaft-tube", "mid-runout", core.Measured, "in", most(0, .01, .02), "medium"},
	{"PS02", "shaft-tube", "weld-runout", core.Measured, "in", most(0, .005, .01), "medium"},
	{"PS03", "shaft-tube", "dent-depth", core.Measured, "in", most(0, 0, .06), "low"},
	{"PS04", "universal-joint", "trunnion-wear", core.Measured, "in", most(0, .0005, .002), "medium"},
	{"PS05", "universal-joint", "rotational-play", core.Measured, "in", most(0, .001, .006), "medium"},
	{"PS06", "universal-joint", "end-play", core.Measured, "in", most(0, .002, .006), "medium"},
	{"PS07", "universal-joint", "free", core.GoNoGo, "pass/fail", goNoGo(), "high"},
	{"PS08", "shaft-yoke", "cross-hole-wear", core.Derived, "in", most(-.001, 0, .0005), "medium"},
	{"PS09", "sliding-spline", "backlash", core.Measured, "in", most(.001, .004, .008), "medium"},
	{"PS10", "shaft-length", "free-travel", core.Measured, "in", least(1, 1.5, .75), "low"},
	{"PS11", "yoke-phase", "phase-error", core.Measured, "deg", most(0, 1, 2), "medium"},
	{"PS12", "joint-angles", "difference", core.Derived, "deg", most(0, 1, 3), "medium"},
	{"PS13", "flange", "bolt-hole-elongation", core.Measured, "in", most(0, .005, .015), "medium"},
	{"PS14", "flange", "face-flatness", core.Measured, "in", most(0, .002, .005), "medium"},
	{"PS15", "shaft-tube", "unbalance", core.Measured, "oz-in", most(0, .25, .75), "low"},
	{"PS16", "spline-gaiter", "condition", core.Judged, "class 0-3", class(1, 1), "medium"},
	{"PS17", "coupling-bolt", "prevailing-torque", core.Measured, "lbf-in", least(9, 40, 8), "medium"},
}
