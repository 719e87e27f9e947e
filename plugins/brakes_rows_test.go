package plugins_test

import "github.com/fettle-tools/fettle/core"

// brakesRows are the rows for drums of 12 in, and one of 8 in on the transmission.
var brakesRows = []row{
	{"BR01", "drum", "max-diameter", core.Measured, "in", most(12, 12.005, 12.09), "medium"},
	{"BR02", "drum", "diameter-after-turning", core.Derived, "in", most(12, 12.04, 12.06), "medium"},
	{"BR03", "drum", "out-of-round", core.Derived, "in", most(0, .003, .01), "high"},
	{"BR04", "drum", "bell-mouth", core.Derived, "in", most(0, .002, .005), "high"},
	{"BR05", "drum", "score-depth", core.Measured, "in", most(0, .002, .005), "high"},
	{"BR06", "drum", "runout", core.Measured, "in", most(0, .005, .01), "medium"},
	{"BR07", "drum", "cracks", core.Counted, "count", most(0, 0, 0), "high"},
	{"BR08", "drum", "heat", core.Judged, "class 0-3", class(1, 1), "high"},
	{"BR09", "drum-pair", "difference", core.Derived, "in", most(0, .005, .01), "medium"},
	{"BR10", "shoe", "lining", core.Measured, "in", least(.125, .1875, .03125), "high"},
	{"BR11", "shoe", "lining-bonded", core.Measured, "in", least(.125, .1875, .0625), "high"},
	{"BR12", "shoe", "table", core.Judged, "class 0-3", class(1, 1), "medium"},
	{"BR13", "front-cylinder", "clearance", core.Derived, "in", most(.001, .0025, .003), "high"},
	{"BR14", "front-cylinder", "pits", core.Judged, "class 0-3", class(0, 0), "high"},
	{"BR15", "master-cylinder", "clearance", core.Derived, "in", most(.001, .0025, .003), "high"},
	{"BR16", "master-cylinder", "port", core.GoNoGo, "pass/fail", goNoGo(), "high"},
	{"BR17", "brake-pedal", "free-play", core.Measured, "in", least(.03, .09, .02), "medium"},
	{"BR18", "brake-pedal", "reserve", core.Measured, "%", least(35, 60, 20), "high"},
	{"BR19", "brake-system", "pedal-drop", core.Measured, "in", most(0, 0, 0), "high"},
	{"BR20", "hose", "condition", core.GoNoGo, "pass/fail", goNoGo(), "high"},
	{"BR21", "brake-pipe", "corrosion", core.Judged, "class 0-3", class(0, 0), "high"},
	{"BR22", "backplate", "groove", core.Measured, "in", most(0, .005, .03), "medium"},
	{"BR23", "backplate", "runout", core.Measured, "in", most(0, .01, .03), "low"},
	{"BR24", "anchor-pin", "wear", core.Derived, "in", most(0, .001, .006), "medium"},
	{"BR25", "return-spring", "closed", core.GoNoGo, "pass/fail", goNoGo(), "high"},
	{"BR26", "adjuster", "free", core.GoNoGo, "pass/fail", goNoGo(), "high"},
	{"BR27", "transmission-drum", "max-diameter", core.Measured, "in", most(8, 8.005, 8.06), "medium"},
	{"BR28", "transmission-shoe", "lining", core.Measured, "in", least(.1, .15, .03125), "medium"},
	{"BR29", "hand-lever", "ratchet-teeth", core.Counted, "count", most(0, 0, 2), "medium"},
	{"BR30", "pedal-bush", "clearance", core.Derived, "in", most(.0015, .004, .012), "medium"},
	{"BR31", "brake-fluid", "condition", core.GoNoGo, "pass/fail", goNoGo(), "high"},
}
