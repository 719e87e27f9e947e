package sdk

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestNearest(t *testing.T) {
	known := []string{"diameter", "end-float", "D", "FH", "FV"}
	for name, want := range map[string]string{"diametre": "diameter", "endfloat": "end-float", "d": "D", "E": "", "FX": "FH", "backlash": "", "": ""} {
		require.Equal(t, want, nearest(name, known), name)
	}
}
