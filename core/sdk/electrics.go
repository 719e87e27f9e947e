package sdk

import (
	"slices"

	"github.com/fettle-tools/fettle/core"
)

// DropPer100A is a voltage drop in volts brought to 100 A, in V/100A, so that circuits measured at different currents
// compare. amps has to be over 0; otherwise ok is false.
func DropPer100A(volts, amps float64) (drop float64, ok bool) {
	if amps <= 0 {
		return 0, false
	}
	return 100 * volts / amps, true
}

// StarterDropPer100A is the most a starter circuit may drop, in V/100A (TM 10-3930-671-24).
const StarterDropPer100A = .2

// AllowedDrop is the drop in volts that a limit in V/100A allows at a current in amperes.
func AllowedDrop(per100A, amps float64) float64 { return per100A * amps / 100 }

// CrankingPiece is a piece of a 12 V cranking circuit that a drop is allowed for.
type CrankingPiece string

// The pieces of a cranking circuit.
const (
	ShortCable       CrankingPiece = "cable under 3 ft"
	LongCable        CrankingPiece = "cable of 3 to 6 ft"
	MechanicalSwitch CrankingPiece = "mechanical switch"
	SolenoidSwitch   CrankingPiece = "solenoid switch"
	MagneticSwitch   CrankingPiece = "magnetic switch"
	Connection       CrankingPiece = "connection"
)

// crankingDrops are the drops allowed, in volts, for a 12 V system while cranking: TM 5-3820-256-24-4.
var crankingDrops = map[CrankingPiece]float64{ShortCable: .1, LongCable: .2, MechanicalSwitch: .1, SolenoidSwitch: .2, MagneticSwitch: .3, Connection: 0}

// CrankingGroundDrop is the most the earth side of a 12 V cranking circuit may drop, in volts: TM 5-3820-256-24-4.
const CrankingGroundDrop = .2

// CrankingAllowance is the drop in volts that a 12 V cranking circuit of these pieces may have in all: the sum of what
// each is allowed (TM 5-3820-256-24-4). A piece that is not known is an Invalid error.
func CrankingAllowance(pieces ...CrankingPiece) (volts float64, err error) {
	for _, p := range pieces {
		v, ok := crankingDrops[p]
		if !ok {
			return 0, core.Errorf(core.Invalid, "name cables, switches and connections", "no drop is known for %q", string(p))
		}
		volts += v
	}
	return volts, nil
}

// The temperatures in degF that tables of specific gravity are written for.
const (
	GravityTableF = 80.0 // most tables
	GravityRoomF  = 77.0 // 25 degC
)

// gravityPerDegF is what a battery's acid loses in specific gravity for each degF it is warmer: .004 in 10 degF, as
// tables of hydrometer correction print it.
const gravityPerDegF = .0004

// CorrectedGravity brings a hydrometer's reading, taken with the acid at tempF, to the temperature toF; both in degF.
func CorrectedGravity(reading, tempF, toF float64) float64 {
	return reading + gravityPerDegF*(tempF-toF)
}

// chargeTable is the state of charge of a lead-acid battery by specific gravity at 80 degF, as tables print it.
var chargeTable = []struct{ gravity, percent float64 }{{1.120, 0}, {1.155, 25}, {1.190, 50}, {1.225, 75}, {1.265, 100}}

// StateOfCharge is the charge of a lead-acid battery in per cent by its specific gravity at 80 degF, between the lines of the table in
// proportion; 0 under the table, 100 over it.
func StateOfCharge(gravity80F float64) float64 {
	last := chargeTable[0]
	if gravity80F <= last.gravity {
		return 0
	}
	for _, row := range chargeTable[1:] {
		if gravity80F <= row.gravity {
			return last.percent + (row.percent-last.percent)*(gravity80F-last.gravity)/(row.gravity-last.gravity)
		}
		last = row
	}
	return 100
}

// CellSpreadCharged is the most that the cells of a charged battery may differ in specific gravity: more is
// unserviceable (TM 9-6140-200-14).
const CellSpreadCharged = .025

// CellSpread is the largest less the smallest specific gravity of a battery's cells, all at one temperature; 0 for none.
func CellSpread(cells []float64) float64 {
	if len(cells) == 0 {
		return 0
	}
	return slices.Max(cells) - slices.Min(cells)
}

// InsulationClass is the thermal class of a winding's insulation.
type InsulationClass string

// polarizationLeast are the least indices by thermal class: IEEE 43-2000, as quoted.
var polarizationLeast = map[InsulationClass]float64{"A": 1.5, "B": 2, "F": 2, "H": 2}

// PolarizationIndex is a winding's insulation resistance after ten minutes over that after one, both in one unit (IEEE
// 43-2000). oneMinute has to be over 0; otherwise ok is false.
func PolarizationIndex(oneMinute, tenMinutes float64) (index float64, ok bool) {
	if oneMinute <= 0 || tenMinutes < 0 {
		return 0, false
	}
	return tenMinutes / oneMinute, true
}

// LeastPolarizationIndex is the least index for a thermal class: A 1.5; B, F and H 2.0. ok is false for another class.
func LeastPolarizationIndex(class InsulationClass) (index float64, ok bool) {
	index, ok = polarizationLeast[class]
	return index, ok
}
