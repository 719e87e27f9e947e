package core

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// Rigging charts and wire-rope catalogues: the factor 1 / sin a at 90, 75, 60, 45, 30 degrees; 10,000 lb on two legs at 60 degrees pulls 5,775 lb
// (rounded factor) and at 45 degrees 7,070 lb; 1,000 lb at 45 degrees 707 lb.
func TestLegTensionAgainstCharts(t *testing.T) {
	for angle, factor := range map[float64]float64{90: 1, 75: 1.035, 60: 1.155, 45: 1.414, 30: 2} {
		got, err := LegTension(1, angle, true)
		require.NoError(t, err)
		require.InDelta(t, factor, got, .001)
	}
	for _, c := range []struct{ load, angle, leg, within float64 }{{10000, 60, 5775, 2}, {10000, 45, 7070, 2}, {1000, 45, 707, .5},
		// The demonstration's engine of 430 lb: 248, 304 and 430 lb at 60, 45 and 30 degrees (worked by hand).
		{430, 60, 248, .5}, {430, 45, 304, .5}, {430, 30, 430, .5}} {
		got, err := LegTension(c.load, c.angle, false)
		require.NoError(t, err)
		require.InDelta(t, c.leg, got, c.within)
	}
	_, err := LegTension(430, 29, false)
	require.Equal(t, Invalid, ErrorCode(err), "tables stop at 30 degrees")
	upright, err := LegTension(100, 86, true)
	require.NoError(t, err)
	require.Equal(t, 100., upright, "within 5 degrees of vertical counts as vertical (29 CFR 1910.184)")
}

// OSHA guidance on safe sling use, table 1, grade 80 chain: 9/32 in (3,500 lb) in two legs at 60, 45, 30 degrees 6,100, 4,900 and 3,500 lb; 3/8 in (7,100 lb)
// 12,300, 10,000 and 7,100 lb; three and four legs of 9/32 in 9,100, 7,400 and 5,200 lb.
func TestBridleRating(t *testing.T) {
	for _, c := range []struct {
		limit  float64
		legs   int
		rating [3]float64
	}{{3500, 2, [3]float64{6100, 4900, 3500}}, {7100, 2, [3]float64{12300, 10000, 7100}}, {3500, 3, [3]float64{9100, 7400, 5200}}, {3500, 4, [3]float64{9100, 7400, 5200}}} {
		for i, angle := range []float64{60, 45, 30} {
			got, err := BridleRating(c.limit, c.legs, angle)
			require.NoError(t, err)
			require.InDelta(t, c.rating[i], got, 100)
		}
	}
}

// Worked by hand, 1.25 W / 3: rolling chassis 1,450 lb, engine 430, front axle 345, body tub 480 (common practice).
func TestCastorLoad(t *testing.T) {
	for load, each := range map[float64]float64{1450: 604, 430: 179, 345: 144, 480: 200} {
		require.InDelta(t, each, CastorLoad(load), .5)
	}
}
