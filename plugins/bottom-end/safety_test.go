package bottomend

import (
	"testing"

	"github.com/fettle-tools/fettle/core"
	"github.com/stretchr/testify/require"
)

func (b *bench) soundRod(n string, sideClearance float64) *bench {
	return b.size("rod", n, "side-clearance", "", sideClearance, 0).size("rod", n, "big-end-out-of-round", "", .0002, 0).size("rod", n, "bend-twist", "", .0005, 0).
		pass("rod", n, "crack-test", true).pass("rod", n, "cap-marks", true)
}

func TestRods(t *testing.T) {
	count := func(n int) core.Value { return core.Value{Kind: core.ValueCount, Count: n} }
	for _, c := range []struct {
		name  string
		bench *bench
		open  []string
	}{
		{"sound", newBench(t).soundRod("1", .007), []string{"reuse", "resize", "replace-rod"}},
		{"cracked: rule N19", newBench(t).soundRod("1", .007).pass("rod", "1", "crack-test", false), []string{"replace-rod"}},
		{"welded cap", newBench(t).soundRod("1", .007).find("rod", "1", "cap-welds", "", count(1)), []string{"replace-rod"}},
		{"cap of another rod", newBench(t).soundRod("1", .007).pass("rod", "1", "cap-marks", false), []string{"resize", "replace-rod"}},
		{"bent", newBench(t).soundRod("1", .007).size("rod", "1", "bend-twist", "", .003, 0), []string{"resize", "replace-rod"}},
		{"near its limit: safety-critical, so never reused", newBench(t).soundRod("1", .007).size("rod", "1", "bend-twist", "", .0018, 0), []string{"resize", "replace-rod"}},
		{"too narrow for its pin", newBench(t).soundRod("1", .020), []string{"replace-rod"}},
		{"too tight on its pin", newBench(t).soundRod("1", .002), []string{"resize", "replace-rod"}},
		{"crack test still to come", newBench(t).soundRod("1", .007).drop("rod", "1", "crack-test"), []string{"resize", "replace-rod"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			a := c.bench.assess()
			require.Equal(t, c.open, a.open("rod", "1"), "%v", a.condition("rod", "1").Reasons)
		})
	}
}

// drop forgets what was found of a check.
func (b *bench) drop(part, position, check string) *bench {
	var kept []core.Finding
	for _, f := range b.findings {
		if f.Target != (core.Target{Part: part, Position: position}) || f.Check != check {
			kept = append(kept, f)
		}
	}
	b.findings = kept
	return b
}

func TestBluedJournalIsNeverReused(t *testing.T) {
	a := newBench(t).journal("main-journal", "M1", 2.4999, 2.4999, 2.4999, 2.4999).pass("main-journal", "M1", "heat-colour", false).assess()
	c := a.condition("main-journal", "M1")
	require.Equal(t, core.Failed, c.Grade)
	require.NotContains(t, a.open("main-journal", "M1"), "reuse")
	require.Contains(t, a.open("main-journal", "M1"), "regrind-010")
}

// Shells, bolts, tab washers and split pins are new whatever is said of the old ones.
func TestAlwaysNew(t *testing.T) {
	a := newBench(t).pass("main-shells", "", "marks-agree", true).size("big-end-bolt", "1", "stretch", "", .001, 0).assess()
	for _, part := range []string{"main-shells", "big-end-shells", "tab-washer", "oilway-plug", "oil-filter"} {
		require.Equal(t, []string{"new"}, a.open(part, ""), part)
	}
	require.Equal(t, []string{"new"}, a.open("big-end-bolt", "1"))
	require.Equal(t, []string{"new"}, a.open("split-pin", ""))
}

func TestEvidenceIsTold(t *testing.T) {
	a := newBench(t).pass("main-shells", "", "marks-agree", false).size("big-end-bolt", "2", "stretch", "", .006, 0).
		find("sump", "", "metal", "", core.Value{Kind: core.ValueClass, Class: 3}).
		find("big-end-shells", "", "backing-metal", "", core.Value{Kind: core.ValueCount, Count: 2}).assess()
	for _, want := range []string{"marked to different sizes -> treat it as a mismatched crankshaft", "bolt of rod 2 has stretched", "suspect crankshaft and camshaft", "find the cause"} {
		require.Contains(t, a.problems(), want)
	}
	require.Equal(t, []string{"clean-out", "another-sump"}, a.open("sump", ""))
}

// A reading .0001 in inside its limit: sure enough with a micrometer of +/- .0001, not with a caliper of +/- .001. The
// trade's example, common practice; the decision by JCGM 106:2012.
func TestInstrumentDecides(t *testing.T) {
	for bound, want := range map[float64]core.Grade{.0001: core.NearLimit, .001: core.MeasureAgain} {
		b := newBench(t).size("main-journal", "M1", "score-depth", "", 0, 0)
		for _, s := range stations {
			b.size("main-journal", "M1", "diameter", s, 2.4986, bound)
		}
		require.Equal(t, want, gradeOfPart(b.assess().condition("main-journal", "M1")), "+/- %g", bound)
	}
}

func gradeOfPart(c core.Condition) core.Grade { return c.Grade }

// A used rod is sized, bushed and aligned with the others: that work is one operation of the job, whoever asks for it, and
// it brings the bolts. A set of used rods is crack tested as one rod is.
func TestRodWorkIsPaidOnce(t *testing.T) {
	a := newBench(t).assess()
	pays := func(part, position, id string) []string {
		for _, r := range a.Remedies {
			if r.Target == (core.Target{Part: part, Position: position}) && r.ID == id {
				return r.Operations
			}
		}
		t.Fatalf("no remedy %s of %s/%s", id, part, position)
		return nil
	}
	require.Equal(t, []string{"rods", "crack-test"}, pays("rod", "1", "resize"))
	require.Equal(t, []string{"replace-rod/1", "rods", "crack-test"}, pays("rod", "1", "replace-rod"))
	require.Equal(t, []string{"rods"}, pays("small-end-bush", "1", "new-bush"))
	require.Equal(t, []string{"replace-rod-set", "crack-test"}, pays("rod-set", "", "another-set"))
	for _, o := range a.Operations {
		switch o.ID {
		case "rods":
			require.Equal(t, []string{"big-end-bolts"}, o.Includes)
		case "replace-rod-set":
			require.Equal(t, []string{"rods"}, o.Includes)
		}
	}
}

// One regrind is one low risk, .03, however many journals it grinds.
func TestRegrindIsOneRisk(t *testing.T) {
	sum := 0.0
	for _, r := range newBench(t).assess().Remedies {
		if r.ID == "regrind-010" {
			sum += r.ResidualChance
		}
	}
	require.InDelta(t, .03, sum, .005)
}
