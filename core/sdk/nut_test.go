package sdk

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// FAA AC 43.13-1B table 7-1.
func TestTensionNuts(t *testing.T) {
	for thread, want := range map[string][2]float64{"10-32": {20, 25}, "1/4-28": {50, 70}, "3/8-24": {160, 190}} {
		n, err := TensionNutTorque(thread)
		require.NoError(t, err)
		require.Equal(t, want, [2]float64{n.Low, n.High}, thread)
	}
	for thread, want := range map[string]float64{"10-32": 40, "1/4-28": 100, "5/16-24": 225} {
		n, err := TensionNutTorque(thread)
		require.NoError(t, err)
		require.Equal(t, want, n.Most, thread)
	}
	_, err := TensionNutTorque("7/16-20")
	require.Error(t, err)
}

// FAA AC 43.13-1B table 7-2.
func TestLeastRunOn(t *testing.T) {
	for text, want := range map[string]float64{"7/16-20": 8, "1/2-20": 10, "1/2-13": 10, "5/8-18": 18, "5/8-11": 20, "3/4-16": 27} {
		v, err := LeastRunOn(thread(t, text))
		require.NoError(t, err)
		require.Equal(t, want, v, text)
	}
	for _, bad := range []string{"1-8", "M8x1.25"} {
		_, err := LeastRunOn(thread(t, bad))
		require.Error(t, err)
	}
}
