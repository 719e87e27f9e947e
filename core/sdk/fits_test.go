package sdk

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// ISO 286-1: the tolerance unit and the standard tolerances that follow from it, as two published tables give them.
func TestStandardTolerances(t *testing.T) {
	require.InDelta(t, 1.307, ToleranceUnit(18, 30), .001)
	require.InDelta(t, 1.5612, ToleranceUnit(30, 50), .0001)
	for _, c := range []struct {
		nominal float64
		want    []float64
	}{
		{25, []float64{13, 21, 33, 52, 84}},
		{30, []float64{13, 21, 33, 52, 84}},
		{50, []float64{16, 25, 39, 62, 100}},
		{80, []float64{19, 30, 46, 74, 120}},
	} {
		for i, want := range c.want {
			got, err := StandardTolerance(c.nominal, 6+i)
			require.NoError(t, err)
			require.Equal(t, want, got, "%v mm IT%d", c.nominal, 6+i)
		}
	}
	for _, bad := range []struct {
		nominal float64
		grade   int
	}{{18, 7}, {81, 7}, {25, 5}} {
		_, err := StandardTolerance(bad.nominal, bad.grade)
		require.Error(t, err)
	}
}

// JIS B 0401, the same as ISO 286-2: deviations of shafts and of holes H7, micrometres.
func TestDeviations(t *testing.T) {
	type deviation struct {
		letter    string
		grade     int
		high, low float64
	}
	for nominal, ds := range map[float64][]deviation{
		25: {{"f", 7, -20, -41}, {"g", 6, -7, -20}, {"h", 6, 0, -13}, {"k", 6, 15, 2}, {"n", 6, 28, 15}, {"p", 6, 35, 22}},
		40: {{"f", 7, -25, -50}, {"g", 6, -9, -25}, {"h", 6, 0, -16}, {"k", 6, 18, 2}, {"n", 6, 33, 17}, {"p", 6, 42, 26}},
	} {
		for _, d := range ds {
			low, high, err := ShaftDeviations(nominal, d.letter, d.grade)
			require.NoError(t, err)
			require.Equal(t, [2]float64{d.low, d.high}, [2]float64{low, high}, "%v mm %s%d", nominal, d.letter, d.grade)
		}
	}
	for nominal, want := range map[float64]float64{25: 21, 40: 25, 65: 30} {
		low, high, err := HoleH(nominal, 7)
		require.NoError(t, err)
		require.Equal(t, [2]float64{0, want}, [2]float64{low, high})
	}
	_, _, err := ShaftDeviations(65, "g", 6)
	require.Error(t, err, "not held")
	_, _, err = ShaftDeviations(25, "q", 6)
	require.Error(t, err)
}

// Published worked examples of ISO 286 fits; the transition and interference ones are computed from the deviations above.
func TestISOFits(t *testing.T) {
	for _, c := range []struct {
		nominal           float64
		hole, shaft       string
		tightest, loosest float64
		kind              FitKind
	}{
		{25, "H7", "g6", 7, 41, ClearanceFit},
		{50, "H7", "g6", 9, 50, ClearanceFit},
		{50, "H7", "p6", -42, -1, InterferenceFit},
		{25, "H7", "k6", -15, 19, TransitionFit},
		{25, "H7", "p6", -35, -1, InterferenceFit},
		{50, "H7", "f7", 25, 75, ClearanceFit},
		{25, "H7", "h6", 0, 34, ClearanceFit},
	} {
		_, _, f, err := ISOFit(c.nominal, c.hole, c.shaft)
		require.NoError(t, err)
		require.Equal(t, Fit{c.loosest, c.tightest}, f, "%v %s/%s", c.nominal, c.hole, c.shaft)
		require.Equal(t, c.kind, f.Kind())
	}
	h, s, _, err := ISOFit(25, "H7", "g6")
	require.NoError(t, err)
	require.InDelta(t, 25.000, h.Low, 1e-9)
	require.InDelta(t, 25.021, h.High, 1e-9)
	require.InDelta(t, 24.980, s.Low, 1e-9)
	require.InDelta(t, 24.993, s.High, 1e-9)
	for _, bad := range [][2]string{{"G7", "g6"}, {"H7", "6g"}, {"", ""}, {"H7", "g6x"}} {
		_, _, _, err := ISOFit(25, bad[0], bad[1])
		require.Error(t, err)
	}
}
