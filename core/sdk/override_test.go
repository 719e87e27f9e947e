package sdk_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// overridden judges a drum at 12.03 in, with limits put in place of the sheet's.
func overridden(t *testing.T, os ...core.Override) core.Assessment {
	t.Helper()
	a, err := bench(t).Assess(t.Context(), core.AssessRequest{Facts: []core.Fact{nominal}, Overrides: os,
		Findings: []core.Finding{found("f", lf, "diameter", "", size(12.03, "in"))}})
	require.NoError(t, err)
	return a
}

// drumLimit is an override of the drum's diameter.
func drumLimit(position string, wearHigh float64, unit, origin string) core.Override {
	return core.Override{Target: core.Target{Part: "drum", Position: position}, Check: "diameter",
		Limit: core.Limit{WearHigh: &wearHigh, Unit: unit, Source: "manual p. 12", Confidence: "high", Origin: origin}}
}

// The job's limit wins over the unit's pack, that over the vehicle's, that over the sheet; within one, the position's.
func TestOverrideOrder(t *testing.T) {
	job, unit, vehicle := drumLimit("", 12.01, "in", "job"), drumLimit("", 12.02, "in", "unit"), drumLimit("", 12.08, "in", "vehicle")
	for _, c := range []struct {
		name string
		os   []core.Override
		want string
	}{
		{"none", nil, "limit 12.09 in at most (common practice, no source): worn, fit"},
		{"vehicle", []core.Override{vehicle}, "limit 12.08 in at most (of this vehicle: manual p. 12): worn, fit"},
		{"unit over vehicle", []core.Override{unit, vehicle}, "limit 12.02 in at most (of this unit: manual p. 12): past limit"},
		{"job over all, in any order", []core.Override{vehicle, job, unit}, "limit 12.01 in at most (this job's own limit: manual p. 12): past limit"},
		{"no origin is the job's", []core.Override{unit, drumLimit("", 12.05, "in", "")}, "limit 12.05 in at most (this job's own limit: manual p. 12): worn, fit"},
		{"the position's", []core.Override{drumLimit("LF", 12.06, "in", "job"), job}, "limit 12.06 in at most (this job's own limit: manual p. 12): worn, fit"},
		{"another position's", []core.Override{drumLimit("RR", 12.01, "in", "job")}, "limit 12.09 in at most (common practice, no source): worn, fit"},
		{"in millimetres", []core.Override{drumLimit("", 305, "mm", "job")}, "limit 12.00787 in at most (this job's own limit: manual p. 12): past limit"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := conditionOf(t, overridden(t, c.os...), lf)
			require.Contains(t, got.Reasons[0].Text, c.want)
		})
	}
}

// A limit that cannot be used is a problem; the one before it stays.
func TestOverrideBad(t *testing.T) {
	noSource := drumLimit("", 12.08, "in", "job")
	noSource.Limit.Source = ""
	upside := drumLimit("", 12.08, "in", "job")
	upside.Limit.NewHigh = new(12.09)
	for _, c := range []struct {
		name, what string
		o          core.Override
	}{
		{"unit", "kg is a mass", drumLimit("", 12, "kg", "job")},
		{"position", "there is no such position", drumLimit("XX", 12, "in", "job")},
		{"part", "there is no such part", core.Override{Target: core.Target{Part: "drun"}, Check: "diameter"}},
		{"check", "there is no such check", core.Override{Target: core.Target{Part: "drum"}, Check: "width"}},
		{"no bounds", "it has no bounds", core.Override{Target: core.Target{Part: "drum"}, Check: "diameter", Limit: core.Limit{Unit: "in", Source: "x"}}},
		{"no class", "needs a worst class", core.Override{Target: core.Target{Part: "gear"}, Check: "teeth", Limit: core.Limit{Source: "x"}}},
		{"origin", "is no origin", drumLimit("", 12, "in", "hearsay")},
		{"upside down", "a new part would be past the wear limit", upside},
	} {
		t.Run(c.name, func(t *testing.T) {
			a := overridden(t, c.o)
			require.Len(t, a.Problems, 1)
			require.Equal(t, core.SeverityError, a.Problems[0].Severity)
			require.Contains(t, a.Problems[0].Summary, c.what)
			require.Contains(t, conditionOf(t, a, lf).Reasons[0].Text, "limit 12.09 in at most")
		})
	}
	require.Contains(t, overridden(t, noSource).Problems[0].Summary, "names no source")
}

// A limit given for every position asks for no nominal any more.
func TestOverrideInPlaceOfANominal(t *testing.T) {
	override := core.Override{Target: core.Target{Part: "journal"}, Check: "diameter",
		Limit: core.Limit{NewLow: new(2.4995), NewHigh: new(2.5), WearLow: new(2.4985), Unit: "in", Source: "manual p. 3", Origin: "unit"}}
	a, err := bench(t).Assess(t.Context(), core.AssessRequest{Overrides: []core.Override{override}, Findings: journal(0, 2.4998, 2.4998, 2.4998, 2.4946)})
	require.NoError(t, err)
	require.Equal(t, core.PastLimit, conditionOf(t, a, m1).Grade)
	require.Len(t, a.Problems, 1)
	require.Equal(t, "without it nothing can be worked out for journal ovality-share", a.Problems[0].Detail)

	override.Target.Position = "M1"
	a, err = bench(t).Assess(t.Context(), core.AssessRequest{Overrides: []core.Override{override}})
	require.NoError(t, err)
	require.Contains(t, a.Problems[0].Detail, "there is no limit for journal diameter", "the other positions still ask")
}
