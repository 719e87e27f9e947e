package plugins_test

import "github.com/fettle-tools/fettle/core"

// steeringFacts are those of a 17 in wheel, a 14 to 1 box with a 6 in drop arm, track rod ends of 11/16 in and toe to 1/8 in.
func steeringFacts() []core.Fact {
	return append(sizes(map[string]float64{"W": 17, "T_thread": .6875, "T_toe": .125, "drop_arm": 6, "swivel_arm": 6.5, "tyre": 29, "rim": 16}),
		core.Fact{Name: "box_ratio", Source: "demonstration unit", Value: core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: 14, Unit: "1"}}},
		core.Fact{Name: "thread_pitch", Source: "demonstration unit", Value: core.Value{Kind: core.ValueCount, Count: 16}},
		core.Fact{Name: "gross", Source: "demonstration unit", Value: core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: 5400, Unit: "lb"}}})
}

// steeringRows are the rows for a wheel of 17 in, track rod ends of .6875 in and a toe range to .125 in.
var steeringRows = []row{
	{"ST01", "lash", "free-play", core.Measured, "in", most(0, 1, 2.125), "high"},
	{"ST02", "front-wheel", "tread-play", core.Measured, "in", most(0, .06, .25), "high"},
	{"ST03", "front-wheel", "tread-play-heavy-18", core.Measured, "in", most(0, .06, .375), "high"},
	{"ST04", "front-wheel", "tread-play-heavy-over-18", core.Measured, "in", most(0, .06, .5), "high"},
	{"ST05", "steering-gear", "worm-torque", core.Measured, "lbf-in", least(4, 8, 2), "medium"},
	{"ST06", "steering-gear", "high-point", core.Measured, "lbf-in", least(4, 7, 2), "high"},
	{"ST07", "rocker-shaft-bush", "clearance", core.Derived, "in", most(.001, .003, .006), "medium"},
	{"ST08", "rocker-shaft", "wear", core.Derived, "in", most(0, .0005, .002), "medium"},
	{"ST09", "steering-gear", "end-float", core.Measured, "in", most(0, .002, .006), "medium"},
	{"ST10", "worm", "track-pitting", core.Judged, "class 0-3", class(0, 0), "high"},
	{"ST11", "roller", "condition", core.Judged, "class 0-3", class(0, 0), "high"},
	{"ST12", "rocker-shaft", "splines", core.GoNoGo, "pass/fail", goNoGo(), "high"},
	{"ST13", "drop-arm", "crack-test", core.GoNoGo, "pass/fail", goNoGo(), "high"},
	{"ST14", "drop-arm", "index-mark", core.GoNoGo, "pass/fail", goNoGo(), "high"},
	{"ST15", "box-casing", "cracks", core.Counted, "count", most(0, 0, 0), "high"},
	{"ST16", "ball-joint", "axial-play", core.Measured, "in", most(0, .005, .02), "medium"},
	{"ST17", "ball-joint", "side-play", core.GoNoGo, "pass/fail", goNoGo(), "high"},
	{"ST18", "ball-joint", "flat-on-ball", core.Measured, "in", most(0, .002, .01), "medium"},
	{"ST19", "ball-joint", "taper-contact", core.Measured, "%", least(80, 100, 75), "medium"},
	{"ST20", "track-rod", "bend", core.Measured, "in", most(0, .03, .125), "medium"},
	{"ST21", "track-rod-end", "thread-engaged", core.Measured, "in", least(.859375, 1.375, .6875), "medium"},
	{"ST22", "track-rod-clamp", "grips", core.GoNoGo, "pass/fail", goNoGo(), "high"},
	{"ST23", "drag-link", "bend", core.Measured, "in", most(0, .03, .09), "medium"},
	{"ST24", "steering-relay", "clearance", core.Derived, "in", most(.001, .004, .01), "medium"},
	{"ST25", "relay-mount", "tight", core.GoNoGo, "pass/fail", goNoGo(), "high"},
	{"ST26", "column-bush", "side-play", core.Measured, "in", most(0, .03, .09), "medium"},
	{"ST27", "steering-wheel", "cracks", core.Counted, "count", most(0, 0, 0), "medium"},
	{"ST28", "lock-to-lock", "lock-difference", core.Derived, "turn", most(0, .1, .25), "medium"},
	{"ST29", "toe", "toe-in", core.Derived, "in", most(0, .125, .1875), "high"},
	{"ST30", "gear-mount-bolt", "hole-wear", core.Measured, "in", most(0, .005, .015), "medium"},
	{"ST31", "split-pin", "always-new", core.OneUse, "count", goNoGo(), "high"},
}
