package core

import "strings"

// Unit of measure: its dimension and how it becomes the dimension's base unit (value x Factor + Offset).
type MeasureUnit struct {
	Name      string
	Dimension string
	Factor    float64
	Offset    float64
	aliases   []string
}

// Dimensions of the trade's units. Base units: mm, g, g mm, N, N m, kPa, degC, V, A, ohm, uF, km, mm3, mm3/min,
// min, deg, and 1 for ratios.
var measureUnits = []MeasureUnit{
	{"in", "length", 25.4, 0, []string{"inch", "inches", `"`, "″", "''"}},
	{"thou", "length", 0.0254, 0, []string{"mil", "mils", "thousandth", "thousandths"}},
	{"ft", "length", 304.8, 0, []string{"foot", "feet", "'"}},
	{"mm", "length", 1, 0, []string{"millimetre", "millimetres", "millimeter"}},
	{"um", "length", 0.001, 0, []string{"µm", "μm", "micron", "microns"}},
	{"cm", "length", 10, 0, nil},
	{"m", "length", 1000, 0, []string{"metre", "metres"}},
	{"km", "distance", 1, 0, nil},
	{"mile", "distance", 1.609344, 0, []string{"miles", "mi"}},
	{"g", "mass", 1, 0, []string{"gram", "grams"}},
	{"kg", "mass", 1000, 0, nil},
	{"oz", "mass", 28.349523125, 0, []string{"ounce", "ounces"}},
	{"lb", "mass", 453.59237, 0, []string{"lbs", "pound", "pounds"}},
	{"g-mm", "unbalance", 1, 0, []string{"g mm", "gmm", "gram millimetre"}},
	{"oz-in", "unbalance", 720.077887375, 0, []string{"oz in", "ozin", "ounce inch"}},
	{"N", "force", 1, 0, nil},
	{"lbf", "force", 4.4482216152605, 0, nil},
	{"kgf", "force", 9.80665, 0, nil},
	{"N m", "torque", 1, 0, []string{"Nm", "N.m", "N·m", "newton metre"}},
	{"lbf-in", "torque", 0.1129848290276167, 0, []string{"lbf in", "in lbf", "in-lbf", "in lb", "lb in", "lb-in", "in-lb"}},
	{"lbf-ft", "torque", 1.3558179483314004, 0, []string{"lbf ft", "ft lbf", "ft-lbf", "ft lb", "lb ft", "lb-ft", "ft-lb"}},
	{"kPa", "pressure", 1, 0, nil},
	{"bar", "pressure", 100, 0, nil},
	{"psi", "pressure", 6.894757293168361, 0, []string{"lb/in2", "lbf/in2"}},
	{"inHg", "pressure", 3.386389, 0, []string{"in Hg"}},
	{"lbf/in", "rate", 0.17512683524647636, 0, []string{"lb/in"}},
	{"N/mm", "rate", 1, 0, nil},
	{"degC", "temperature", 1, 0, []string{"°C", "C"}},
	{"degF", "temperature", 5.0 / 9, -160.0 / 9, []string{"°F", "F"}},
	{"deg", "angle", 1, 0, []string{"°", "degree", "degrees"}},
	{"turn", "angle", 360, 0, []string{"turns"}},
	{"%", "ratio", 0.01, 0, []string{"percent", "per cent"}},
	{"in/ft", "ratio", 1.0 / 12, 0, []string{"in per ft"}},
	{"1", "ratio", 1, 0, nil},
	{"V", "voltage", 1, 0, []string{"volt", "volts"}},
	{"A", "current", 1, 0, []string{"amp", "amps"}},
	{"V/100A", "drop", 1, 0, nil},
	{"ohm", "resistance", 1, 0, []string{"Ω", "ohms"}},
	{"kohm", "resistance", 1e3, 0, []string{"kΩ"}},
	{"Mohm", "resistance", 1e6, 0, []string{"MΩ", "megohm"}},
	{"uF", "capacitance", 1, 0, []string{"µF", "μF", "mfd", "microfarad"}},
	{"SG", "density", 1, 0, nil},
	{"in3", "volume", 16387.064, 0, []string{"cu in", "in³", "cubic inches"}},
	{"ml", "volume", 1000, 0, []string{"cc", "cm3", "cm³"}},
	{"US pt/min", "flow", 473176.473, 0, []string{"pt/min", "US pint/min"}},
	{"l/min", "flow", 1e6, 0, []string{"litre/min", "L/min"}},
	{"min", "time", 1, 0, []string{"minute", "minutes"}},
	{"h", "time", 60, 0, []string{"hour", "hours"}},
	{"a", "age", 1, 0, []string{"year", "years", "yr"}},
	{"count", "count", 1, 0, nil},
	{"class 0-3", "class", 1, 0, nil},
	{"pass/fail", "pass", 1, 0, nil},
}

// FindUnit returns a unit by its name or an alias; names are matched exactly, then without regard to case.
func FindUnit(name string) (MeasureUnit, bool) {
	name = strings.Join(strings.Fields(name), " ")
	for _, u := range measureUnits {
		if u.Name == name {
			return u, true
		}
	}
	for _, u := range measureUnits {
		for _, a := range append(u.aliases, u.Name) {
			if strings.EqualFold(a, name) {
				return u, true
			}
		}
	}
	return MeasureUnit{}, false
}

// UnitNames lists the names of all units, in a fixed order.
func UnitNames() []string {
	ns := make([]string, len(measureUnits))
	for i, u := range measureUnits {
		ns[i] = u.Name
	}
	return ns
}

// Convert turns a value from one unit into another of the same dimension.
func Convert(value float64, from, to string) (float64, error) {
	if from == to {
		return value, nil
	}
	f, ok := FindUnit(from)
	if !ok {
		return 0, Errorf(Invalid, "use one of: "+strings.Join(UnitNames(), ", "), "unknown unit %q", from)
	}
	t, ok := FindUnit(to)
	if !ok {
		return 0, Errorf(Invalid, "use one of: "+strings.Join(UnitNames(), ", "), "unknown unit %q", to)
	}
	if f.Dimension != t.Dimension {
		return 0, Errorf(Invalid, "give the value in a unit of "+t.Dimension, "%s is a %s, %s is a %s", from, f.Dimension, to, t.Dimension)
	}
	return (value*f.Factor + f.Offset - t.Offset) / t.Factor, nil
}

// ConvertSpan turns a difference or a bound from one unit into another: offsets do not count.
func ConvertSpan(value float64, from, to string) (float64, error) {
	zero, err := Convert(0, from, to)
	if err != nil {
		return 0, err
	}
	v, err := Convert(value, from, to)
	return v - zero, err
}
