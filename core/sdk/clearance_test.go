package sdk

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// Worked examples of the trade, common practice: main bearing after regrind (D = 2.5) and piston (B = 3.405), read with a
// micrometer of +/-.0001 and a bore gauge of +/-.0002.
func TestClearanceOfMates(t *testing.T) {
	const micrometer, boreGauge = .0001, .0002
	c := Clearance(Estimate{Value: 2.4920, U: boreGauge}, Estimate{Value: 2.4897, U: micrometer})
	require.InDelta(t, .0023, c.Value, tol)
	require.InDelta(t, .00022, c.U, 5e-6, "root sum of squares of the bounds")
	main := Judge(c.Value, StandardUncertainty(c.U), maxLimit(.0006*2.5, .0012*2.5, .0018*2.5), core.Derived, true)
	require.Equal(t, core.WithinNew, main.Grade, main.Words)

	c = Clearance(Estimate{Value: 3.4054, U: boreGauge}, Estimate{Value: 3.4020, U: micrometer})
	require.InDelta(t, .0034, c.Value, tol)
	piston := Judge(c.Value, StandardUncertainty(c.U), maxLimit(.0008*3.405, .0012*3.405, .0025*3.405), core.Derived, true)
	require.Equal(t, core.WithinNew, piston.Grade, piston.Words)
}

// TM 9-2520-246-34 table 4-6: the fits printed follow from the sizes printed.
func TestFitsOfTheManual(t *testing.T) {
	for _, c := range []struct {
		hole, shaft SizeBand
		fit         string
	}{
		{SizeBand{4.3300, 4.3309}, SizeBand{4.3301, 4.3307}, "0.0008L to 0.0007T"},
		{SizeBand{1.0000, 1.0012}, SizeBand{.9949, .9961}, "0.0063L to 0.0039L"},
		{SizeBand{2.0000, 2.0005}, SizeBand{2.0010, 2.0015}, "0.0005T to 0.0015T"},
		{SizeBand{.7461, .7472}, SizeBand{.7500, .7510}, "0.0028T to 0.0049T"},
	} {
		require.Equal(t, c.fit, FitOf(c.hole, c.shaft).String())
		printed, err := ParseFit(c.fit)
		require.NoError(t, err)
		require.NoError(t, CheckFit(c.hole, c.shaft, printed))
	}
	require.InDelta(t, 4.3316, LimitHole(SizeBand{4.3301, 4.3307}, .0015), 1e-9, "wear limit .0015L")
	require.InDelta(t, .7480, LimitHole(SizeBand{.7500, .7510}, -.0020), 1e-9, "wear limit .0020T")
	require.InDelta(t, 2.0005, LimitShaft(SizeBand{2.0000, 2.0005}, 0), 1e-9, "wear limit .000T")

	// The wear limits .0070L of the second and 0.000T of the third row: looser is past them.
	loose := core.Limit{NewLow: new(.0039), NewHigh: new(.0063), WearHigh: new(.0070), Unit: "in"}
	require.Equal(t, core.NearLimit, Judge(.0070, 0, loose, core.Derived, true).Grade)
	require.Equal(t, core.PastLimit, Judge(1.0020-.9941, 0, loose, core.Derived, true).Grade, "both at their own limits")
	press := core.Limit{NewLow: new(-.0015), NewHigh: new(-.0005), WearHigh: new(0.0), Unit: "in"}
	require.Equal(t, core.NearLimit, Judge(0, 0, press, core.Derived, false).Grade)
	require.Equal(t, core.PastLimit, Judge(.0001, 0, press, core.Derived, false).Grade)
}

// The same table prints a case bore of 3.995 to 4.005 with a fit of 0.005L-0.0015T; only 3.9995 to 4.0005 can be meant, with
// 0.0005L. The bearing, 4.0000 to 4.0010, is worked back from it.
func TestPrintedFitThatCannotBe(t *testing.T) {
	bearing := SizeBand{4.0000, 4.0010}
	printed, err := ParseFit("0.005L–0.0015T")
	require.NoError(t, err)
	err = CheckFit(SizeBand{3.995, 4.005}, bearing, printed)
	require.ErrorContains(t, err, "0.005L to 0.0015T does not follow from hole 3.995 to 4.005")
	require.Contains(t, core.ErrorNext(err), "a hole of 3.9995 to 4.005")
	require.Error(t, CheckFit(SizeBand{3.9995, 4.0005}, bearing, printed), "the fit is misprinted too")
	meant, err := ParseFit("0.0015T - 0.0005L")
	require.NoError(t, err)
	require.NoError(t, CheckFit(SizeBand{3.9995, 4.0005}, bearing, meant))
}

func TestParseFitRefuses(t *testing.T) {
	for _, s := range []string{"", "0.001L", "0.001-0.002", "L-T", "0.001L-", "-0.001L-0.002T", "NaNL-0.1T"} {
		_, err := ParseFit(s)
		require.Error(t, err, s)
	}
}
