package store

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// Of each instrument the last look at its zero counts, and one can be taken back.
func TestTheLastLookAtAZeroCounts(t *testing.T) {
	b := newBook(t)
	for _, z := range []core.ZeroCheck{{Instrument: "micrometer"}, {Instrument: "dial gauge"}, {Instrument: "micrometer", Off: "+.0002 in"}} {
		require.NoError(t, b.CheckZero(t.Context(), "", "Wren", z))
	}
	got, err := b.ZeroChecks(t.Context())
	require.NoError(t, err)
	require.Len(t, got, 2)
	require.Equal(t, core.ZeroCheck{Instrument: "micrometer", Off: "+.0002 in", Stamp: core.Stamp{By: "Wren", At: got[0].At}}, got[0])
	require.False(t, got[0].At.IsZero())
	waited := core.ZeroCheck{Instrument: "micrometer", Stamp: core.Stamp{At: got[0].At.Add(-time.Hour)}}
	for range 2 { // its answer was lost, and it was sent again
		require.NoError(t, b.CheckZero(t.Context(), "0197e0a4-5c1e-4a2b-8c3d-000000000001", "Pasco", waited))
	}
	es, err := b.Entries(t.Context(), "")
	require.NoError(t, err)
	require.Len(t, es, 4)
	got, err = b.ZeroChecks(t.Context())
	require.NoError(t, err)
	require.Equal(t, "+.0002 in", got[0].Off, "what was looked at earlier and came later does not count")
	_, err = b.Undo(t.Context(), "", "Pasco", KindZero)
	require.NoError(t, err)
	_, err = b.Undo(t.Context(), "", "Wren", KindZero)
	require.NoError(t, err)
	got, err = b.ZeroChecks(t.Context())
	require.NoError(t, err)
	require.Empty(t, got[0].Off)
}
