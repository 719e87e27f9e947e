package sdk

import (
	"encoding/json"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// The same vectors hold the script of the bench to these sums: w = (x - H) / (W - H), worked by hand.
func TestWearVectors(t *testing.T) {
	b, err := os.ReadFile("../../testdata/wear/vectors.json")
	require.NoError(t, err)
	var vectors []struct {
		X    float64     `json:"x"`
		New  [2]*float64 `json:"new"`
		Wear [2]*float64 `json:"wear"`
		W    *float64    `json:"w"`
	}
	require.NoError(t, json.Unmarshal(b, &vectors))
	require.NotEmpty(t, vectors)
	for i, v := range vectors {
		j := Judge(v.X, 0, core.Limit{NewLow: v.New[0], NewHigh: v.New[1], WearLow: v.Wear[0], WearHigh: v.Wear[1]}, core.Measured, true)
		if v.W == nil {
			require.Nil(t, j.Wear, i)
			continue
		}
		require.NotNil(t, j.Wear, i)
		require.InDelta(t, *v.W, *j.Wear, 1e-9, i)
	}
}
