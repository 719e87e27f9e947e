package plugins_test

import "github.com/fettle-tools/fettle/core"

// springsRows are the rows for a standard camber of 6.0 in, a rate of 340 lbf/in and leaves of 1/4 in.
var springsRows = []row{
	{"SP01", "spring", "free-camber", core.Measured, "in", least(5.7, 6, 5.4), "medium"},
	{"SP02", "spring", "rate", core.Derived, "lbf/in", least(323, 357, 306), "medium"},
	{"SP03", "spring-pair", "camber-difference", core.Derived, "in", most(0, .125, .25), "medium"},
	{"SP04", "leaves", "broken", core.Counted, "count", most(0, 0, 0), "high"},
	{"SP05", "leaves", "short", core.Counted, "count", most(0, 0, 0), "high"},
	{"SP06", "leaves", "thickness", core.Measured, "in", least(.24, .25, .225), "medium"},
	{"SP07", "leaves", "pits", core.Measured, "in", most(0, .005, .015), "low"},
	{"SP08", "leaves", "hole-cracks", core.Counted, "count", most(0, 0, 0), "high"},
	{"SP09", "eye-bush", "clearance", core.Derived, "in", most(.002, .008, .03), "medium"},
	{"SP10", "leaves", "eye-gap", core.Measured, "in", most(0, .01, .04), "low"},
	{"SP11", "shackle-pin", "wear", core.Derived, "in", most(0, .001, .01), "medium"},
	{"SP12", "shackle-plate", "hole-wear", core.Derived, "in", most(0, .002, .015), "medium"},
	{"SP13", "rebound-clip", "loose-or-missing", core.Counted, "count", most(0, 0, 0), "medium"},
	{"SP14", "u-bolt", "always-new", core.OneUse, "count", bounds{}, "high"},
	{"SP15", "centre-bolt", "always-new", core.OneUse, "count", bounds{}, "high"},
	{"SP16", "spring-seat", "hole-elongation", core.Measured, "in", most(0, .01, .03), "medium"},
	{"SP17", "leaves", "rust", core.Judged, "class 0-3", class(1, 1), "medium"},
	{"SP18", "spring-pair", "ride-height-difference", core.Derived, "in", most(0, .25, .5), "medium"},
	{"SP19", "spring", "bump-clearance", core.Measured, "in", least(2.5, 3.5, 1.75), "low"},
	{"SP20", "axle-location", "wheelbase-difference", core.Derived, "in", most(0, .125, .25), "medium"},
	{"SP21", "damper", "oil-leak", core.Judged, "class 0-3", class(0, 0), "high"},
	{"SP22", "damper-pair", "resistance-difference", core.Derived, "%", most(0, 15, 25), "low"},
	{"SP23", "damper-bush", "slack", core.Measured, "in", most(0, .02, .06), "medium"},
	{"SP24", "damper", "arm-shaft", core.Measured, "in", most(.001, .004, .01), "medium"},
}

// springsFacts are those of the demonstration vehicle, on a press set to 600 and 1200 lbf.
func springsFacts() []core.Fact {
	return sizedFacts(size{"C", 6, "in"}, size{"K", 340, "lbf/in"}, size{"t", .25, "in"}, size{"F_light", 600, "lbf"}, size{"F_heavy", 1200, "lbf"},
		size{"b_leaf", 2, "in"}, size{"L_front", 42, "in"}, size{"L_rear", 48, "in"})
}
