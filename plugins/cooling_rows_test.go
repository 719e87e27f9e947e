package plugins_test

import "github.com/fettle-tools/fettle/core"

// coolingRows are the rows for a cap of 4 psi. Blocked tubes are counted, and given as per cent of all: a share is measured.
// A difference of temperatures is worked out from two temperatures, in whatever unit each was read.
var coolingRows = []row{
	{"CO01", "radiator", "pressure-drop", core.Measured, "psi", most(0, 0, .5), "medium"},
	{"CO02", "radiator", "flow-loss", core.Derived, "%", most(0, 10, 25), "medium"},
	{"CO03", "radiator", "tubes-blocked", core.Measured, "%", most(0, 5, 15), "medium"},
	{"CO04", "radiator", "fins", core.Measured, "%", most(0, 10, 25), "medium"},
	{"CO05", "radiator", "repairs", core.Counted, "count", most(0, 1, 3), "low"},
	{"CO06", "radiator-cap", "opening-pressure", core.Measured, "psi", between(3.5, 4.5, 3, 5.5), "medium"},
	{"CO07", "thermostat", "opening-error", core.Derived, "degF", most(0, 3, 6), "medium"},
	{"CO08", "thermostat", "lift", core.Measured, "in", least(.28, .4, .22), "low"},
	{"CO09", "water-pump", "end-float", core.Measured, "in", most(0, .005, .015), "medium"},
	{"CO10", "water-pump", "side-play", core.Measured, "in", most(0, .005, .015), "medium"},
	{"CO11", "water-pump", "impeller-clearance", core.Measured, "in", most(.02, .04, .06), "medium"},
	{"CO12", "water-pump", "impeller-corrosion", core.Judged, "class 0-3", class(1, 1), "medium"},
	{"CO13", "water-pump", "weep-hole", core.Judged, "class 0-3", class(0, 0), "high"},
	{"CO14", "fan", "cracks", core.Counted, "count", most(0, 0, 0), "high"},
	{"CO15", "fan", "track-spread", core.Derived, "in", most(0, .06, .125), "medium"},
	{"CO16", "fan-belt", "always-new", core.OneUse, "count", bounds{}, "high"},
	{"CO17", "fan-belt", "deflection", core.Measured, "in", most(.375, .625, .75), "medium"},
	{"CO18", "pulley", "misalignment", core.Derived, "in/ft", most(0, .03, .0625), "medium"},
	{"CO19", "hose", "always-new", core.OneUse, "count", bounds{}, "high"},
	{"CO20", "jacket", "sludge", core.Measured, "in", most(0, .125, .5), "medium"},
	{"CO21", "drain-tap", "works", core.GoNoGo, "pass/fail", goNoGo(), "high"},
	{"CO22", "temperature-gauge", "error", core.Derived, "degF", most(0, 5, 10), "medium"},
	{"CO23", "heater-matrix", "pressure-drop", core.Measured, "psi", most(0, 0, .5), "medium"},
	{"CO24", "filler-neck", "seat", core.Judged, "class 0-3", class(1, 1), "medium"},
}

// between are limits on both sides: a pressure that may be too low, and too high.
func between(low, high, least, most float64) bounds {
	return bounds{newLow: low, newHigh: high, wearLow: &least, wearHigh: &most}
}

// coolingFacts are those of the demonstration vehicle.
func coolingFacts() []core.Fact { return sizedFacts(size{"P_cap", 4, "psi"}) }

// size is a fact that is a size.
type size struct {
	name string
	x    float64
	unit string
}

func sizedFacts(ss ...size) []core.Fact {
	var fs []core.Fact
	for _, s := range ss {
		fs = append(fs, core.Fact{Name: s.name, Source: "demonstration vehicle", Value: core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: s.x, Unit: s.unit}}})
	}
	return fs
}
