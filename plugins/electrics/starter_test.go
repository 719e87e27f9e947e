package electrics

import (
	"testing"

	"github.com/fettle-tools/fettle/core"
	"github.com/stretchr/testify/require"
)

// The trade's worked example, common practice, against TM 10-3930-671-24: .52 V at 180 A is .289 V per 100 A, over .20; at
// that current .36 V would be allowed.
func TestStarterDropFromTheMeters(t *testing.T) {
	a := assess(t, found("starter-circuit", "", "cranking-drop", "", size(.52, "V")), found("starter-circuit", "", "cranking-current", "", size(180, "A")))
	c := condition(t, a, starterCircuit)
	require.Equal(t, core.PastLimit, c.Grade)
	require.Equal(t, "drop-per-100A", c.GoverningCheck)
	drop, ok := fact(t, a, starterCircuit, "drop-per-100A")
	require.True(t, ok)
	require.InDelta(t, .289, drop, .0005)
	allowed, ok := fact(t, a, starterCircuit, "allowed-drop")
	require.True(t, ok)
	require.InDelta(t, .36, allowed, 1e-9)
	now, _ := open(t, a, starterCircuit)
	require.Equal(t, []string{"clean", "new-switch-and-lead"}, now)
}

// Without the current the volts alone say nothing of the circuit.
func TestNoCurrentNoVerdict(t *testing.T) {
	a := assess(t, found("starter-circuit", "", "cranking-drop", "", size(.15, "V")))
	require.Equal(t, core.NotSeen, condition(t, a, starterCircuit).Grade)
	_, ok := fact(t, a, starterCircuit, "allowed-drop")
	require.False(t, ok)
}
