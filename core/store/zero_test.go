package store

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// Of each instrument the last look at its zero counts, and one can be taken back.
func TestTheLastLookAtAZeroCounts(t *testing.T) {
	b := newBook(t)
	for _, z := range []core.ZeroCheck{{Instrument: "micrometer"}, {Instrument: "dial gauge"}, {Instrument: "micrometer", Off: "+.0002 in"}} {
		require.NoError(t, b.CheckZero(t.Context(), "Wren", z))
	}
	got, err := b.ZeroChecks(t.Context())
	require.NoError(t, err)
	require.Len(t, got, 2)
	require.Equal(t, core.ZeroCheck{Instrument: "micrometer", Off: "+.0002 in", Stamp: core.Stamp{By: "Wren", At: got[0].At}}, got[0])
	require.False(t, got[0].At.IsZero())
	_, err = b.Undo(t.Context(), "", "Wren", KindZero)
	require.NoError(t, err)
	got, err = b.ZeroChecks(t.Context())
	require.NoError(t, err)
	require.Empty(t, got[0].Off)
}
