package sdk

import (
	"fmt"
	"math"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// decimals is how many figures after the point are worth printing in a unit.
var decimals = map[string]int{"in": 5, "thou": 2, "mm": 4, "um": 1, "%": 2, "count": 0}

// figure writes a quantity without the noise of its conversion.
func figure(q core.Quantity) string {
	n, ok := decimals[q.Unit]
	if !ok {
		n = 4
	}
	if a := math.Abs(q.Value); a > 0 && a < 1 { // three figures at least
		n = min(6, max(n, 2-int(math.Floor(math.Log10(a)))))
	}
	p := math.Pow(10, float64(n))
	q.Value = math.Round(q.Value*p) / p
	return q.String()
}

// tidy takes the noise of floating point off a value that was worked out: nothing here is measured to 1e-9 of its unit.
func tidy(v float64) float64 {
	if math.Abs(v) > 1e9 {
		return v // it has no digit of that noise, and may be too large to be multiplied
	}
	return math.Round(v*1e9) / 1e9
}

// tidied is tidy for a figure that may be absent.
func tidied(p *float64) *float64 {
	if p == nil {
		return nil
	}
	v := tidy(*p)
	return &v
}

// readingWords writes a reading in the words of its check.
func readingWords(c *core.Check, q core.Quantity) string {
	switch c.Kind {
	case core.Judged:
		return "class " + core.FormatNumber(q.Value)
	case core.GoNoGo:
		if q.Value >= .5 {
			return "passes"
		}
		return "fails"
	}
	return figure(q)
}

// limitWords writes what a reading has to keep to, after a comma: ", limit 2.4985 in at least".
func limitWords(c *core.Check, l core.Limit, j judged) string {
	in := func(v float64) string { return figure(core.Quantity{Value: v, Unit: l.Unit}) }
	var ws []string
	switch c.Kind {
	case core.GoNoGo:
		if j.q.Value >= .5 {
			return ""
		}
		return ", it has to pass"
	case core.Judged:
		return fmt.Sprintf(", worst allowed class %d", *l.WorstClass)
	}
	if l.WearLow != nil {
		ws = append(ws, "limit "+in(*l.WearLow)+" at least")
	}
	if l.WearHigh != nil {
		ws = append(ws, "limit "+in(*l.WearHigh)+" at most")
	}
	if len(ws) == 0 || j.Grade == core.TooTight || j.Grade == core.MeasureAgain && !straddles(j) {
		switch {
		case l.NewLow != nil && l.NewHigh != nil:
			ws = append(ws, "new "+core.FormatNumber(*l.NewLow)+" to "+in(*l.NewHigh))
		case l.NewLow != nil:
			ws = append(ws, "new "+in(*l.NewLow)+" or more")
		case l.NewHigh != nil:
			ws = append(ws, "new "+in(*l.NewHigh)+" or less")
		}
	}
	return ", " + strings.Join(ws, ", ")
}

// sourceWords says where a limit comes from, and who put it in place of the sheet's.
func sourceWords(l core.Limit) string {
	switch l.Origin {
	case "job":
		return "this job's own limit: " + l.Source
	case "unit":
		return "of this unit: " + l.Source
	case "vehicle":
		return "of this vehicle: " + l.Source
	}
	return l.Source
}
