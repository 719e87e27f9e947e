package sdk

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// 49 CFR 570.59(c): 1/32 in over the rivets, 1/16 in bonded. 49 CFR 393.47(d): 3/16 in (4.8 mm), 1/4 in (6.4 mm), 1/16 in (1.6 mm).
func TestMinimumLining(t *testing.T) {
	for kind, want := range map[Lining][2]float64{RivetedLining: {.03125, 0}, BondedLining: {.0625, 0}, AirStripLining: {.1875, 4.8}, AirPadsLining: {.25, 6.4}, HydraulicShoe: {.0625, 1.6}} {
		m, ok := MinimumLining(kind)
		require.True(t, ok)
		require.Equal(t, want[0], m.Inches, kind)
		require.Equal(t, want[1], m.MM, kind)
		require.NotEmpty(t, m.Source)
		if m.MM > 0 {
			require.InDelta(t, m.Inches*25.4, m.MM, .06, "the millimetres are the inches, rounded")
		}
	}
	_, ok := MinimumLining("cork")
	require.False(t, ok)
}
