package plugins_test

import "github.com/fettle-tools/fettle/core"

// hubsWheelsRows are the rows for rims of .16 in.
var hubsWheelsRows = []row{
	{"HW01", "hub-bearing", "end-float", core.Measured, "in", most(.001, .005, .01), "medium"},
	{"HW02", "bearing-cup", "marks", core.Judged, "class 0-3", class(0, 0), "high"},
	{"HW03", "hub", "race-fit", core.Derived, "in", most(-.003, -.001, -.0003), "medium"},
	{"HW04", "stub-axle", "race-fit", core.Derived, "in", most(.0003, .001, .0025), "medium"},
	{"HW05", "stub-axle", "crack-test", core.GoNoGo, "pass/fail", goNoGo(), "high"},
	{"HW06", "stub-axle", "thread", core.Judged, "class 0-3", class(0, 0), "high"},
	{"HW07", "seal-land", "groove-depth", core.Measured, "in", most(0, .0005, .005), "medium"},
	{"HW08", "wheel-stud", "bent", core.Counted, "count", most(0, 0, 0), "high"},
	{"HW09", "wheel-stud", "missing", core.Counted, "count", most(0, 0, 0), "high"},
	{"HW10", "wheel-nut", "cone-seat", core.Counted, "count", most(0, 0, 0), "high"},
	{"HW11", "wheel", "cracks", core.Counted, "count", most(0, 0, 0), "high"},
	{"HW12", "wheel", "hole-elongation", core.Measured, "in", most(0, .005, .015), "medium"},
	{"HW13", "wheel", "radial-runout", core.Measured, "in", most(0, .04, .125), "high"},
	{"HW14", "wheel", "lateral-runout", core.Measured, "in", most(0, .04, .125), "high"},
	{"HW15", "wheel", "rust-pits", core.Measured, "in", most(0, .01, .024), "low"},
	{"HW16", "wheel", "pattern", core.GoNoGo, "pass/fail", goNoGo(), "high"},
	{"HW17", "tyre", "tread", core.Measured, "in", least(.3, .45, .0625), "medium"},
	{"HW18", "tyre", "tread-heavy-front", core.Measured, "in", least(.3, .45, .125), "high"},
	{"HW19", "tyre", "age", core.Measured, "a", most(0, 6, 10), "medium"},
	{"HW20", "tyre", "sidewall", core.Judged, "class 0-3", class(1, 1), "high"},
	{"HW21", "tyre-set", "circumference-spread", core.Derived, "%", most(0, .5, 1), "medium"},
	{"HW22", "inner-tube", "always-new", core.OneUse, "count", bounds{}, "high"},
	{"HW23", "hub", "flange-runout", core.Measured, "in", most(0, .002, .006), "medium"},
	{"HW24", "lock-washer", "always-new", core.OneUse, "count", bounds{}, "high"},
	{"HW25", "wheel-assembly", "balance-weight", core.Measured, "oz", most(0, 2, 5), "low"},
}

// hubsWheelsFacts are those of the demonstration vehicle.
func hubsWheelsFacts() []core.Fact {
	return append(sizedFacts(size{"t_rim", .16, "in"}, size{"C_tyre", 88, "in"}, size{"nut_lock_step", 30, "deg"}, size{"gross", 5400, "lb"}),
		core.Fact{Name: "nut_threads", Source: "demonstration vehicle", Value: core.Value{Kind: core.ValueCount, Count: 16}})
}
