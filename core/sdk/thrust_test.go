package sdk

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// Worked example of the trade, common practice: float .0165 in found, .0030 to .0080 wanted, washers worn from .0930 to
// .0905, oversize +.005.
func TestThrustWashers(t *testing.T) {
	f := ThrustFloat{Found: .0165, Old: [2]float64{.0905, .0905}, Sizes: []float64{.0980, .0930}, Low: .0030, High: .0080}
	pairs, ok := f.Pairs()
	require.True(t, ok)
	require.Len(t, pairs, 3)
	best := pairs[0]
	require.Equal(t, [2]float64{.0930, .0980}, [2]float64{best.Thin, best.Thick})
	require.InDelta(t, .0065, best.Float, tol)
	require.True(t, best.Fits)
	require.Equal(t, "washers 0.093 and 0.098 leave end float 0.0065: fits", best.Words())
	for _, p := range pairs[1:] {
		require.False(t, p.Fits)
		if p.Thick == .0930 {
			require.InDelta(t, .0115, p.Float, tol, "two standard: too big")
		} else {
			require.InDelta(t, .0015, p.Float, tol, "two oversize: too tight")
		}
	}
}

func TestThrustFaceWorn(t *testing.T) {
	f := ThrustFloat{Found: .0400, Old: [2]float64{.0905, .0905}, Sizes: []float64{.0930, .0980}, Low: .0030, High: .0080}
	_, ok := f.Pairs()
	require.False(t, ok, "no pack fits: the face is to be machined first")
	_, ok = ThrustFloat{Found: .0165, Low: .003, High: .008}.Pairs()
	require.False(t, ok, "no washers to be had")
}
