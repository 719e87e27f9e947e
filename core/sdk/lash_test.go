package sdk

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// Manual: 49 CFR 570.60 table 2. Power, and the identity of the manual column with the diameter over 8: table of 49 CFR
// 393.209(b).
func TestLashTable(t *testing.T) {
	for _, c := range []struct{ wheel, manual, power float64 }{{14, 2, 4.5}, {16, 2, 4.5}, {18, 2.25, 4.75}, {20, 2.5, 5.25}, {17, 2, 4.5}, {19.5, 2.25, 4.75}} {
		m, ok := LashTable(c.wheel, false)
		require.True(t, ok)
		require.Equal(t, c.manual, m, "%g in, manual", c.wheel)
		p, ok := LashTable(c.wheel, true)
		require.True(t, ok)
		require.Equal(t, c.power, p, "%g in, power", c.wheel)
	}
	for wheel, want := range map[float64]float64{16: 2, 18: 2.25, 20: 2.5, 22: 2.75} {
		require.InDelta(t, want, LashLimit(wheel), 1e-9)
		require.InDelta(t, wheel/8, LashLimit(wheel), 1e-9, "diameter over 8")
		require.InDelta(t, 14.32, SteeringTrain{Wheel: wheel}.Degrees(LashLimit(wheel)), .005, "of the rim's circle")
		row, ok := LashTable(wheel, false)
		require.True(t, ok)
		require.InDelta(t, LashLimit(wheel), row, 1e-9, "the line runs through the rows")
	}
	_, ok := LashTable(0, false)
	require.False(t, ok)
	_, ok = LashTable(22, true)
	require.False(t, ok, "no such row is printed here")
}

// 49 CFR 570.7(b) and 570.60 table 3: 1/4 in on rims of 16 in or less, 3/8 over 16 to 18, 1/2 over 18.
func TestLinkagePlayLimit(t *testing.T) {
	for _, c := range []struct{ rim, gross, want float64 }{{16, 12000, .25}, {16.01, 12000, .375}, {18, 12000, .375}, {18.5, 12000, .5}, {20, 10000, .25}, {20, 5400, .25}} {
		require.Equal(t, c.want, LinkagePlayLimit(c.rim, c.gross), "%+v", c)
	}
}

// Worked example of the trade, common practice: 2.4 in on a 17 in wheel, box 14 to 1, drop arm 6 in.
func TestLashShares(t *testing.T) {
	s := SteeringTrain{Wheel: 17, DropArm: 6, Ratio: 14}
	require.InDelta(t, 16.18, s.Degrees(2.4), .005)
	require.InDelta(t, 2.125, LashLimit(17), 1e-9)
	r := s.Shares(2.4, []LashSource{{"drag link end", .035}, {"box and arm", .060}})
	require.Equal(t, "box and arm", r.Parts[0].Name, "the largest first")
	require.InDelta(t, 1.190, r.Parts[0].AtRim, .0005)
	require.InDelta(t, .694, r.Parts[1].AtRim, .0005)
	require.InDelta(t, .516, r.Rest, .0005)
	require.InDelta(t, .785, r.Known(), .0005)
	require.True(t, r.Agree())
	require.Equal(t, "of 2.4 in at the rim: box and arm 1.19 in (50 %), drag link end 0.694 in (29 %); the rest, 0.516 in, is elsewhere (swivels, other ends, column)", r.Words())
	require.False(t, s.Shares(1, []LashSource{{"box and arm", .060}}).Agree(), "more than was found at the rim")
}
