package sdk

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// The trade's worked example: B = 3.405 takes .0102 to .0170; a ring at .0120 in the bottom of a bore with .0082 of taper
// gapes .0378 at the top, over .0338. Common practice, no source.
func TestRingGap(t *testing.T) {
	band := RingGapBand(3.405)
	require.InDelta(t, .0102, band.Low, inchTolerance)
	require.InDelta(t, .0170, band.High, inchTolerance)
	top := RingGapAtTop(.0120, .0082)
	require.InDelta(t, .0378, top, inchTolerance)
	require.InDelta(t, .0338, RingGapLimit(3.375), inchTolerance)
	require.Greater(t, top, RingGapLimit(3.375))
	require.InDelta(t, RingGapLimit(3.375), RingGapAtTop(.0120, RingTaper(.0120, RingGapLimit(3.375))), 1e-12)
}

// TM 5-3825-229-14&P: a bore .0012 in too small closes the gap by about .003 in.
func TestRingGapOfASmallBore(t *testing.T) {
	require.InDelta(t, .003, RingGapChange(.0012), .001)
}
