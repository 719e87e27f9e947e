package transferbox

import (
	"context"
	"fmt"
	"testing"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
	"github.com/stretchr/testify/require"
)

func found(part, position, check string, v core.Value) core.Finding {
	return core.Finding{ID: fmt.Sprint(part, "/", position, "/", check), Target: target(part, position), Check: check, Value: v, AsTyped: v.String()}
}

func target(part, position string) core.Target {
	return core.Target{Part: part, Position: position}
}
func passes(ok bool) core.Value { return core.Value{Kind: core.ValuePass, Pass: ok} }
func class(n int) core.Value    { return core.Value{Kind: core.ValueClass, Class: n} }
func count(n int) core.Value    { return core.Value{Kind: core.ValueCount, Count: n} }
func missing() core.Value       { return core.Value{Kind: core.ValueNotRead, NotRead: core.PartMissing} }
func size(x float64) core.Value {
	return core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: x, Unit: "in"}}
}

func assess(t *testing.T, facts []core.Fact, fs ...core.Finding) core.Assessment {
	t.Helper()
	p, err := sdk.New(Subsystem())
	require.NoError(t, err)
	a, err := p.Assess(context.Background(), core.AssessRequest{Unit: "transfer-box", Facts: facts, Findings: fs})
	require.NoError(t, err)
	return a
}

func condition(t *testing.T, a core.Assessment, at core.Target) core.Condition {
	t.Helper()
	for _, c := range a.Conditions {
		if c.Target == at {
			return c
		}
	}
	t.Fatalf("no condition of %s", at)
	return core.Condition{}
}

func remedy(t *testing.T, a core.Assessment, at core.Target, id string) core.Remedy {
	t.Helper()
	for _, r := range a.Remedies {
		if r.Target == at && r.ID == id {
			return r
		}
	}
	t.Fatalf("no remedy %s of %s", id, at)
	return core.Remedy{}
}

// open lists the remedies that are feasible now, and those of any state.
func open(t *testing.T, a core.Assessment, at core.Target) (now, ever []string) {
	for _, r := range a.Remedies {
		if r.Target == at && r.Feasible {
			now = append(now, r.ID)
		}
	}
	for _, s := range condition(t, a, at).States {
		ever = append(ever, s.Remedies...)
	}
	return now, ever
}

// What is never used again, in no state: an interlock that is missing or does not work (N20), chipped dogs, a chipped
// tooth, a cracked case lug, a cracked hand brake drum. Common practice; gears also TM 5-3810-300-24&P2.
func TestNeverReused(t *testing.T) {
	for _, c := range []struct {
		name    string
		finding core.Finding
		grade   core.Grade
		open    []string
	}{
		{"interlock does not work", found("interlock", "", "blocks-low", passes(false)), core.Failed, []string{"make-good", "new-parts"}},
		{"interlock missing", found("interlock", "", "blocks-low", missing()), core.Failed, []string{"new-parts"}},
		{"dogs chipped", found("dog-clutch", "", "rounding", class(3)), core.Failed, []string{"new-dog"}},
		{"tooth chipped", found("gear", "low", "teeth", class(3)), core.Failed, []string{"replace-pair"}},
		{"case lug cracked", found("case", "", "cracks", count(1)), core.Failed, []string{"weld-and-skim", "another-case"}},
		{"hand brake drum cracked", found("hand-brake-drum", "", "sound", passes(false)), core.Failed, []string{"another-drum"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			a := assess(t, nil, c.finding)
			require.Equal(t, c.grade, condition(t, a, c.finding.Target).Grade)
			now, ever := open(t, a, c.finding.Target)
			require.Equal(t, c.open, now)
			require.NotContains(t, ever, "reuse")
		})
	}
}

// An interlock that nobody tried is not reused on trust; what it may turn out to be keeps it.
func TestInterlockNotTried(t *testing.T) {
	a := assess(t, nil)
	now, ever := open(t, a, target("interlock", ""))
	require.NotContains(t, now, "reuse")
	require.Contains(t, ever, "reuse")
	now, _ = open(t, assess(t, nil, found("interlock", "", "blocks-low", passes(true))), target("interlock", ""))
	require.Contains(t, now, "reuse")
}

func TestWornParts(t *testing.T) {
	for _, c := range []struct {
		name    string
		finding core.Finding
		open    []string
	}{
		{"shaft loose in the case", found("intermediate-shaft-bore", "rear", "clearance", size(.0018)), []string{"sleeve-bore", "another-case"}},
		{"intermediate shaft worn", found("intermediate-shaft", "", "track-wear", size(.002)), []string{"new-shaft"}},
		{"rollers rusted", found("intermediate-rollers", "", "surface", class(1)), []string{"new-rollers"}},
		{"intermediate gear loose endwise", found("intermediate-gear", "", "end-float", size(.025)), []string{"new-washers", "another-gear"}},
		{"intermediate gear tight endwise", found("intermediate-gear", "", "end-float", size(.002)), []string{"new-washers", "another-gear"}},
		{"rear output loose", found("rear-output-shaft", "", "end-float", size(.012)), []string{"re-shim", "another-shaft"}},
		{"front output tight", found("front-output-shaft", "", "end-float", size(.001)), []string{"re-shim", "another-shaft"}},
		{"backlash", found("gear-pair", "high", "backlash", size(.018)), []string{"replace-pair"}},
		{"sleeve loose on its splines", found("front-drive-sleeve", "", "spline-backlash", size(.015)), []string{"new-sleeve"}},
		{"flange face out", found("output-flange", "rear", "face-runout", size(.008)), []string{"skim", "another-flange"}},
		{"flange pilot out", found("output-flange", "rear", "pilot-runout", size(.008)), []string{"another-flange"}},
		{"flange grooved", found("flange-seal-land", "front", "groove-depth", size(.007)), []string{"seal-sleeve", "another-flange"}},
		{"bearing stained", found("output-bearing", "rear-outer", "condition", class(1)), []string{"new-bearing"}},
		{"speedometer gear chipped", found("speedometer-gear", "", "damaged-teeth", count(1)), []string{"new-pair"}},
		{"speedometer gears of another axle", found("speedometer-gear", "", "suits-axles", passes(false)), []string{"new-pair"}},
		{"joint face notched", found("case", "", "joint-face", class(2)), []string{"skim", "weld-and-skim", "another-case"}},
		{"fork worn", found("selector-fork", "high-low", "side-clearance", size(.035)), []string{"build-up", "another-fork"}},
		{"selector shaft loose", found("selector-shaft-bore", "front-drive", "clearance", size(.01)), []string{"bush", "another-case"}},
		{"water in the oil", found("drained-oil", "", "contents", class(2)), []string{"find-source", "new-plug-and-breather"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			now, _ := open(t, assess(t, nil, c.finding), c.finding.Target)
			require.Equal(t, c.open, now)
		})
	}
}

// What is one job is one operation: bearings, shaft, rollers and washers share one overhaul, which holds the re-shim.
func TestSharedWork(t *testing.T) {
	a := assess(t, nil)
	for _, r := range [][3]string{{"output-bearing", "rear-inner", "new-bearing"}, {"intermediate-shaft", "", "new-shaft"}, {"intermediate-rollers", "", "new-rollers"}, {"intermediate-gear", "", "new-washers"}} {
		require.Equal(t, []string{"full-overhaul"}, remedy(t, a, target(r[0], r[1]), r[2]).Operations)
	}
	for _, r := range [][2]string{{"gear", "low"}, {"gear", "intermediate-low"}, {"gear-pair", "low"}} {
		require.Equal(t, []string{"replace-gear-pair/low"}, remedy(t, a, target(r[0], r[1]), "replace-pair").Operations)
	}
	require.Equal(t, []string{"flange-seal-sleeve/front"}, remedy(t, a, target("flange-seal-land", "front"), "seal-sleeve").Operations)
	require.Equal(t, remedy(t, a, target("output-flange", "front"), "another-flange").Operations, remedy(t, a, target("flange-seal-land", "front"), "another-flange").Operations)
	for _, o := range a.Operations {
		if o.ID == "full-overhaul" {
			require.Equal(t, []string{"open-and-re-shim"}, o.Includes)
		}
	}
}

// Front drive sleeve and front output shaft are one pair: old with old, new with new; re-shimming keeps the old.
func TestFrontDriveIsAPair(t *testing.T) {
	a := assess(t, nil)
	for _, r := range []struct {
		part, id, yield string
	}{{"front-output-shaft", "reuse", "old"}, {"front-output-shaft", "re-shim", "old"}, {"front-output-shaft", "another-shaft", "new"},
		{"front-drive-sleeve", "reuse", "old"}, {"front-drive-sleeve", "new-sleeve", "new"}} {
		require.Equal(t, []core.Yield{{Key: "front-drive", Value: r.yield}}, remedy(t, a, target(r.part, ""), r.id).Yields)
	}
}

// A flange and its seal land are one piece: a new flange is not sleeved.
func TestFlangeAndItsSealLandAreOnePiece(t *testing.T) {
	a := assess(t, nil)
	for _, r := range []struct{ part, id, yield string }{{"output-flange", "reuse", "old"}, {"output-flange", "skim", "old"}, {"output-flange", "another-flange", "new"},
		{"flange-seal-land", "reuse", "old"}, {"flange-seal-land", "seal-sleeve", "old"}, {"flange-seal-land", "another-flange", "new"}} {
		require.Equal(t, []core.Yield{{Key: "flange", Value: r.yield}}, remedy(t, a, target(r.part, "rear"), r.id).Yields)
	}
}

// Speedometer gears of another axle are told of: the box may be of another model.
func TestSpeedometerGearsOfAnotherAxle(t *testing.T) {
	a := assess(t, nil, found("speedometer-gear", "", "suits-axles", passes(false)))
	require.Len(t, a.Problems, 1)
	require.Contains(t, a.Problems[0].Next, "another model")
	require.Empty(t, assess(t, nil, found("speedometer-gear", "", "suits-axles", passes(true))).Problems)
}
