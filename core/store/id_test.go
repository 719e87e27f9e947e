package store

import (
	"testing"
	"time"

	"github.com/google/uuid"
	"github.com/stretchr/testify/require"
)

// TestNewID: the layout of RFC 9562 section 5.7, and its example time of appendix A.6 (2022-02-22 14:22:22 -05:00,
// 0x017F22E279B0 milliseconds).
func TestNewID(t *testing.T) {
	at := time.Date(2022, 2, 22, 14, 22, 22, 0, time.FixedZone("", -5*3600))
	id := newID(at)
	require.Equal(t, "017f22e2-79b0", id[:13])
	u, err := uuid.Parse(id)
	require.NoError(t, err)
	require.EqualValues(t, 7, u.Version())
	require.Equal(t, uuid.RFC4122, u.Variant())
	require.NotEqual(t, id, newID(at))
	require.Less(t, newID(at), newID(at.Add(time.Microsecond)), "ids sort by their time")
}

func TestImportID(t *testing.T) {
	id := ImportID("J-001", "gearbox,layshaft,, diameter ,,.9995,,,,", 0)
	u, err := uuid.Parse(id)
	require.NoError(t, err)
	require.EqualValues(t, 8, u.Version(), "RFC 9562 section 5.8")
	require.Equal(t, uuid.RFC4122, u.Variant())
	require.Equal(t, id, ImportID("J-001", " gearbox,layshaft,,  diameter ,,.9995,,,,", 0), "blanks do not count")
	for _, other := range []string{ImportID("J-002", "gearbox,layshaft,, diameter ,,.9995,,,,", 0),
		ImportID("J-001", "gearbox,layshaft,, diameter ,,.9996,,,,", 0), ImportID("J-001", "gearbox,layshaft,, diameter ,,.9995,,,,", 1)} {
		require.NotEqual(t, id, other)
	}
}
