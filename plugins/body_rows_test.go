package plugins_test

import "github.com/fettle-tools/fettle/core"

// bodyFacts are those of a body of steel .048 in thick with two aluminium panels.
func bodyFacts() []core.Fact { return sizes(map[string]float64{"t": .048}) }

// bodyRows are the rows for panels .048 in thick.
var bodyRows = []row{
	{"BO01", "panel", "thickness", core.Measured, "in", least(.0456, .048, .036), "medium"},
	{"BO02", "panel", "perforated", core.Measured, "%", most(0, 1, 10), "medium"},
	{"BO03", "panel-surface", "dents", core.Measured, "%", most(0, 5, 20), "low"},
	{"BO04", "panel-surface", "filler", core.Measured, "in", most(0, .012, .125), "medium"},
	{"BO05", "panel-surface", "paint-film", core.Measured, "thou", most(3, 8, 16), "medium"},
	{"BO06", "paint", "layers", core.Counted, "count", most(1, 3, 6), "medium"},
	{"BO07", "bulkhead", "diagonal-difference", core.Derived, "in", most(0, .125, .1875), "medium"},
	{"BO08", "windscreen-aperture", "diagonal-difference", core.Derived, "in", most(0, .06, .125), "medium"},
	{"BO09", "door-aperture", "diagonal-difference", core.Derived, "in", most(0, .06, .125), "medium"},
	{"BO10", "door", "shut-gap", core.Measured, "in", most(.125, .1875, .25), "medium"},
	{"BO11", "door", "gap-variation", core.Derived, "in", most(0, .04, .09), "medium"},
	{"BO12", "hinge-pins", "clearance", core.Derived, "in", most(.002, .006, .02), "medium"},
	{"BO13", "door", "drop", core.Measured, "in", most(0, .04, .125), "medium"},
	{"BO14", "latch", "wear", core.Measured, "in", most(0, .015, .06), "medium"},
	{"BO15", "aluminium-panel", "edge-corrosion", core.Judged, "class 0-3", class(1, 1), "high"},
	{"BO16", "aluminium-panel", "cracks", core.Counted, "count", most(0, 0, 2), "medium"},
	{"BO17", "captive-nuts", "seized-or-spinning", core.Counted, "count", most(0, 2, 8), "medium"},
	{"BO18", "timber", "moisture", core.Measured, "%", most(10, 16, 20), "medium"},
	{"BO19", "timber", "rot", core.Measured, "in", most(0, .03, .125), "medium"},
	{"BO20", "windscreen", "cracks", core.Counted, "count", most(0, 0, 0), "medium"},
	{"BO21", "glass", "delamination", core.Measured, "in", most(0, .25, 1), "low"},
	{"BO22", "seals", "always-new", core.OneUse, "count", goNoGo(), "high"},
	{"BO23", "seat-frame", "cracks", core.Counted, "count", most(0, 0, 0), "high"},
	{"BO24", "seat-mounting", "floor-corrosion", core.Judged, "class 0-3", class(0, 0), "high"},
	{"BO25", "trim", "missing-items", core.Counted, "count", most(0, 0, 0), "high"},
	{"BO26", "trim-of-year", "wrong-items", core.Counted, "count", most(0, 0, 0), "medium"},
	{"BO27", "floor", "perforated", core.Measured, "%", most(0, 1, 10), "medium"},
	{"BO28", "roof-frame", "bend", core.Measured, "in", most(0, .125, .375), "low"},
	{"BO29", "canvas", "condition", core.Judged, "class 0-3", class(1, 1), "medium"},
}
