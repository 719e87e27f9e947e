package sdk

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// rails are six points of a frame 96 in long and 30 in wide, at the heights given: left then right, front to rear.
func rails(h ...float64) []FramePoint {
	var ps []FramePoint
	for i, name := range []string{"LF", "LM", "LR", "RF", "RM", "RR"} {
		ps = append(ps, FramePoint{Name: name, Along: float64(i%3) * 48, Across: float64(i/3) * 30, Height: h[i]})
	}
	return ps
}

// A frame that only stands askew is flat: computed from height = 4 + along/96 + across/60.
func TestFlatFrameStandingAskew(t *testing.T) {
	ps := rails(4, 4.5, 5, 4.5, 5, 5.5)
	p, err := BestPlane(ps)
	require.NoError(t, err)
	require.InDelta(t, 1./96, p.AlongSlope, 1e-12)
	require.InDelta(t, 1./60, p.AcrossSlope, 1e-12)
	require.InDelta(t, 0, p.Spread, 1e-12)
	for _, x := range ps {
		require.InDelta(t, 0, p.Off(x), 1e-12, x.Name)
	}
	require.InDelta(t, 0, FrameTwist(4, 4.5, 5, 5.5), 1e-12)
}

// One corner .31 in high. Computed: the fourth corner stands .31 in off the other three, and the best plane shares that out.
func TestOneCornerHigh(t *testing.T) {
	ps := rails(4.31, 4, 4, 4, 4, 4)
	p, err := BestPlane(ps)
	require.NoError(t, err)
	x, off := p.Furthest(ps)
	require.Equal(t, "LF", x.Name)
	require.InDelta(t, .31*5/12, off, 1e-12, "leverage 1/6 + 1/4 + 1/6 of its own height is in the plane")
	require.InDelta(t, .31, FrameTwist(4.31, 4, 4, 4), 1e-12)
	require.InDelta(t, -.31, FrameTwist(4, 4.31, 4, 4), 1e-12)
}

// The normal equations, solved by hand for three points (0,0,1), (2,0,3), (0,4,9): slopes 1 and 2, no spread.
func TestThreePointsLieInTheirPlane(t *testing.T) {
	ps := []FramePoint{{"a", 0, 0, 1}, {"b", 2, 0, 3}, {"c", 0, 4, 9}}
	p, err := BestPlane(ps)
	require.NoError(t, err)
	require.InDelta(t, 1, p.AlongSlope, 1e-12)
	require.InDelta(t, 2, p.AcrossSlope, 1e-12)
	require.Zero(t, p.Spread)
	require.InDelta(t, 1, p.At(0, 0), 1e-12)
}

func TestNoPlane(t *testing.T) {
	for _, ps := range [][]FramePoint{nil, rails(1, 2, 3, 4, 5, 6)[:2], rails(1, 2, 3, 4, 5, 6)[:3]} {
		_, err := BestPlane(ps)
		require.Error(t, err)
	}
}

// The residuals of least squares sum to nothing and lean neither way, whatever was read and wherever the origin lies.
func TestResidualsBalance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := rapid.SliceOfN(rapid.Float64Range(-2, 2), 6, 6).Draw(t, "heights")
		shift := rapid.Float64Range(-1e4, 1e4).Draw(t, "shift")
		ps := rails(h...)
		for i := range ps {
			ps[i].Along += shift
		}
		p, err := BestPlane(ps)
		require.NoError(t, err)
		var sum, along, across float64
		for _, x := range ps {
			sum += p.Off(x)
			along += p.Off(x) * (x.Along - p.Along)
			across += p.Off(x) * (x.Across - p.Across)
		}
		require.InDelta(t, 0, sum, 1e-9)
		require.InDelta(t, 0, along, 1e-6)
		require.InDelta(t, 0, across, 1e-6)
	})
}

// A panel of 40 by 30 in: square, both diagonals are 50 in (computed). With the left rail slid forward by .25 in they differ, and
// the difference tells by how much.
func TestDiagonalsAndLead(t *testing.T) {
	a, b := Diagonals(FloorPoint{0, 0}, FloorPoint{0, 30}, FloorPoint{40, 0}, FloorPoint{40, 30})
	require.InDelta(t, 50, a, 1e-12)
	require.InDelta(t, 50, b, 1e-12)
	a, b = Diagonals(FloorPoint{-.25, 0}, FloorPoint{0, 30}, FloorPoint{39.75, 0}, FloorPoint{40, 30})
	require.Greater(t, a, b)
	require.InDelta(t, .25, RailLead(a, b, 40), 1e-12)
	require.InDelta(t, -.25, RailLead(b, a, 40), 1e-12)
	require.True(t, math.IsNaN(RailLead(a, b, 0)))
}
