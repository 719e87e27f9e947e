package sdk_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// A finding that cannot be used is named in a problem, with the nearest thing known, and changes nothing else.
func TestPlacingBadFindings(t *testing.T) {
	p := bench(t)
	clean := assess(t, p)
	for _, c := range []struct {
		name       string
		finding    core.Finding
		what, next string
	}{
		{"unknown part", found("x", core.Target{Part: "jurnal", Position: "M1"}, "diameter", "FV", size(2.5, "in")), `there is no part "jurnal"`, "did you mean journal?"},
		{"unknown position", found("x", core.Target{Part: "journal", Position: "M9"}, "diameter", "FV", size(2.5, "in")), `Main journal has no position "M9"`, "M1"},
		{"no position", found("x", core.Target{Part: "journal"}, "diameter", "FV", size(2.5, "in")), "the position is not given", "say which: M1, M2, M3"},
		{"a position too many", found("x", core.Target{Part: "gear", Position: "1"}, "backlash", "", size(.005, "in")), "has no positions", "leave the position out"},
		{"unknown check", found("x", m1, "diametre", "FV", size(2.5, "in")), `no check "diametre"`, "did you mean diameter?"},
		{"missing, of an unknown check", found("x", m1, "diametre", "", unread(core.PartMissing)), `no check "diametre"`, "did you mean"},
		{"unknown station", found("x", m1, "diameter", "FX", size(2.5, "in")), `it has no station "FX"`, "did you mean FV?"},
		{"no station", found("x", m1, "diameter", "", size(2.5, "in")), "the station is not given", "say which: FV, FH, RV, RH"},
		{"a station too many", found("x", lf, "diameter", "FV", size(12, "in")), "it has no stations", "leave the station out"},
		{"another dimension", found("x", lf, "diameter", "", size(12, "kg")), "kg is a mass", "length"},
		{"an unknown unit", found("x", lf, "diameter", "", size(12, "cubit")), `unknown unit "cubit"`, "use one of"},
		{"a count for a size", found("x", lf, "diameter", "", count(12)), "a size with its unit is wanted", "write a size"},
		{"a size for a class", found("x", gear, "teeth", "", size(1, "in")), "a damage class from 0 to 3 is wanted", "0 to 3"},
		{"a class that is none", found("x", gear, "teeth", "", class(4)), "class 4 is not possible", "0 to 3"},
		{"a count below nothing", found("x", rolls, "missing-ones", "", count(-1)), "-1 is not possible", "a count"},
		{"a class for a pass", found("x", armL, "crack", "", class(0)), "pass or fails is wanted", "pass or fails"},
		{"a word", found("x", lf, "diameter", "", core.Value{Kind: core.ValueWord, Word: "fine"}), `not "fine"`, ""},
		{"a blank", found("x", lf, "diameter", "", core.Value{}), "a blank is not a reading", "not measured"},
		{"no reason known", found("x", lf, "diameter", "", unread("forgot")), "is no reason for no reading", "could not reach"},
		{"no number", found("x", lf, "diameter", "", size(math.NaN(), "in")), "it is no number", "again"},
		{"endless", found("x", lf, "diameter", "", size(math.Inf(1), "in")), "it is no number", "again"},
		{"a bound below nothing", found("x", lf, "diameter", "", size(12, "in", -.1)), "it is no number", "again"},
	} {
		t.Run(c.name, func(t *testing.T) {
			a := assess(t, p, c.finding)
			problem := problemOf(t, a, "x")
			require.Equal(t, core.SeverityError, problem.Severity)
			require.Contains(t, problem.Summary, c.what)
			require.Contains(t, problem.Next, c.next)
			require.Equal(t, "engine", problem.Unit)
			require.Equal(t, "bench", problem.Subsystem)
			require.Equal(t, clean.Conditions, a.Conditions, "it changes no condition")
		})
	}
}

// A reading that can hardly be meant is used, and warned of.
func TestPlacingImplausible(t *testing.T) {
	a := assess(t, bench(t), found("x", m1, "diameter", "FV", size(2.3, "in")))
	require.Equal(t, core.SeverityWarning, problemOf(t, a, "x").Severity)
	require.Equal(t, "Main journal M1, diameter: 2.3 in is not plausible (expected 2.44 to 2.51 in)", problemOf(t, a, "x").Summary)
	require.Equal(t, core.PastLimit, conditionOf(t, a, m1).Grade)
}
