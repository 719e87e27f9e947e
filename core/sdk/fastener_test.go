package sdk

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

func thread(t *testing.T, text string) Thread {
	t.Helper()
	x, err := ParseThread(text)
	require.NoError(t, err)
	return x
}

// ASME B1.1 and SAE J429: tensile stress areas, square inches. 1/2-20 is printed .1599 in some tables, .1600 is its formula.
func TestStressAreasInch(t *testing.T) {
	for text, want := range map[string]float64{"1/4-20": .0318, "5/16-18": .0524, "3/8-16": .0775, "7/16-14": .1063, "1/2-13": .1419,
		"1/4-28": .0364, "3/8-24": .0878, "1/2-20": .1599} {
		require.InDelta(t, want, thread(t, text).StressArea(), .0001+1e-9, text)
	}
}

// ISO 898-1: stress areas, mm2.
func TestStressAreasMetric(t *testing.T) {
	for text, want := range map[string]float64{"M6x1": 20.1, "M8x1.25": 36.6, "M10x1.5": 58.0, "M12x1.75": 84.3} {
		require.InDelta(t, want, thread(t, text).StressArea(), .1, text)
	}
}

// SAE J429: proof stresses, and the proof loads its table prints to the nearest 50 lbf.
func TestProofLoads(t *testing.T) {
	for text, loads := range map[string]map[string]float64{
		"1/4-20": {"2": 1750, "5": 2700, "8": 3800},
		"3/8-16": {"2": 4250, "5": 6600, "8": 9300},
	} {
		for grade, want := range loads {
			load, err := ProofLoad(grade, thread(t, text))
			require.NoError(t, err)
			require.Equal(t, want, 50*math.Round(load/50), "%s grade %s", text, grade)
		}
	}
	for grade, want := range map[string]Strength{"2": {55000, 74000}, "5": {85000, 120000}} {
		s, err := FastenerStrength(grade, thread(t, "1/2-13"))
		require.NoError(t, err)
		require.Equal(t, want, s)
	}
}

// ISO 898-1: proof loads of class 8.8 and breaking loads of class 10.9, newtons.
func TestMetricLoads(t *testing.T) {
	for text, want := range map[string]float64{"M8x1.25": 21200, "M12x1.75": 48900} {
		load, err := ProofLoad("8.8", thread(t, text))
		require.NoError(t, err)
		require.InEpsilon(t, want, load, .005, text)
	}
	for text, want := range map[string]float64{"M10x1.5": 60300, "M12x1.75": 87700} {
		load, err := TensileLoad("10.9", thread(t, text))
		require.NoError(t, err)
		require.InEpsilon(t, want, load, .005, text)
	}
}

// T = K D F at three quarters of the proof load, as published torque tables give it, within a hundredth; TM 10-4320-316-14
// table G-1 for the grade 5 bolts, lbf-ft dry, which it rounds.
func TestTorques(t *testing.T) {
	for _, c := range []struct {
		thread, grade string
		k             float64
		want          float64 // lbf-ft
		within        float64
	}{
		{"1/2-13", "5", DryNut, 75.4, .01},
		{"3/8-16", "5", DryNut, 372. / 12, .01},
		{"1/2-13", "8", DryNut, 106, .01},
		{"1/4-20", "5", DryNut, 101. / 12, .01},
		{"1/4-20", "5", OiledNut, 76. / 12, .01},
		{"1/4-20", "2", DryNut, 5.4, .015}, // printed cut off, not rounded
		{"3/8-16", "5", DryNut, 31, .01},
		{"1/2-13", "5", DryNut, 75, .01},
		{"5/8-11", "5", DryNut, 150, .01},
	} {
		torque, _, err := FastenerTorque(c.grade, thread(t, c.thread), c.k)
		require.NoError(t, err)
		require.InEpsilon(t, c.want, torque, c.within, "%s grade %s", c.thread, c.grade)
	}
	_, clamp, err := FastenerTorque("5", thread(t, "1/2-13"), DryNut)
	require.NoError(t, err)
	require.InDelta(t, 9046, clamp, 1)
	_, clamp, err = FastenerTorque("2", thread(t, "1/4-20"), DryNut)
	require.NoError(t, err)
	require.InDelta(t, 1312, clamp, 1)
}

// A metric torque comes out in N m: M8 of class 8.8 at .75 of 21,234 N (computed).
func TestMetricTorque(t *testing.T) {
	torque, clamp, err := FastenerTorque("8.8", thread(t, "M8x1.25"), DryNut)
	require.NoError(t, err)
	require.InDelta(t, .75*580*36.609, clamp, 1)
	require.InDelta(t, .2*8*clamp/1000, torque, 1e-9)
}

func TestThreadsRead(t *testing.T) {
	require.Equal(t, Thread{Diameter: 1.125, PerInch: 7}, thread(t, "1 1/8-7"))
	require.InDelta(t, .190, thread(t, "10-32").Diameter, 1e-12, "ASME B1.1")
	require.Equal(t, Thread{Diameter: 8, Pitch: 1.25}, thread(t, "m8x1.25"))
	for _, bad := range []string{"", "3/8", "-16", "M8", "3/0-16", "M8x9", "bolt-16", "1/2--13"} {
		_, err := ParseThread(bad)
		require.Error(t, err, bad)
	}
}

func TestStrengthNotHeld(t *testing.T) {
	for _, c := range [][2]string{{"5", "M8x1.25"}, {"8.8", "1/2-13"}, {"3", "1/2-13"}, {"2", "1-8"}, {"8.8", "M20x2.5"}} {
		_, err := ProofLoad(c[0], thread(t, c[1]))
		require.Error(t, err, "%v", c)
	}
}

// ASME B18.2.1 heads and B18.2.2 nuts across flats, inches.
func TestAcrossFlats(t *testing.T) {
	for d, want := range map[float64]HexSize{.375: {.562, .551}, .5: {.750, .736}} {
		s, err := SpannersFor(d)
		require.NoError(t, err)
		require.Equal(t, want, s.Head)
		require.Equal(t, want, s.Nut)
		require.False(t, s.Differ())
	}
	for d, want := range map[float64]HexSize{.375: {.337, .320}, .5: {.448, .427}, .4375: {}} {
		s, err := SpannersFor(d)
		require.NoError(t, err)
		require.Equal(t, want, s.NutHeight)
	}
	s, err := SpannersFor(.375)
	require.NoError(t, err)
	require.Equal(t, "9/16", s.HeadName)
}

// The trap: a 7/16 bolt's head is .625 in, its nut .688 in. ASME B18.2.1 and B18.2.2.
func TestSevenSixteenthsTakesTwoSpanners(t *testing.T) {
	s, err := SpannersFor(7. / 16)
	require.NoError(t, err)
	require.Equal(t, .625, s.Head.Most)
	require.Equal(t, .688, s.Nut.Most)
	require.True(t, s.Differ())
	require.Equal(t, [2]string{"5/8", "11/16"}, [2]string{s.HeadName, s.NutName})
	for _, bad := range []float64{0, .4, 3, -1} {
		_, err := SpannersFor(bad)
		require.Error(t, err)
	}
	require.Equal(t, "1 1/8", sixteenths(1.125))
	require.Equal(t, "1 1/2", sixteenths(1.5))
	require.Equal(t, "1", sixteenths(1))
}
