package sdk

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestTidyTakesNoiseOffAndNothingElse(t *testing.T) {
	tenth, fifth := .1, .2
	require.Equal(t, .3, tidy(tenth+fifth))
	require.Equal(t, -2.4985, tidy(-2.4985000000000004))
	for _, v := range []float64{0, 1e9, 123456789012.5, 2.6e300, -2.6e300} {
		require.Equal(t, v, tidy(v))
	}
}
