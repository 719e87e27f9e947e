package sdk_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// A blank is never a pass (common practice, no source).
func TestAssessNothingSeen(t *testing.T) {
	a := assess(t, bench(t))
	require.Empty(t, a.Problems)
	for _, c := range a.Conditions {
		if c.Target.Part == "shell" {
			continue
		}
		require.Equal(t, core.NotSeen, c.Grade, "%s", c.Target)
		require.Zero(t, c.ReadingsTaken)
	}
	c := conditionOf(t, a, m1)
	require.Equal(t, 4, c.ReadingsNeeded, "four stations; what is worked out from them adds none")
	require.Equal(t, []string{"diameter", "out-of-round"}, c.ChecksNotRead)
	require.Equal(t, "not seen: 0 of 4 readings taken; still to read: diameter, out of round", c.Reasons[0].Text)
	require.Equal(t, "H01", c.States[1].RegisterID)
	require.Empty(t, c.States[0].RegisterID, "the event is the bad state")
}

// Single-finding bands with no uncertainty: TM 5-3805-260-24 for out-of-round; the others common practice, no source.
func TestAssessBands(t *testing.T) {
	for _, c := range []struct {
		name   string
		target core.Target
		check  string
		value  core.Value
		grade  core.Grade
		wear   float64 // NaN: none
		text   string
	}{
		{"end of its life", gear, "backlash", size(.0165, "in"), core.PastLimit, 1.4167, "backlash 0.0165 in, limit 0.014 in at most (common practice, no source): past limit"},
		{"too tight", gear, "backlash", size(.002, "in"), core.TooTight, math.NaN(), "backlash 0.002 in, limit 0.014 in at most, new 0.003 to 0.008 in (common practice, no source): too tight"},
		{"near limit", gear, "backlash", size(.0115, "in"), core.NotSeen, math.NaN(), "backlash 0.0115 in, limit 0.014 in at most (common practice, no source): near limit"},
		{"half worn", core.Target{Part: "drum", Position: "LF"}, "diameter", size(12.031, "in"), core.WornFit, .3059, "diameter 12.031 in, limit 12.09 in at most (common practice, no source): worn, fit"},
		{"as new", lf, "diameter", size(12.004, "in"), core.WithinNew, -.0118, "diameter 12.004 in, limit 12.09 in at most (common practice, no source): within new"},
		{"in millimetres", lf, "diameter", size(307.5, "mm"), core.PastLimit, 1.1918, "diameter 12.1063 in (307.5 mm as read), limit 12.09 in at most (common practice, no source): past limit"},
		{"a class", gear, "teeth", class(2), core.Failed, math.NaN(), "teeth: class 2, worst allowed class 1 (TM 5-3810-300-24): failed"},
		{"one short", rolls, "missing-ones", count(1), core.Failed, math.NaN(), "missing ones 1, limit 0 at most (common practice, no source): failed; not to be used again as it is: replace (rule N03, common practice, no source)"},
		{"all there", rolls, "missing-ones", count(0), core.WithinNew, math.NaN(), "missing ones 0, limit 0 at most (common practice, no source): within new"},
		{"better than new", lf, "diameter", size(11.98, "in"), core.MeasureAgain, math.NaN(), "diameter 11.98 in, limit 12.09 in at most, new 12 to 12.005 in (common practice, no source): measure again: it is better than new; check the reading, the part, the nominal"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := conditionOf(t, assess(t, bench(t), found("f", c.target, c.check, "", c.value)), c.target)
			require.Equal(t, c.grade, got.Grade)
			if math.IsNaN(c.wear) == false {
				require.InDelta(t, c.wear, *got.Wear, 1e-4)
			}
			texts := []string{}
			for _, r := range got.Reasons {
				texts = append(texts, r.Text)
			}
			require.Contains(t, texts, c.text)
		})
	}
}

// The journal of a worn crankshaft, measured at four stations (common practice, no source): the worst station governs,
// out-of-round is worked out, and its uncertainty is the root sum square of two readings (JCGM 100:2008 5.1.2).
func TestAssessStationsAndDerived(t *testing.T) {
	c := conditionOf(t, assess(t, bench(t), journal(.0001, 2.4950, 2.4968, 2.4946, 2.4966)...), m1)
	require.Equal(t, core.PastLimit, c.Grade)
	require.Equal(t, "diameter", c.GoverningCheck)
	require.InDelta(t, 4.9, *c.Wear, 1e-9)
	require.Equal(t, 4, c.ReadingsTaken)
	require.Empty(t, c.ChecksNotRead)
	require.Equal(t, "diameter 2.4946 in at RV, limit 2.4985 in at least (common practice, no source): past limit", c.Reasons[0].Text)
	require.Equal(t, []string{"fh", "fv", "rh", "rv"}, c.Reasons[0].FindingIDs, "all readings of the check are behind it")
	require.Equal(t, "out of round 0.002 in, limit 0.001 in at most (TM 5-3805-260-24): past limit", c.Reasons[1].Text)

	require.Len(t, c.Facts, 2)
	q := c.Facts[0].Value.Quantity
	require.Equal(t, "out-of-round", c.Facts[0].Name)
	require.InDelta(t, .0020, q.Value, 1e-12)
	require.InDelta(t, math.Sqrt2*.0001, q.Bound, 1e-8, "two readings of the plane that governs")
	require.InDelta(t, 100*.002/2.5, c.Facts[1].Value.Quantity.Value, 1e-9, "one derived value from another")
}

func TestAssessOneShortOfFour(t *testing.T) {
	fs := journal(0, 2.4998, 2.4998, 2.4998, 2.4998)
	c := conditionOf(t, assess(t, bench(t), fs[:3]...), m1)
	require.Equal(t, core.NotSeen, c.Grade)
	require.Equal(t, 3, c.ReadingsTaken)
	require.Equal(t, "not seen: 3 of 4 readings taken; still to read: diameter, out of round", c.Reasons[0].Text)
	require.Contains(t, c.Reasons[1].Text, "not all of it is read: RH: no reading")

	c = conditionOf(t, assess(t, bench(t), found("x", m1, "diameter", "RV", size(2.4946, "in"))), m1)
	require.Equal(t, core.PastLimit, c.Grade, "one condemning finding needs no more readings")
	require.Equal(t, 1, c.ReadingsTaken)

	c = conditionOf(t, assess(t, bench(t), append(fs[:3], found("n", m1, "diameter", "RH", unread(core.CouldNotReach)))...), m1)
	require.Equal(t, core.NotSeen, c.Grade, "a reason for no reading is no reading")
	require.Contains(t, c.Reasons[1].Text, "RH: could not reach")
}

// A derived value typed by hand is used as it is.
func TestAssessDerivedTyped(t *testing.T) {
	fs := append(journal(0, 2.4998, 2.4998, 2.4998, 2.4998), found("typed", m1, "out-of-round", "", size(1.5, "thou")))
	c := conditionOf(t, assess(t, bench(t), fs...), m1)
	require.Equal(t, core.PastLimit, c.Grade)
	require.Equal(t, "out-of-round", c.GoverningCheck)
	require.Equal(t, 5, c.ReadingsNeeded)
}

// A derived check may have stations of its own: readings that only its formula uses.
func TestAssessDerivedFromItsOwnStations(t *testing.T) {
	gap := func(id, station string, v core.Value) core.Finding { return found(id, gear, "gap-spread", station, v) }
	a := assess(t, bench(t), gap("a", "A", size(1.00, "mm")), gap("b", "B", size(1.25, "mm")), gap("c", "C", size(.0413, "in")))
	c := conditionOf(t, a, gear)
	require.Equal(t, core.PastLimit, c.Grade)
	require.InDelta(t, .25, c.Facts[0].Value.Quantity.Value, 1e-9)
	c = conditionOf(t, assess(t, bench(t), gap("a", "A", size(1.00, "mm")), gap("b", "B", size(1.25, "mm")), gap("c", "C", unread(core.CouldNotReach))), gear)
	require.Equal(t, core.NotSeen, c.Grade)
	require.Equal(t, "gap spread: not read: C: could not reach", c.Reasons[1].Text)
	require.Equal(t, []string{"a", "b", "c"}, c.Reasons[1].FindingIDs)
}

// Many readings that disagree at many stations: the least and the largest of each are tried.
func TestAssessManyReadings(t *testing.T) {
	var fs []core.Finding
	for i, s := range []string{"FV", "FH", "RV", "RH"} {
		for k := range 6 {
			fs = append(fs, found(fmt.Sprint(s, k), m1, "diameter", s, size(2.4999-.0001*float64(k)-.00001*float64(i), "in")))
		}
	}
	c := conditionOf(t, assess(t, bench(t), fs...), m1)
	require.InDelta(t, .00051, c.Facts[0].Value.Quantity.Value, 1e-9)
}

// Readings that disagree are all kept and shown; the worse governs (common practice, no source).
func TestAssessReadingsThatDisagree(t *testing.T) {
	fs := append(journal(0, 2.4998, 2.4998, 2.4998, 2.4998), found("again", m1, "diameter", "FV", size(2.4989, "in")))
	a := assess(t, bench(t), fs...)
	c := conditionOf(t, a, m1)
	require.Equal(t, core.NearLimit, c.Grade)
	require.Equal(t, "diameter 2.4989 in at FV, limit 2.4985 in at least (common practice, no source): near limit", c.Reasons[1].Text)
	require.Contains(t, c.Reasons[1].FindingIDs, "fv")
	require.Contains(t, c.Reasons[1].FindingIDs, "again")
	require.InDelta(t, .0009, c.Facts[0].Value.Quantity.Value, 1e-12, "out-of-round by the worse of the two")
	p := problemOf(t, a, "again")
	require.Equal(t, core.SeverityNote, p.Severity)
	require.Equal(t, "Main journal M1, diameter FV: the readings disagree: 2.4989 in and 2.4998 in", p.Summary)
	require.Contains(t, p.Detail, "again, fv")

	a = assess(t, bench(t), found("a", lf, "diameter", "", size(12.01, "in")), found("b", lf, "diameter", "", unread(core.ByEye)))
	require.Equal(t, core.WornFit, conditionOf(t, a, lf).Grade)
	require.Contains(t, problemOf(t, a, "b").Summary, `12.01 in and "by eye" are both recorded`)
}

// A nominal that is not known: the readings are kept and not judged.
func TestAssessWithoutTheNominal(t *testing.T) {
	p := bench(t)
	a, err := p.Assess(t.Context(), core.AssessRequest{Findings: journal(0, 2.49, 2.49, 2.49, 2.49)})
	require.NoError(t, err)
	c := conditionOf(t, a, m1)
	require.Equal(t, core.NotSeen, c.Grade)
	require.Equal(t, []string{"diameter"}, c.ChecksNotRead)
	require.Equal(t, 4, c.ReadingsTaken)
	require.Contains(t, c.Reasons[2].Text, "diameter: 2.49 in FV, 2.49 in FH, 2.49 in RV, 2.49 in RH, not judged: there is no limit to judge it by")
	require.Contains(t, a.Problems[0].Summary, "D is not known")
}

// Uncertainty at the limit: a micrometer of +/- .0001 can tell .0001 from the limit, a caliper of +/- .001 cannot
// (common practice; JCGM 106:2012 for the chance, JCGM 100:2008 4.3.7 for the bound).
func TestAssessStraddle(t *testing.T) {
	fine := conditionOf(t, assess(t, bench(t), journal(.0001, 2.4986, 2.4987, 2.4987, 2.4987)...), m1)
	require.Equal(t, core.NearLimit, fine.Grade)
	require.Len(t, fine.States, 1)

	fs := journal(.0001, 2.4986, 2.4987, 2.4987, 2.4987)
	fs[0].Value = size(2.4986, "in", .001)
	a := assess(t, bench(t), fs...)
	c := conditionOf(t, a, m1)
	require.Equal(t, core.MeasureAgain, c.Grade)
	require.InDelta(t, .431, *c.PPast, .001)
	require.Contains(t, feasible(a, m1), "reuse", "an ordinary part keeps reuse while it is more likely fit")
	require.Len(t, c.States, 2)
	require.Equal(t, core.PastLimit, c.States[1].Grade)
	require.NotContains(t, c.States[1].Remedies, "reuse")
	require.Contains(t, c.States[0].Remedies, "reuse")
	require.InDelta(t, 1, c.States[0].Chance+c.States[1].Chance, 1e-12)
	require.Contains(t, c.Reasons[0].Text, "measure again with a better instrument")

	fs[0].Value = size(2.4984, "in", .001)
	a = assess(t, bench(t), fs...)
	require.NotContains(t, feasible(a, m1), "reuse", "more likely past than not")
	require.Contains(t, conditionOf(t, a, m1).States[0].Remedies, "reuse", "and yet it may turn out fit")
}

func TestAssessSafety(t *testing.T) {
	p := bench(t)
	a := assess(t, p)
	require.Equal(t, []string{"new"}, feasible(a, armL), "not seen: closed now; nothing but a new one answers what is not read")
	require.Contains(t, conditionOf(t, a, armL).States[0].Remedies, "reuse", "open once it is seen to be good")
	require.Contains(t, remedyOf(t, a, armL, "reuse").Why[0].Text, "eye")

	a = assess(t, p, found("e", armL, "eye", "", size(.507, "in")), found("c", armL, "crack", "", pass(true)))
	require.Equal(t, core.NearLimit, conditionOf(t, a, armL).Grade)
	require.Equal(t, []string{"bush", "new"}, feasible(a, armL), "near limit is not used again on a safety-critical part")

	a = assess(t, p, found("e", armL, "eye", "", size(.503, "in")), found("c", armL, "crack", "", pass(true)))
	require.Equal(t, []string{"reuse", "bush", "new"}, feasible(a, armL))

	a = assess(t, p, found("e", armL, "eye", "", size(.503, "in")), found("c", armL, "crack", "", pass(false)))
	c := conditionOf(t, a, armL)
	require.Equal(t, core.Failed, c.Grade)
	require.Equal(t, []string{"new"}, feasible(a, armL))
	require.Equal(t, "N01", c.Reasons[0].Rule)
	require.Equal(t, "crack: fails, it has to pass (common practice, no source): failed; not to be used again as it is: replace (rule N01, common practice, no source)", c.Reasons[0].Text)

	a = assess(t, p, found("e", armL, "eye", "", size(.5098, "in", .001)), found("c", armL, "crack", "", pass(true)))
	c = conditionOf(t, a, armL)
	require.Equal(t, core.MeasureAgain, c.Grade)
	for _, s := range c.States {
		require.NotContains(t, s.Remedies, "reuse", "at its limit it is at best near it")
	}
}

func TestAssessMissing(t *testing.T) {
	p := bench(t)
	a := assess(t, p, found("m", lf, "diameter", "", unread(core.PartMissing)))
	c := conditionOf(t, a, lf)
	require.Equal(t, core.Missing, c.Grade)
	require.Equal(t, []string{"new"}, feasible(a, lf))
	require.Equal(t, "Drum LF is missing", c.Reasons[0].Text)
	require.Equal(t, []core.State{{Chance: 1, Grade: core.Missing, Remedies: []string{"new"}}}, c.States)

	c = conditionOf(t, assess(t, p, found("m", gear, "", "", unread(core.PartMissing))), gear)
	require.Equal(t, core.Failed, c.Grade, "a rule speaks of it")
	require.Equal(t, "N05", c.Reasons[0].Rule)

	c = conditionOf(t, assess(t, p, found("m", core.Target{Part: "shell", Position: "M1"}, "always-new", "", unread(core.PartMissing))), core.Target{Part: "shell", Position: "M1"})
	require.Equal(t, core.Missing, c.Grade)
}

// What is one-use is always new, whatever it looks like (NAVEDTRA 14014 for locking devices).
func TestAssessOneUse(t *testing.T) {
	shell := core.Target{Part: "shell", Position: "M2"}
	a := assess(t, bench(t), found("d", shell, "damage", "", class(0)))
	c := conditionOf(t, a, shell)
	require.Equal(t, core.WornFit, c.Grade)
	require.Equal(t, "always-new", c.GoverningCheck)
	require.Equal(t, "one-use: always new (NAVEDTRA 14014)", c.Reasons[0].Text)
	require.Equal(t, []string{"new"}, feasible(a, shell))
	require.Empty(t, a.Problems, "the finding stands in a reason")
}

// A rule on a measured check closes reuse by the grade.
func TestAssessPastLimitRule(t *testing.T) {
	fs := append(journal(0, 2.4998, 2.4998, 2.4998, 2.4998), found("s", m1, "score", "", size(.004, "in")))
	a := assess(t, bench(t), fs...)
	c := conditionOf(t, a, m1)
	require.Equal(t, core.Failed, c.Grade)
	require.Equal(t, "N04", c.Reasons[0].Rule)
	require.Equal(t, []string{"polish", "regrind", "another"}, feasible(a, m1), "a polish answers a score")
	require.Contains(t, c.Reasons[0].Text, "score 4 thou (0.004 in as read), limit 3 thou at most")
}

// What only exists before strip-down and was recorded as lost cannot be read any more: the gear is judged by its teeth, and that is said. Not
// measured is no such word: somebody may still have it.
func TestAReadingLostForGood(t *testing.T) {
	teeth := found("teeth", gear, "teeth", "", class(0))
	a := assess(t, bench(t), teeth, found("lost", gear, "backlash", "", unread(core.Lost)))
	c := conditionOf(t, a, gear)
	require.Equal(t, core.WithinNew, c.Grade)
	require.Equal(t, 1, c.ReadingsNeeded)
	require.Len(t, a.Problems, 1)
	require.Equal(t, core.SeverityNote, a.Problems[0].Severity)
	require.Contains(t, a.Problems[0].Summary, "lost when it came apart")
	require.Equal(t, core.NotSeen, conditionOf(t, assess(t, bench(t), teeth, found("no", gear, "backlash", "", unread(core.NotMeasured))), gear).Grade)
	require.Equal(t, core.NotSeen, conditionOf(t, assess(t, bench(t), found("lost", gear, "backlash", "", unread(core.Lost))), gear).Grade, "its teeth are not read either")
}
