package sdk

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// Worked example of the trade, common practice: 43/9 against 47/10 is 1.65 per cent.
func TestAxleRatio(t *testing.T) {
	rear, front := AxleRatio{43, 9}, AxleRatio{47, 10}
	require.InDelta(t, 4.7778, rear.Value(), 5e-5)
	require.InDelta(t, 1.65, rear.Apart(front), .006)
	require.InDelta(t, rear.Apart(front), front.Apart(rear), 1e-12)
	require.Zero(t, rear.Apart(AxleRatio{86, 18}))
}

func TestFindAxleRatio(t *testing.T) {
	for typed, want := range map[float64]string{43.0 / 9: "43/9", 4.778: "43/9", 4.7778: "43/9", 4.7: "47/10", 37.0 / 7: "37/7", 4: "20/5"} {
		r, ok := FindAxleRatio(typed)
		require.True(t, ok, typed)
		require.Equal(t, want, r.String(), typed)
	}
	for _, typed := range []float64{0, -4, 100} {
		_, ok := FindAxleRatio(typed)
		require.False(t, ok, typed)
	}
}
