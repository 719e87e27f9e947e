package sdk

import (
	"testing"

	"github.com/fettle-tools/fettle/core"
	"github.com/stretchr/testify/require"
)

// Worked example of the trade: 600 lbf at 2.10 in, 1200 lbf at 4.02 in on a spring of 340 lbf/in (common practice).
func TestSpringRate(t *testing.T) {
	k, err := SpringRate(600, 2.10, 1200, 4.02)
	require.NoError(t, err)
	require.InDelta(t, 312.5, k, 1e-9)
	require.InDelta(t, -.081, k/340-1, .0005)
	for _, d := range [][2]float64{{2, 2}, {4, 2}} {
		_, err = SpringRate(600, d[0], 1200, d[1])
		require.Equal(t, core.Invalid, core.ErrorCode(err), "%v", d)
	}
}

// Worked example of the trade: a front spring of ten leaves of 1/4 x 2 in, 42 in long; the same worn .010 in; the same
// with a leaf broken (common practice; the formula of handbooks).
func TestLeafSpring(t *testing.T) {
	s := LeafSpring{Leaves: 10, Width: 2, Thickness: .25, Length: 42}
	require.InDelta(t, 337.4, s.Rate(), .05)
	worn := s.With(10, .24)
	require.InDelta(t, 298.5, worn.Rate, .05)
	require.InDelta(t, -.115, worn.Share, .0005)
	broken := s.With(9, .25)
	require.InDelta(t, 303.7, broken.Rate, .05)
	require.InDelta(t, -.10, broken.Share, 1e-9)
	require.Equal(t, "rate 303.7 lbf/in, -10.0 % against sound leaves", broken.Words())
	require.Zero(t, LeafSpring{}.Rate())
}

// 2L = 2L1 - l under a band, 2L1 - 2/3 l under U-bolts: 1100 and 80 mm give 1020 and 1046.67 mm (works' rule, read in a
// secondary source; figures computed).
func TestWorkingLength(t *testing.T) {
	require.InDelta(t, 1020, WorkingLength(1100, 80, BandHold), .01)
	require.InDelta(t, 1046.67, WorkingLength(1100, 80, UBoltHold), .01)
}

// Worked example of the trade: 5.30 and 5.55 in against 6.00 (common practice).
func TestSpringPair(t *testing.T) {
	p := SpringPair{Left: 5.30, Right: 5.55, Standard: 6}
	left, right := p.Ratios()
	require.InDelta(t, .883, left, .0005)
	require.InDelta(t, .925, right, .0005)
	require.InDelta(t, .25, p.Difference(), 1e-9)
}
