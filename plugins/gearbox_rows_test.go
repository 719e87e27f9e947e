package plugins_test

import "github.com/fettle-tools/fettle/core"

// gearboxRows are the rows for detent springs of 1.1 in.
var gearboxRows = []row{
	{"GB01", "gear", "teeth", core.Judged, "class 0-3", class(1, 1), "high"},
	{"GB02", "gear-pair", "backlash", core.Measured, "in", most(.003, .008, .014), "medium"},
	{"GB03", "dog-teeth", "rounding", core.Judged, "class 0-3", class(1, 1), "high"},
	{"GB04", "dog-teeth", "engaged-length", core.Derived, "%", least(85, 100, 70), "low"},
	{"GB05", "mainshaft-gear", "end-float", core.Measured, "in", most(.005, .011, .018), "high"},
	{"GB06", "reverse-idler", "end-float", core.Measured, "in", most(.011, .032, .045), "medium"},
	{"GB07", "mainshaft-gear-bush", "clearance", core.Derived, "in", most(.001, .003, .006), "medium"},
	{"GB08", "layshaft-cluster", "end-float", core.Measured, "in", most(.004, .012, .02), "medium"},
	{"GB09", "layshaft-spindle", "track-wear", core.Derived, "in", most(0, .0003, .0015), "medium"},
	{"GB10", "layshaft-spindle", "track-pitting", core.Judged, "class 0-3", class(0, 0), "high"},
	{"GB11", "layshaft-rollers", "rollers-missing", core.Counted, "count", most(0, 0, 0), "high"},
	{"GB12", "thrust-washer", "thickness-loss", core.Derived, "in", most(0, .002, .006), "medium"},
	{"GB13", "mainshaft", "runout", core.Measured, "in", most(0, .001, .003), "medium"},
	{"GB14", "mainshaft-splines", "wear-step", core.Measured, "in", most(0, .001, .005), "medium"},
	{"GB15", "first-motion-shaft", "end-float", core.Measured, "in", most(0, .004, .01), "medium"},
	{"GB16", "first-motion-shaft", "spigot-wear", core.Derived, "in", most(0, .0005, .002), "medium"},
	{"GB17", "first-motion-shaft", "clutch-spline-step", core.Measured, "in", most(0, .001, .005), "medium"},
	{"GB18", "ball-bearing", "radial-play", core.Measured, "in", most(.0003, .0012, .0025), "medium"},
	{"GB19", "ball-bearing", "roughness", core.Judged, "class 0-3", class(0, 0), "high"},
	{"GB20", "case-bore", "looseness", core.Derived, "in", most(-.0005, .0003, .001), "medium"},
	{"GB21", "synchro-ring", "gap", core.Measured, "in", least(.04, .06, .02), "medium"},
	{"GB22", "synchro-cone", "surface", core.Judged, "class 0-3", class(1, 1), "medium"},
	{"GB23", "selector-fork", "side-clearance", core.Measured, "in", most(.005, .012, .025), "medium"},
	{"GB24", "selector-rail", "notch-wear", core.Judged, "class 0-3", class(1, 1), "medium"},
	{"GB25", "detent-spring", "free-length", core.Measured, "in", least(1.078, 1.1, 1.045), "medium"},
	{"GB26", "interlock", "working", core.GoNoGo, "pass/fail", goNoGo(), "high"},
	{"GB27", "output-seal-land", "groove-depth", core.Measured, "in", most(0, .0005, .005), "medium"},
	{"GB28", "case", "cracks", core.Counted, "count", most(0, 0, 0), "high"},
	{"GB29", "drain-plug-magnet", "debris", core.Judged, "class 0-3", class(1, 1), "high"},
	{"GB30", "gear-pair", "identity", core.GoNoGo, "pass/fail", goNoGo(), "high"},
}
