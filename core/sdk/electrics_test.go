package sdk

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// The trade's worked example, common practice, with the limit of TM 10-3930-671-24: .52 V at 180 A.
func TestStarterDrop(t *testing.T) {
	drop, ok := DropPer100A(.52, 180)
	require.True(t, ok)
	require.InDelta(t, .289, drop, .0005)
	require.InDelta(t, .36, AllowedDrop(StarterDropPer100A, 180), 1e-9)
	require.Equal(t, core.PastLimit, Judge(drop, 0, maxLimit(0, .1, StarterDropPer100A), core.Derived, false).Grade)
	_, ok = DropPer100A(.52, 0)
	require.False(t, ok, "no current, no drop to compare")
}

// TM 10-3930-671-24, F-303: .20 V per 100 A is .30 V at 150 A.
func TestDropByRuleOfThumb(t *testing.T) {
	require.InDelta(t, .30, AllowedDrop(.20, 150), 1e-9)
}

// TM 5-3820-256-24-4: what each piece may drop, and a total that is their sum. Its example comes to .5 V; which pieces make it
// up is not told there, so that the sums here are of pieces of our own.
func TestCrankingAllowance(t *testing.T) {
	for piece, volts := range map[CrankingPiece]float64{ShortCable: .1, LongCable: .2, MechanicalSwitch: .1, SolenoidSwitch: .2, MagneticSwitch: .3, Connection: 0} {
		got, err := CrankingAllowance(piece)
		require.NoError(t, err)
		require.InDelta(t, volts, got, 1e-9, piece)
	}
	sum, err := CrankingAllowance(ShortCable, LongCable, SolenoidSwitch, Connection, Connection)
	require.NoError(t, err)
	require.InDelta(t, .5, sum, 1e-9)
	require.InDelta(t, .2, CrankingGroundDrop, 1e-9)
	_, err = CrankingAllowance(ShortCable, "wet string")
	require.Equal(t, core.Invalid, core.ErrorCode(err))
}

// Tables of hydrometer correction: .004 for each 10 degF from 80 degF.
func TestCorrectedGravity(t *testing.T) {
	require.InDelta(t, 1.258, CorrectedGravity(1.250, 100, GravityTableF), 1e-6)
	require.InDelta(t, 1.234, CorrectedGravity(1.250, 40, GravityTableF), 1e-6)
	require.InDelta(t, 1.250, CorrectedGravity(1.250, 77, GravityRoomF), 1e-9)
	require.InDelta(t, 1.2512, CorrectedGravity(1.250, 80, GravityRoomF), 1e-9)
}

// Tables of charge at 80 degF: the printed lines, their middles in proportion, and what lies outside.
func TestStateOfCharge(t *testing.T) {
	for gravity, percent := range map[float64]float64{1.265: 100, 1.225: 75, 1.190: 50, 1.155: 25, 1.120: 0, 1.245: 87.5, 1.1375: 12.5, 1.300: 100, 1.000: 0} {
		require.InDelta(t, percent, StateOfCharge(gravity), 1e-6, gravity)
	}
}

// TM 9-6140-200-14, 4-7: a charged battery whose cells differ by more than .025 is unserviceable.
func TestCellSpread(t *testing.T) {
	require.InDelta(t, .026, CellSpread([]float64{1.270, 1.265, 1.244, 1.268}), 1e-9)
	require.Greater(t, CellSpread([]float64{1.270, 1.265, 1.244, 1.268}), CellSpreadCharged)
	require.LessOrEqual(t, CellSpread([]float64{1.270, 1.265, 1.246, 1.268}), CellSpreadCharged)
	require.Zero(t, CellSpread(nil))
}

// IEEE 43-2000, as quoted: the least polarization index is 1.5 for class A, 2.0 for B, F and H.
func TestPolarizationIndex(t *testing.T) {
	for class, least := range map[InsulationClass]float64{"A": 1.5, "B": 2, "F": 2, "H": 2} {
		got, ok := LeastPolarizationIndex(class)
		require.True(t, ok)
		require.InDelta(t, least, got, 1e-9, class)
	}
	_, ok := LeastPolarizationIndex("Q")
	require.False(t, ok)
	index, ok := PolarizationIndex(40, 72)
	require.True(t, ok)
	require.InDelta(t, 1.8, index, 1e-9)
	_, ok = PolarizationIndex(0, 10)
	require.False(t, ok)
}
