package sdk

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// ANSI/AGMA 1010-E95, clause titles; AGMA 110.04. Fracture and bending fatigue are from memory and not tested.
func TestGearDamage(t *testing.T) {
	require.Equal(t, []string{"wear", "scuffing", "plastic deformation", "contact (Hertzian) fatigue", "cracking"}, GearDamage()[:5])
	require.ElementsMatch(t, []string{"wear", "surface fatigue", "plastic flow", "breakage", "associated gear failures"}, GearDamageOlder())
}
