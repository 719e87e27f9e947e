package paper

import (
	"math"
	"strconv"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// gaugeLimit is where the wear limit stands on the bar, as a share of its length: what follows is past it.
const gaugeLimit = .72

// bands is in how many steps the bar deepens from new to the limit.
const bands = 12

// shape is a gauge as shares of its bar, 0 at new and 1 at the right end.
type shape struct {
	Limit    float64
	Reading  float64
	From, To float64 // the whisker
	Under    bool    // the reading is better than new: drawn at the left end
	Over     bool    // the reading is off the bar: drawn at the right end
}

// shapeOf places a gauge's figures. ok is false where no bar can be drawn: new and limit are the same, or not numbers.
func shapeOf(g *core.Gauge) (s shape, ok bool) {
	if g == nil || g.Limit == g.New {
		return shape{}, false
	}
	at := func(v float64) float64 { return (v - g.New) / (g.Limit - g.New) * gaugeLimit }
	r := at(g.Reading)
	u := math.Abs(g.Bound / (g.Limit - g.New) * gaugeLimit)
	for _, v := range []float64{r, u, g.New, g.Limit} {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return shape{}, false
		}
	}
	clamp := func(v float64) float64 { return min(max(v, 0), 1) }
	return shape{Limit: gaugeLimit, Reading: clamp(r), From: clamp(r - u), To: clamp(r + u), Under: r < 0, Over: r > 1}, true
}

// colour is red, green and blue, 0 to 255.
type colour struct{ R, G, B int }

// The hue of wear: one, deepening from pale sand at new to dark rust at the limit; its lightness falls evenly, so
// that it reads in black and white.
var (
	sand = colour{0xF4, 0xE6, 0xCC}
	rust = colour{0x6E, 0x2A, 0x12}
	ink  = colour{0x1C, 0x1A, 0x18}
	grey = colour{0x6B, 0x66, 0x60}
	rule = colour{0xC9, 0xC2, 0xB8}
	wash = colour{0xF6, 0xF2, 0xEB}
)

// wearColour is the hue at a share of the way from new to the limit.
func wearColour(t float64) colour {
	mix := func(a, b int) int { return int(math.Round(float64(a) + (float64(b)-float64(a))*t)) }
	return colour{mix(sand.R, rust.R), mix(sand.G, rust.G), mix(sand.B, rust.B)}
}

// CSS writes the colour for a style sheet.
func (c colour) CSS() string {
	h := strconv.FormatInt(int64(c.R)<<16|int64(c.G)<<8|int64(c.B)|1<<24, 16)
	return "#" + h[1:]
}

// reading is the gauge's reading with its uncertainty and unit.
func reading(g core.Gauge) string {
	if g.Bound <= 0 {
		return withUnit(core.FormatNumber(g.Reading), g.Unit)
	}
	d := decimals(g.Bound)
	return withUnit(atLeast(number(g.Reading, d), core.FormatNumber(g.Limit))+" ± "+number(g.Bound, d), g.Unit)
}

// atLeast gives a figure no fewer decimals than another has: 1.996 beside 1.9985 is 1.9960.
func atLeast(s, like string) string {
	_, want, _ := strings.Cut(like, ".")
	whole, have, _ := strings.Cut(s, ".")
	if len(have) >= len(want) {
		return s
	}
	return whole + "." + have + strings.Repeat("0", len(want)-len(have))
}

// limit is the gauge's limit with the side that fails.
func limit(g core.Gauge) string {
	side := "not over "
	if g.Limit < g.New {
		side = "not under "
	}
	return withUnit(side+core.FormatNumber(g.Limit), g.Unit)
}

func withUnit(s, unit string) string {
	switch unit {
	case "", "1", "count", "pass/fail":
		return s
	}
	return s + " " + unit
}

// decimals of a bound written with one significant figure, two where it begins with 1 (GUM 7.2.6: no idle digits).
func decimals(v float64) int {
	if v <= 0 || math.IsNaN(v) || math.IsInf(v, 0) {
		return 6
	}
	e := math.Floor(math.Log10(v))
	d := -int(e)
	if v/math.Pow(10, e) < 2 {
		d++
	}
	return min(max(d, 0), 7)
}
