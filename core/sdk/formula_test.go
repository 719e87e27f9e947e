package sdk

import (
	"testing"

	"github.com/stretchr/testify/require"
	"go.yaml.in/yaml/v3"
)

func TestNormalise(t *testing.T) {
	for in, want := range map[string]string{
		"D - .0015":          "D - 0.0015",
		"2*D":                "2.0*D",
		"D2 + 3.":            "D2 + 3.0",
		"1e-3 + .5E2":        "1e-3 + 0.5E2",
		"max(.1,.2)":         "max(0.1,0.2)",
		"a.b":                "a.b",
		"x1.5":               "x10.5", // no formula: told by CEL, as x1 .5 is
		"-.5":                "-0.5",
		"spread([1, 2, .3])": "spread([1.0, 2.0, 0.3])",
		"2e":                 "2.0e",
	} {
		got, offsets := normalise(in)
		require.Equal(t, want, got)
		require.Len(t, offsets, len(got)+1)
		require.Equal(t, len(in), offsets[len(got)])
		for i := 1; i < len(offsets); i++ {
			require.LessOrEqual(t, offsets[i-1], offsets[i])
		}
	}
}

// check makes a formula for a result in a unit and tells its faults.
func check(t *testing.T, text, unit string, s scope) (*formula, []Fault) {
	t.Helper()
	f := &faults{}
	x := f.readFormula(&yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: text, Line: 1, Column: 1}, unit)
	var err error
	x.env, err = newFormulaEnv(s.names())
	require.NoError(t, err)
	f.checkFormula(x, s)
	return x, f.sorted()
}

// The readings of a worn main journal, front and rear in two directions (common practice, no source): out-of-round
// .0020, taper .0004.
func TestFormulaValues(t *testing.T) {
	s := scope{"FV": "in", "FH": "in", "RV": "in", "RH": "in", "n": "count", "F1": "lbf", "F2": "lbf", "L1": "in", "L2": "in"}
	values := map[string]float64{"FV": 2.4950, "FH": 2.4968, "RV": 2.4946, "RH": 2.4966, "n": 4, "F1": 50, "F2": 62.5, "L1": 2, "L2": 1.96}
	for _, c := range []struct {
		text, unit string
		want       float64
	}{
		{"out_of_round(FV, FH, RV, RH)", "in", .0020},
		{"taper(FV, FH, RV, RH)", "in", .0004},
		{"max(abs(FV - FH), abs(RV - RH))", "in", .0020},
		{"spread([FV, FH, RV, RH])", "in", .0022},
		{"mean([FV, FH, RV, RH])", "in", 2.49575},
		{"min(FV, FH, RV, RH, 9, 9, 9, 9)", "in", 2.4946},
		{"n > 3 ? FV : FH", "in", 2.4950},
		{"!(n > 3) || n < 1 && n >= 0 ? FV : FH", "in", 2.4968},
		{"sqrt(FV * FV)", "in", 2.4950},
		{"pi * FV / FV", "%", 3.14159265},
		{"(F2 - F1) / (L1 - L2)", "lbf/in", 312.5},
		{"n * .001", "in", .004},
		{"-FV + 3", "in", .5050},
		{"1 + 2 * 3", "in", 7},
	} {
		t.Run(c.text, func(t *testing.T) {
			x, fs := check(t, c.text, c.unit, s)
			require.Empty(t, fs)
			got, ok := x.eval(func(name string) (float64, bool) { v, ok := values[name]; return v, ok })
			require.True(t, ok)
			require.InDelta(t, c.want, got, 1e-8)
		})
	}
}

// Wear in proportion, as the general table of TM 10-3930-647-14&P has it: .001 in an inch of a cylinder's diameter, so .0035
// at 3.5 in; .0005 in an inch of a journal's over the highest new clearance, so .00125 more at 2.5 in.
func TestLimitsInProportion(t *testing.T) {
	s := scope{"B": "in", "D": "in", "high": "in"}
	values := map[string]float64{"B": 3.5, "D": 2.5, "high": .003}
	for text, want := range map[string]float64{"B * .001": .0035, "high + D * .0005": .003 + .00125} {
		x, fs := check(t, text, "in", s)
		require.Empty(t, fs)
		got, ok := x.eval(func(name string) (float64, bool) { v, ok := values[name]; return v, ok })
		require.True(t, ok)
		require.InDelta(t, want, got, 1e-12, text)
	}
}

// Identifiers of the result's dimension are in the result's unit; a mixture of others is a fault.
func TestFormulaUnits(t *testing.T) {
	s := scope{"a": "in", "b": "mm", "c": "in", "F": "lbf", "G": "N", "T": "degC", "U": "V", "I": "A", "n": "count", "p": "%", "k": "lbf/in", "W": "lbf-in"}
	for _, c := range []struct{ text, unit, want string }{
		{"a - b", "in", ""},                       // both are given in inches
		{"a * b / c", "in", ""},                   //
		{"a / c", "%", ""},                        //
		{"a / b", "%", "units are mixed"},         //
		{"a < b ? 1 : 2", "V", "units are mixed"}, //
		{"F / a", "lbf/in", ""},
		{"F / b", "lbf/in", "units are mixed"},
		{"G / b", "N/mm", ""},
		{"F * a", "lbf-in", ""},
		{"G * b", "N m", "units are mixed"}, // N mm
		{"F / (a * c)", "psi", ""},
		{"F / k", "in", ""},
		{"F / k", "mm", "units are mixed"},
		{"W / a", "lbf", ""},
		{"U / I * 100", "V/100A", ""},
		{"n * p", "%", ""},
		{"a + n", "in", "a length and a plain number"},
		{"a + F", "in", "a length and a force"},
		{"F", "in", "gives a force; a figure in in (length) is wanted"},
		{"1 / a", "in", "gives a product of several dimensions"},
		{"max(a, F)", "in", "cannot be put together"},
		{"spread([a, F])", "in", "cannot be listed together"},
		{"n > 1 ? a : F", "in", "cannot be alternatives"},
		{"a < F ? 1 : 2", "in", "cannot be compared"},
	} {
		t.Run(c.text+" in "+c.unit, func(t *testing.T) {
			_, fs := check(t, c.text, c.unit, s)
			if c.want == "" {
				require.Empty(t, fs)
				return
			}
			require.Len(t, fs, 1)
			require.Contains(t, fs[0].What, c.want)
		})
	}
}

// What has no finite result is no result.
func TestFormulaWithoutResult(t *testing.T) {
	x, fs := check(t, "1 / (a - 1)", "%", scope{"a": "count"})
	require.Empty(t, fs)
	_, ok := x.eval(func(string) (float64, bool) { return 1, true })
	require.False(t, ok, "divided by nothing")
	_, ok = x.eval(func(string) (float64, bool) { return 0, false })
	require.False(t, ok, "a name without a value")
	v, ok := x.eval(func(string) (float64, bool) { return 3, true })
	require.True(t, ok)
	require.InDelta(t, .5, v, 0)
}
