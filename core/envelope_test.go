package core

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// A whole job takes 520 to 1,300 h, and 12,000 to 45,000 USD of parts and outwork (common practice, no source; from memory): outside it is asked
// what is left out, or counted twice. Hours spent on the strip-down already count.
func TestWholeJobsFarFromUsualAreAskedAbout(t *testing.T) {
	of := func(hours, spent float64, goods int64, extent string) []Problem {
		return outsideEnvelope(PlanRequest{Job: Job{Vehicle: &Vehicle{}, Extent: Extent{Kind: extent}}, Terms: Terms{Currency: "USD"}, StripSpent: spent},
			WorkOrder{HoursExpected: hours, Lines: []Line{{TaxShares: []TaxedShare{{Class: "parts", Amount: MinorMoney(goods*100, "USD")}, {Class: "labour", Amount: MinorMoney(9e6, "USD")}}}}})
	}
	require.Empty(t, of(520, 0, 12_000, ExtentBareFrame))
	require.Empty(t, of(1300, 0, 45_000, ExtentBareFrame))
	require.Empty(t, of(440, 89.8, 20_000, ExtentBareFrame))
	require.Empty(t, of(40, 0, 500, ExtentNamed), "only a whole job has an envelope")
	low := of(400, 0, 9_000, ExtentBareFrame)
	require.Len(t, low, 2)
	require.Contains(t, low[0].Next, "what is left out?")
	require.Contains(t, low[1].Summary, "parts and outwork come to 9000 USD: less")
	high := of(1400, 0, 20_000, ExtentBareFrame)
	require.Len(t, high, 1)
	require.Contains(t, high[0].Next, "counted twice")
}
