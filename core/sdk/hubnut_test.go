package sdk

import (
	"testing"

	"github.com/fettle-tools/fettle/core"
	"github.com/stretchr/testify/require"
)

// Worked example of the trade: .012 in found, .003 wanted (.001 to .005), 16 threads to the inch, locked every 30 degrees
// (common practice).
func TestHubNut(t *testing.T) {
	n := HubNut{Threads: 16, LockStep: 30, Low: .001, High: .005, Want: .003}
	s, err := n.Set(.012)
	require.NoError(t, err)
	require.InDelta(t, 51.8, s.Exact, .05)
	require.Len(t, s.Turns, 2)
	require.Equal(t, 30., s.Turns[0].Degrees)
	require.InDelta(t, .0068, s.Turns[0].Float, .00005)
	require.False(t, s.Turns[0].Fits)
	require.InDelta(t, .0016, s.Turns[1].Float, .00005)
	require.Equal(t, 60., s.Chosen.Degrees)
	require.Equal(t, "51.8 degrees by the sum; lock it at 60 degrees in, which leaves 0.0016", s.Words())
}

// The middle of what is wanted is aimed at where nothing else is said; a hub that is too tight is let out.
func TestHubNutTooTight(t *testing.T) {
	s, err := HubNut{Threads: 16, LockStep: 30, Low: .001, High: .005}.Set(0)
	require.NoError(t, err)
	require.InDelta(t, -17.28, s.Exact, .005)
	require.Nil(t, s.Chosen, "30 degrees out gives .0052")
	require.Contains(t, s.Words(), "never back it off")
	s, err = HubNut{Threads: 16, LockStep: 15, Low: .001, High: .005}.Set(0)
	require.NoError(t, err)
	require.Equal(t, -15., s.Chosen.Degrees)
	require.InDelta(t, .0026, s.Chosen.Float, .00005)
	require.Contains(t, s.Words(), "15 degrees out")
}

func TestHubNutThatCannotBeSet(t *testing.T) {
	for _, n := range []HubNut{{LockStep: 30, High: .005}, {Threads: 16, High: .005}, {Threads: 16, LockStep: 30, Low: .005, High: .001}} {
		_, err := n.Set(.012)
		require.Equal(t, core.Invalid, core.ErrorCode(err))
	}
}
