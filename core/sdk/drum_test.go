package sdk

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// Worked example of the trade, common practice: a 12 in drum may be turned to 12.060 and is thrown away over 12.090.
func TestDrumTurning(t *testing.T) {
	r := LightDrum(12)
	for _, c := range []struct {
		drum Drum
		to   float64
		fits bool
	}{
		{Drum{"LF", 12.0310, .009}, 12.0530, true},
		{Drum{"RF", 12.0290, .013}, 12.0590, true},
		{Drum{"LR", 12.0300, .018}, 12.0700, false},
		{Drum{"RR", 12.0750, 0}, 12.0790, false}, // within its discard size, and yet it is replaced
		{Drum{"RR", 12.0560, 0}, 12.0600, true},  // at the limit
	} {
		got := r.Turned(c.drum)
		require.InDelta(t, c.to, got.To, 1e-9, "%+v", c.drum)
		require.Equal(t, c.fits, got.Fits, "%+v", c.drum)
	}
	require.InDelta(t, .031, r.Turned(Drum{"RF", 12.0290, .013}).Reserve, 1e-9)
	require.InDelta(t, .0295, r.LiningGrowth(12.059), 1e-9)
	require.Zero(t, r.LiningGrowth(11.99))
}

func TestDrumPair(t *testing.T) {
	r := LightDrum(12)
	front := r.Pair(Drum{"LF", 12.0310, .009}, Drum{"RF", 12.0290, .013})
	require.True(t, front.Turn)
	require.False(t, front.Match)
	require.InDelta(t, .0060, front.Difference, 1e-9)
	require.Equal(t, "LF cleans up at 12.0530 in, RF at 12.0590 in: turned", front.Words())
	rear := r.Pair(Drum{"LR", 12.0300, .018}, Drum{"RR", 12.0200, .002})
	require.False(t, rear.Turn, "one drum past the turning limit takes its fellow along")
	require.Contains(t, rear.Words(), "the pair is replaced")
	apart := r.Pair(Drum{"LF", 12.0310, .009}, Drum{"RF", 12.0290, 0})
	require.True(t, apart.Turn && apart.Match)
	require.InDelta(t, 12.0530, apart.To, 1e-9)
	require.Equal(t, "LF cleans up at 12.0530 in, RF at 12.0330 in: they would differ by 0.0200 in, both are cut to 12.0530 in", apart.Words())
}

// Published sizes: 11.150 in is refinished to 11.210 and discarded at 11.240 (TM 9-2320-289-34 table 7-1). A trailer's drum is
// new to 16.505 and worn at 16.625, which is 1/8 in of diameter over 16.500 (TM 9-2330-380-14&P 5-11). One of about 16.5 in is
// machined to 16.58 and discarded over 16.62 (TM 9-2330-384-14&P), which are the .080 and .120 over of TM 9-2330-326-14&P.
func TestPublishedDrums(t *testing.T) {
	light := LightDrum(11.150)
	require.InDelta(t, 11.210, light.Turn, 1e-9)
	require.InDelta(t, 11.240, light.Discard, 1e-9)
	heavy := HeavyDrum(16.5)
	require.InDelta(t, 16.58, heavy.Turn, 1e-9)
	require.InDelta(t, 16.62, heavy.Discard, 1e-9)
	low, high, limit := 16.495, 16.505, 16.625
	require.InDelta(t, 16.5+2*1.0/16, limit, 1e-9)
	trailer := maxLimit(low, high, limit)
	require.Equal(t, "within new", Judge(16.505, 0, trailer, "measured", false).Grade.String())
	require.Equal(t, "near limit", Judge(16.62, 0, trailer, "measured", false).Grade.String())
	require.Equal(t, "past limit", Judge(16.63, 0, trailer, "measured", false).Grade.String())
}
