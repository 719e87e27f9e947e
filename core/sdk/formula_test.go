package sdk

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"go.yaml.in/yaml/v3"
)

// What is read, written back with every bracket.
func TestReadExpression(t *testing.T) {
	for in, want := range map[string]string{
		"D - .0015":           "(D - 0.0015)",
		"2*D":                 "(2 * D)",
		"D2 + 3.":             "(D2 + 3)",
		"1e-3 + .5E2":         "(0.001 + 50)",
		"a - b - c * d / e":   "((a - b) - ((c * d) / e))",
		"-a * - b":            "(-x(a) * -x(b))",
		"a < b ? c : d ? e:f": "?:((a < b), c, ?:(d, e, f))",
		"!(a<b)||c && d":      "(!((a < b)) || (c && d))",
		"max( .1 ,.2 )":       "max(0.1, 0.2)",
		"spread([1, 2, .3])":  "spread([1, 2, 0.3])",
		"true":                "1",
	} {
		e, fault := readExpression(in)
		require.Nil(t, fault, in)
		require.Equal(t, want, written(e))
	}
	for in, want := range map[string]unreadable{
		"":                      {0, "it ends too early"},
		"a -":                   {3, "it ends too early"},
		"a.b":                   {1, `nothing fits before "."`},
		"x1.5":                  {2, `nothing fits before "."`},
		"2e":                    {1, `"e" cannot follow a number`},
		"2 D":                   {2, `nothing fits before "D"`},
		"abs(a":                 {5, `")" is wanted before the end`},
		"abs(a, )":              {7, `a number or a name is wanted before ")"`},
		"[a":                    {2, `"]" is wanted before the end`},
		"a ? b":                 {5, `":" is wanted before the end`},
		"a == b":                {2, `nothing fits before "="`},
		"a != b":                {2, `nothing fits before "!"`},
		"a % b":                 {2, `nothing fits before "%"`},
		"'a'":                   {0, "a text has no place in a formula"},
		"1e999":                 {0, "1e999 is no number that can be worked with"},
		"\u00bd in":             {0, "a number or a name is wanted before \"\u00bd\""},
		strings.Repeat("(", 99): {60, "it is nested too deeply"},
		strings.Repeat("-", 99): {60, "it is nested too deeply"},
	} {
		_, fault := readExpression(in)
		require.NotNil(t, fault, in)
		require.Equal(t, want, *fault, in)
	}
}

// written writes an expression back.
func written(e *expression) string {
	var args []string
	for _, a := range e.args {
		args = append(args, written(a))
	}
	switch {
	case e.kind == aNumber || e.kind == aTruth:
		return trimFloat(e.value)
	case e.kind == aName:
		return e.word
	case e.kind == aList:
		return "[" + strings.Join(args, ", ") + "]"
	case len(args) == 2 && !isNameByte(e.word[0]):
		return "(" + args[0] + " " + e.word + " " + args[1] + ")"
	}
	return e.word + "(" + strings.Join(args, ", ") + ")"
}

// check makes a formula for a result in a unit and tells its faults.
func check(t *testing.T, text, unit string, s scope) (*formula, []Fault) {
	t.Helper()
	f := &faults{}
	x := f.readFormula(&yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: text, Line: 1, Column: 1}, unit)
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
