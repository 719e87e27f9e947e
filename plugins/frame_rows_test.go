package plugins_test

import "github.com/fettle-tools/fettle/core"

// frameFacts are those of a frame of steel .104 in thick with rivets of 3/8 in.
func frameFacts() []core.Fact { return sizes(map[string]float64{"t": .104, "rivet": .375}) }

// frameRows are the rows for side rails .104 in thick.
var frameRows = []row{
	{"CF01", "frame-panel", "diagonal-difference", core.Derived, "in", most(0, .125, .25), "medium"},
	{"CF02", "side-rail-line", "side-bow", core.Measured, "in", most(0, .06, .125), "medium"},
	{"CF03", "side-rail-line", "sag", core.Measured, "in", most(0, .06, .125), "medium"},
	{"CF04", "frame-twist", "twist", core.Derived, "in", most(0, .125, .25), "medium"},
	{"CF05", "side-rail", "wall-thickness", core.Measured, "in", least(.0988, .104, .0832), "medium"},
	{"CF06", "frame-cracks", "cracks", core.Counted, "count", most(0, 0, 0), "high"},
	{"CF07", "frame-perforations", "perforations", core.Counted, "count", most(0, 0, 0), "high"},
	{"CF08", "frame-rivets", "loose-rivets", core.Counted, "count", most(0, 0, 0), "high"},
	{"CF09", "flange-holes", "added-holes", core.Counted, "count", most(0, 0, 0), "medium"},
	{"CF10", "old-repairs", "welds", core.Judged, "class 0-3", class(1, 1), "medium"},
	{"CF11", "spring-hanger", "pin-hole-wear", core.Measured, "in", most(0, .005, .015), "medium"},
	{"CF12", "spring-hanger", "position-error", core.Measured, "in", most(0, .06, .125), "medium"},
	{"CF13", "dumb-irons", "length-difference", core.Derived, "in", most(0, .06, .125), "medium"},
	{"CF14", "body-mount-bracket", "corrosion", core.Judged, "class 0-3", class(1, 1), "high"},
	{"CF15", "body-mount-rubber", "always-new", core.OneUse, "count", goNoGo(), "high"},
	{"CF16", "mount", "rubber-set", core.Measured, "in", most(0, .04, .12), "medium"},
	{"CF17", "steering-box-mounting", "cracks", core.Counted, "count", most(0, 0, 0), "high"},
	{"CF18", "crossmember", "bend-tear", core.Judged, "class 0-3", class(1, 1), "high"},
	{"CF19", "bump-stop", "perished", core.Judged, "class 0-3", class(1, 1), "medium"},
	{"CF20", "towing-fitting", "eye-pin-wear", core.Measured, "in", most(0, .03, .125), "medium"},
	{"CF21", "number-stamp", "legible", core.GoNoGo, "pass/fail", goNoGo(), "high"},
	{"CF22", "wheelbase", "error", core.Measured, "in", most(0, .125, .25), "medium"},
}
