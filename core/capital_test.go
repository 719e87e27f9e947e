package core

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestCapital(t *testing.T) {
	for in, want := range map[string]string{"": "", "gear pair": "Gear pair", "élan": "Élan", "“soon” is no day": "“soon” is no day", "1 price": "1 price", "ßx": "ßx"} {
		require.Equal(t, want, Capital(in))
	}
}
