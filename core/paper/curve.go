package paper

import (
	"cmp"
	"math"

	"github.com/fettle-tools/fettle/core"
)

// plot is a curve as shares of its frame: X from the left along the money, Y from the bottom along the chance.
type plot struct {
	Points []point
	Marks  []plotMark
	Ticks  []plotTick
	Levels []CurveLevel
	Side   string
	RunsOn bool // past the last point the curve goes on level to the edge: more money changes nothing
}

type point struct{ X, Y float64 }

type plotMark struct {
	point
	Name   string
	Amount string
}

type plotTick struct {
	X    float64
	Text string
}

// plot lays the curve out, with so many ticks along the money at most. ok is false for fewer than two points or no spread: there is nothing to draw.
func (c Curve) plot(ticks int) (plot, bool) {
	n := len(c.Points)
	if n < 2 || c.Heights != nil && len(c.Heights) != n || core.Minor(c.Points[0]) >= core.Minor(c.Points[n-1]) {
		return plot{}, false
	}
	low, high := float64(core.Minor(c.Points[0])), float64(core.Minor(c.Points[n-1]))
	pad := (high - low) * .03
	low, high = low-pad, high+pad
	at := func(m core.Money) float64 { return min(max((float64(core.Minor(m))-low)/(high-low), 0), 1) }
	p := plot{Levels: c.Levels, Side: cmp.Or(c.Side, "Chance of costing no more"), RunsOn: c.Heights == nil}
	for i, m := range c.Points {
		height := float64(i) / float64(n-1)
		if c.Heights != nil {
			height = c.Heights[i]
		}
		p.Points = append(p.Points, point{at(m), height})
	}
	for _, m := range c.Marks {
		p.Marks = append(p.Marks, plotMark{point{at(m.Amount), m.Height}, m.Name, toFive(m.Amount)})
	}
	if len(p.Levels) == 0 {
		for _, v := range []float64{0, .2, .5, .8, 1} {
			p.Levels = append(p.Levels, CurveLevel{v, percent(v)})
		}
	}
	code := c.Points[0].CurrencyCode()
	digits, _ := core.CurrencyDigits(code)
	scale := math.Pow(10, float64(digits))
	step := niceStep((high-low)/scale/float64(ticks)) * scale
	for v := math.Ceil(low/step) * step; v <= high; v += step {
		p.Ticks = append(p.Ticks, plotTick{(v - low) / (high - low), toWhole(core.MinorMoney(int64(math.Round(v)), code), 1)})
	}
	return p, true
}

// niceStep is the next of 1, 2, 5 times a power of ten, at least 1.
func niceStep(v float64) float64 {
	if v <= 1 {
		return 1
	}
	p := math.Pow(10, math.Floor(math.Log10(v)))
	for _, k := range []float64{1, 2, 5, 10} {
		if k*p >= v {
			return k * p
		}
	}
	return 10 * p
}
