package plugins_test

import "github.com/fettle-tools/fettle/core"

// clutchFacts are those of a clutch with nine springs of 130 lbf on a flywheel 11 in across.
func clutchFacts() []core.Fact {
	return append(sizes(map[string]float64{"D": 11, "T_plate": .56, "T_step": .75}), core.Fact{Name: "P", Source: "demonstration unit",
		Value: core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: 130, Unit: "lbf"}}})
}

// clutchRows are the rows for springs of 130 lbf and a flywheel face of 11 in.
var clutchRows = []row{
	{"CL01", "driven-plate", "lining", core.Measured, "in", least(.055, .07, .02), "medium"},
	{"CL02", "driven-plate", "runout", core.Measured, "in", most(0, .02, .03), "medium"},
	{"CL03", "driven-plate", "hub-backlash", core.Measured, "in", most(0, .02, .04), "medium"},
	{"CL04", "driven-plate", "damper-springs", core.Counted, "count", most(0, 0, 0), "high"},
	{"CL05", "driven-plate", "contamination", core.Judged, "class 0-3", class(0, 0), "high"},
	{"CL06", "pressure-plate", "flatness", core.Measured, "in", most(0, .002, .006), "medium"},
	{"CL07", "pressure-plate", "metal-removed", core.Derived, "in", most(0, .01, .04), "medium"},
	{"CL08", "pressure-plate", "heat-cracks", core.Judged, "class 0-3", class(1, 1), "high"},
	{"CL09", "clutch-spring", "load", core.Measured, "lbf", least(123.5, 136.5, 117), "medium"},
	{"CL10", "release-levers", "height-spread", core.Derived, "in", most(0, .01, .02), "medium"},
	{"CL11", "flywheel", "face-runout", core.Measured, "in", most(0, .0033, .0077), "medium"},
	{"CL12", "flywheel", "metal-removed", core.Derived, "in", most(0, .01, .04), "medium"},
	{"CL13", "flywheel", "heat-cracks", core.Judged, "class 0-3", class(1, 1), "high"},
	{"CL14", "ring-gear", "damaged-teeth", core.Counted, "count", most(0, 2, 6), "medium"},
	{"CL15", "ring-gear", "tight", core.GoNoGo, "pass/fail", goNoGo(), "high"},
	{"CL16", "bell-housing", "bore-runout", core.Measured, "in", most(0, .006, .01), "medium"},
	{"CL17", "bell-housing", "face-runout", core.Measured, "in", most(0, .004, .008), "medium"},
	{"CL18", "spigot-bush", "clearance", core.Derived, "in", most(.001, .003, .006), "medium"},
	{"CL19", "release-bearing", "noise", core.GoNoGo, "pass/fail", goNoGo(), "high"},
	{"CL20", "release-fork", "pad-wear", core.Measured, "in", most(0, .01, .04), "low"},
	{"CL21", "cross-shaft-bush", "clearance", core.Derived, "in", most(.0015, .005, .012), "medium"},
	{"CL22", "clevis", "hole-elongation", core.Measured, "in", most(0, .01, .03), "medium"},
	{"CL23", "clutch-pedal", "free-travel", core.Measured, "in", least(.75, 1.25, .5), "medium"},
}
