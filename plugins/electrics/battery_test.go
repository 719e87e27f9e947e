package electrics

import (
	"testing"

	"github.com/fettle-tools/fettle/core"
	"github.com/stretchr/testify/require"
)

// gravity reads the six cells.
func gravity(sg ...float64) []core.Finding {
	var fs []core.Finding
	for i, x := range sg {
		fs = append(fs, found("battery", "", "gravity", cells[i], size(x, "SG")))
	}
	return append(fs, found("battery", "", "loaded-volts", "", size(10.8, "V")))
}

// The limit is for 77 degF, and hot acid reads light: .0004 SG a degF (tables of hydrometer correction). A cell of 1.220 is
// past 1.225 at 77 degF, and fit at 95 degF.
func TestGravityIsBroughtToOneTemperature(t *testing.T) {
	for _, c := range []struct {
		degF, lowest float64
		grade        core.Grade
	}{{77, 1.220, core.PastLimit}, {95, 1.2272, core.NearLimit}, {60, 1.2132, core.PastLimit}} {
		a := assess(t, append(gravity(1.235, 1.234, 1.220, 1.233, 1.232, 1.235), found("battery", "", "acid-temperature", "", size(c.degF, "degF")))...)
		require.Equal(t, c.grade.String(), condition(t, a, battery).Grade.String(), c.degF)
		lowest, ok := fact(t, a, battery, "gravity")
		require.True(t, ok)
		require.InDelta(t, c.lowest, lowest, 1e-6)
	}
	// The same in degC: 35 degC is 95 degF.
	a := assess(t, append(gravity(1.235, 1.234, 1.220, 1.233, 1.232, 1.235), found("battery", "", "acid-temperature", "", size(35, "degC")))...)
	require.Equal(t, core.NearLimit, condition(t, a, battery).Grade)
}

// Five cells of six are no battery: nothing is corrected, and the sixth is asked for.
func TestFiveCellsAreNotEnough(t *testing.T) {
	a := assess(t, append(gravity(1.27, 1.27, 1.27, 1.27, 1.27), found("battery", "", "acid-temperature", "", size(95, "degF")))...)
	require.Equal(t, core.NotSeen, condition(t, a, battery).Grade)
	_, ok := fact(t, a, battery, "charge")
	require.False(t, ok)
}

// Cells .030 apart pass common practice's .05 and are told of: TM 9-6140-200-14 calls a charged battery unserviceable over .025.
// A battery that is not charged is not held to it.
func TestCellsApart(t *testing.T) {
	a := assess(t, gravity(1.270, 1.268, 1.240, 1.270, 1.269, 1.270)...)
	require.Equal(t, core.NearLimit, condition(t, a, battery).Grade)
	require.Len(t, a.Problems, 1)
	require.Contains(t, a.Problems[0].Summary, "differ by 0.030 SG")
	require.Contains(t, a.Problems[0].Detail, "TM 9-6140-200-14")
	require.Empty(t, assess(t, gravity(1.270, 1.268, 1.250, 1.270, 1.269, 1.270)...).Problems)
	require.Empty(t, assess(t, gravity(1.190, 1.188, 1.160, 1.190, 1.189, 1.190)...).Problems)
}

// 1.2238 at 80 degF lies just under the table's line of 1.225 for 75 per cent.
func TestChargeIsTold(t *testing.T) {
	a := assess(t, append(gravity(1.225, 1.225, 1.225, 1.225, 1.225, 1.225), found("battery", "", "acid-temperature", "", size(77, "degF")))...)
	charge, ok := fact(t, a, battery, "charge")
	require.True(t, ok)
	require.InDelta(t, 74.14, charge, .01)
}
