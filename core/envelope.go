package core

import "fmt"

// The envelope of a whole nut-and-bolt job on a vehicle of the demonstration's class (common practice, no source; from memory): hours,
// and parts with outwork in USD of the 2020s.
const (
	envelopeHoursLow, envelopeHoursHigh   = 520, 1300
	envelopeGoodsLow, envelopeGoodsHigh   = 12_000, 45_000
	envelopeCurrency                      = "USD"
	envelopeLabourClass, envelopeWholeJob = "labour", ExtentBareFrame
)

// outsideEnvelope asks what is left out when a whole job comes out far from what such jobs come to.
func outsideEnvelope(req PlanRequest, w WorkOrder) []Problem {
	if req.Job.Vehicle == nil || req.Job.Extent.Kind != envelopeWholeJob {
		return nil
	}
	var ps []Problem
	ask := func(what string, got float64, low, high float64, unit string) {
		word := ""
		switch {
		case got < low:
			word = "less"
		case got > high:
			word = "more"
		default:
			return
		}
		p := Problem{Severity: SeverityWarning, Summary: fmt.Sprintf("%s come to %.0f %s: %s than the %.0f to %.0f that a whole job takes", what, got, unit, word, low, high),
			Next: "what is left out? subsystems not served, parts not priced, body and paint, road test"}
		if word == "more" {
			p.Next = "what is counted twice, or is this more than one job?"
		}
		ps = append(ps, p)
	}
	ask("hours", w.HoursExpected+req.StripSpent, envelopeHoursLow, envelopeHoursHigh, "h")
	if req.Terms.Currency == envelopeCurrency {
		goods := int64(0)
		for _, l := range w.Lines {
			for _, s := range l.TaxShares {
				if s.Class != envelopeLabourClass {
					goods += Minor(s.Amount)
				}
			}
		}
		ask("parts and outwork", float64(goods)/100, envelopeGoodsLow, envelopeGoodsHigh, envelopeCurrency)
	}
	return ps
}
