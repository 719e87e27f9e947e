package rearaxle

import (
	"context"
	"fmt"
	"testing"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
	"github.com/stretchr/testify/require"
)

func found(part, position, check string, v core.Value) core.Finding {
	return core.Finding{ID: fmt.Sprint(part, "/", position, "/", check), Target: core.Target{Part: part, Position: position}, Check: check, Value: v, AsTyped: v.String()}
}

func passes(ok bool) core.Value { return core.Value{Kind: core.ValuePass, Pass: ok} }
func class(n int) core.Value    { return core.Value{Kind: core.ValueClass, Class: n} }
func count(n int) core.Value    { return core.Value{Kind: core.ValueCount, Count: n} }
func size(x float64, unit string) core.Value {
	return core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: x, Unit: unit}}
}
func missing() core.Value             { return core.Value{Kind: core.ValueNotRead, NotRead: core.PartMissing} }
func target(p, at string) core.Target { return core.Target{Part: p, Position: at} }

func assess(t *testing.T, fs ...core.Finding) core.Assessment {
	t.Helper()
	p, err := sdk.New(Subsystem())
	require.NoError(t, err)
	a, err := p.Assess(context.Background(), core.AssessRequest{Unit: "rear-axle", Findings: fs})
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

// What is never used again, in no state: a marked or worn spindle (N04), axles of two ratios (N21), a cracked or twisted
// half shaft (N22), old lock tabs and pinion nuts (N23), a mismatched pair, a chipped tooth, a blued gear, a case cracked
// at the spindle. Common practice; locking wire also NAVEDTRA 14014.
func TestNeverReused(t *testing.T) {
	for _, c := range []struct {
		name    string
		finding core.Finding
		open    []string
	}{
		{"spindle cracked at its root", found("spindle", "LR", "root", passes(false)), []string{"new-spindle"}},
		{"spindle seat past its limit", found("spindle", "RR", "seat-wear", size(.0025, "in")), []string{"new-spindle"}},
		{"ratios differ", found("axle-ratio", "", "ratio-difference", size(1.65, "%")), []string{"match-axles"}},
		{"half shaft cracked", found("half-shaft", "RR", "crack-test", passes(false)), []string{"new-shaft"}},
		{"half shaft twisted", found("half-shaft", "LR", "spline-twist", size(1, "deg")), []string{"new-shaft"}},
		{"lock tab missing", found("lock-tab", "", "", missing()), []string{"new"}},
		{"pinion nut missing", found("pinion-nut", "", "", missing()), []string{"new"}},
		{"pair numbers differ", found("crown-wheel-pinion", "", "pair-marks", passes(false)), []string{"new-pair"}},
		{"tooth chipped", found("final-gear", "pinion", "teeth", class(3)), []string{"new-pair"}},
		{"gear blued", found("final-gear", "crown-wheel", "heat-colour", passes(false)), []string{"new-pair"}},
		{"cracked at the spindle weld", found("axle-case", "", "spindle-welds", passes(false)), []string{"other-case", "used-axle"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			a := assess(t, c.finding)
			require.Equal(t, core.Failed, condition(t, a, c.finding.Target).Grade)
			now, ever := open(t, a, c.finding.Target)
			require.Equal(t, c.open, now)
			require.NotContains(t, ever, "reuse")
		})
	}
}

func TestWornParts(t *testing.T) {
	for _, c := range []struct {
		name    string
		finding core.Finding
		open    []string
	}{
		{"gear pitted", found("final-gear", "pinion", "teeth", class(2)), []string{"new-pair"}},
		{"contact on the edge", found("crown-wheel-pinion", "", "contact-pattern", class(2)), []string{"reset", "new-pair"}},
		{"crown wheel wobbles", found("crown-wheel", "", "back-face-runout", size(.007, "in")), []string{"true-flange", "new-case"}},
		{"bearing marked", found("pinion-bearing", "head", "condition", class(1)), []string{"new-bearing"}},
		{"preload lost", found("side-bearings", "", "preload", size(.003, "in")), []string{"re-shim", "new-bearings"}},
		{"preload too high", found("side-bearings", "", "preload", size(.014, "in")), []string{"re-shim", "new-bearings"}},
		{"side gear slack", found("side-gear", "LR", "backlash", size(.02, "in")), []string{"new-washers", "new-gears"}},
		{"cross pin stepped", found("cross-pin", "", "wear-step", size(.004, "in")), []string{"new-gears"}},
		{"half shaft near its limit", found("half-shaft", "LR", "flange-runout", size(.009, "in")), []string{"new-shaft"}},
		{"spindle near its limit", found("spindle", "LR", "seat-wear", size(.0018, "in")), []string{"new-spindle"}},
		{"drive spline worn", found("drive-flange", "RR", "spline-backlash", size(.012, "in")), []string{"with-shaft"}},
		{"flange grooved", found("pinion-flange", "", "groove-depth", size(.006, "in")), []string{"seal-sleeve", "new-flange"}},
		{"breather blocked", found("breather", "", "clear", passes(false)), []string{"clean", "new-breather"}},
		{"water in the oil", found("axle-oil", "", "metal-or-water", class(2)), []string{"search", "search-and-case"}},
		{"cap on the wrong side", found("bearing-cap", "back", "marks", passes(false)), []string{"with-carrier"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			now, _ := open(t, assess(t, c.finding), c.finding.Target)
			require.Equal(t, c.open, now)
		})
	}
}

// A half shaft is straightened or skimmed only once its crack test and its splines are read: it is safety-critical.
func TestHalfShaft(t *testing.T) {
	at := target("half-shaft", "LR")
	read := func(runout, flange float64) []core.Finding {
		return []core.Finding{found("half-shaft", "LR", "runout", size(runout, "in")), found("half-shaft", "LR", "flange-runout", size(flange, "in"))}
	}
	sound := []core.Finding{found("half-shaft", "LR", "crack-test", passes(true)), found("half-shaft", "LR", "spline-twist", size(0, "deg"))}
	for _, c := range []struct {
		name     string
		findings []core.Finding
		open     []string
	}{
		{"bent, the rest not read", read(.05, .001), []string{"new-shaft"}},
		{"bent", append(read(.05, .001), sound...), []string{"straighten", "new-shaft"}},
		{"flange out", append(read(.01, .012), sound...), []string{"skim-flange", "new-shaft"}},
		{"both", append(read(.05, .012), sound...), []string{"new-shaft"}},
		{"sound", append(read(.01, .002), sound...), []string{"reuse", "straighten", "skim-flange", "new-shaft"}},
	} {
		now, _ := open(t, assess(t, c.findings...), at)
		require.Equal(t, c.open, now, c.name)
	}
}

// A case that is safety-critical is straightened once all of it is seen, and welded apart from the spindle welds.
func TestAxleCase(t *testing.T) {
	sound := []core.Finding{found("axle-case", "", "spindle-welds", passes(true))}
	at := target("axle-case", "")
	now, _ := open(t, assess(t, append(sound, found("axle-case", "", "bend", size(.08, "in")), found("axle-case", "", "cracks", count(0)))...), at)
	require.Equal(t, []string{"straighten", "weld", "other-case", "used-axle"}, now)
	now, _ = open(t, assess(t, append(sound, found("axle-case", "", "bend", size(.01, "in")), found("axle-case", "", "cracks", count(2)))...), at)
	require.Equal(t, []string{"weld", "other-case", "used-axle"}, now)
}

// What is one job is one operation: a new pair brings the bearings, the bearings bring seals and shims, never both.
func TestSharedWork(t *testing.T) {
	a := assess(t)
	includes := map[string][]string{}
	for _, o := range a.Operations {
		includes[o.ID] = o.Includes
	}
	require.Equal(t, []string{"bearings-overhaul"}, includes["crown-wheel-and-pinion"])
	require.ElementsMatch(t, []string{"reseal-and-reset", "re-shim"}, includes["bearings-overhaul"])
	require.Equal(t, []string{"thrust-washers"}, includes["differential-gears"])
	for _, r := range a.Remedies {
		if r.Target == target("drive-flange", "LR") && r.ID == "with-shaft" {
			require.Equal(t, []string{"replace-drive-flange/LR", "replace-half-shaft/LR"}, r.Operations)
			require.Equal(t, []core.RemedyRef{{Target: target("half-shaft", "LR"), Remedy: "new-shaft"}}, r.Requires)
		}
		require.Equal(t, r.ID == "used-axle", r.PinOnly, "%s %s", r.Target, r.ID)
	}
}

// One part tells of another. Common practice, no source.
func TestEvidence(t *testing.T) {
	for finding, words := range map[string]string{"oil": "strip the differential", "bolts": "back face runout", "breather": "before the new seals"} {
		f := map[string]core.Finding{"oil": found("axle-oil", "", "metal-or-water", class(2)), "bolts": found("crown-wheel-bolt", "", "stretch", count(2)), "breather": found("breather", "", "clear", passes(false))}[finding]
		a := assess(t, f)
		require.Len(t, a.Problems, 1, finding)
		require.Contains(t, a.Problems[0].Next, words)
	}
}
