package sdk

import (
	"math"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// The base dimensions that units are made of.
const (
	dimLength = iota
	dimMass
	dimForce
	dimTemperature
	dimAngle
	dimVoltage
	dimCurrent
	dimDistance
	dimTime
	dimAge
	dimDensity
	dimBases
)

// dims are the powers of the base dimensions; all zero for ratios, counts, classes and plain numbers.
type dims [dimBases]int8

func baseDim(i int) (d dims) { d[i] = 1; return d }

func (d dims) times(o dims, sign int8) dims {
	for i := range d {
		d[i] += sign * o[i]
	}
	return d
}

// dimensionOf tells of each dimension what it is made of, and the factor from its base unit to N, mm and the like
// (1 N m = 1000 N mm, 1 kPa = .001 N/mm2).
var dimensionOf = map[string]struct {
	d     dims
	scale float64
}{
	"length":      {baseDim(dimLength), 1},
	"distance":    {baseDim(dimDistance), 1},
	"mass":        {baseDim(dimMass), 1},
	"force":       {baseDim(dimForce), 1},
	"torque":      {baseDim(dimForce).times(baseDim(dimLength), 1), 1000},
	"pressure":    {baseDim(dimForce).times(baseDim(dimLength), -1).times(baseDim(dimLength), -1), .001},
	"rate":        {baseDim(dimForce).times(baseDim(dimLength), -1), 1},
	"temperature": {baseDim(dimTemperature), 1},
	"angle":       {baseDim(dimAngle), 1},
	"voltage":     {baseDim(dimVoltage), 1},
	"current":     {baseDim(dimCurrent), 1},
	"drop":        {baseDim(dimVoltage).times(baseDim(dimCurrent), -1), 1},
	"resistance":  {baseDim(dimVoltage).times(baseDim(dimCurrent), -1), 1},
	"capacitance": {baseDim(dimCurrent).times(baseDim(dimTime), 1).times(baseDim(dimVoltage), -1), 1e-6 / 60},
	"density":     {baseDim(dimDensity), 1},
	"volume":      {baseDim(dimLength).times(baseDim(dimLength), 1).times(baseDim(dimLength), 1), 1},
	"flow":        {baseDim(dimLength).times(baseDim(dimLength), 1).times(baseDim(dimLength), 1).times(baseDim(dimTime), -1), 1},
	"time":        {baseDim(dimTime), 1},
	"age":         {baseDim(dimAge), 1},
	"ratio":       {dims{}, 1},
	"count":       {dims{}, 1},
	"class":       {dims{}, 1},
	"pass":        {dims{}, 1},
}

// measure is what a piece of a formula is measured in. A plain number may stand for any.
type measure struct {
	dims   dims
	factor float64 // to the coherent unit; 1 where dims is zero
	any    bool
}

var plainNumber = measure{factor: 1, any: true}

// measureOf gives a unit's measure; ok is false if there is no such unit.
func measureOf(unit string) (measure, bool) {
	u, ok := core.FindUnit(unit)
	if !ok {
		return measure{}, false
	}
	d, ok := dimensionOf[u.Dimension]
	m := measure{dims: d.d, factor: u.Factor * d.scale}
	if m.dims == (dims{}) {
		m.factor = 1
	}
	return m, ok
}

// sameFactor compares with room for the rounding of conversion factors.
func (m measure) sameFactor(o measure) bool { return math.Abs(m.factor/o.factor-1) < 1e-6 }

// product is m x o, or m / o for sign -1.
func (m measure) product(o measure, sign int8) measure {
	r := measure{dims: m.dims.times(o.dims, sign), factor: m.factor * math.Pow(o.factor, float64(sign))}
	r.any = (m.any || o.any) && m.dims == (dims{}) && o.dims == (dims{})
	return r
}

// words names a measure: "a length", "a length x force".
func (m measure) words() string {
	if m.any || m.dims == (dims{}) {
		return "a plain number"
	}
	for _, name := range []string{"length", "distance", "mass", "force", "torque", "pressure", "rate", "temperature", "angle", "voltage",
		"current", "drop", "capacitance", "density", "volume", "flow", "time", "age"} {
		if dimensionOf[name].d == m.dims {
			if strings.ContainsAny(name[:1], "aeiou") {
				return "an " + name
			}
			return "a " + name
		}
	}
	return "a product of several dimensions"
}
