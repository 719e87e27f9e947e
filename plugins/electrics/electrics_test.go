package electrics

import (
	"context"
	"fmt"
	"testing"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
	"github.com/stretchr/testify/require"
)

func found(part, position, check, station string, v core.Value) core.Finding {
	return core.Finding{ID: fmt.Sprint(part, "/", position, "/", check, "/", station), Target: target(part, position), Check: check, Station: station, Value: v, AsTyped: v.String()}
}

func passes(ok bool) core.Value { return core.Value{Kind: core.ValuePass, Pass: ok} }
func class(n int) core.Value    { return core.Value{Kind: core.ValueClass, Class: n} }
func count(n int) core.Value    { return core.Value{Kind: core.ValueCount, Count: n} }
func size(x float64, unit string) core.Value {
	return core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: x, Unit: unit}}
}
func target(p, at string) core.Target { return core.Target{Part: p, Position: at} }

// assess asks the whole plugin about the demonstration vehicle.
func assess(t *testing.T, fs ...core.Finding) core.Assessment {
	t.Helper()
	p, err := sdk.New(Subsystem())
	require.NoError(t, err)
	var facts []core.Fact
	for _, f := range []struct {
		name string
		in   float64
	}{{"L_dynamo", .75}, {"L_starter", .625}, {"D_dynamo", 1.5}} {
		facts = append(facts, core.Fact{Name: f.name, Value: size(f.in, "in"), Source: "demonstration vehicle"})
	}
	a, err := p.Assess(context.Background(), core.AssessRequest{Unit: "vehicle", Findings: fs, Facts: facts})
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

// fact is something worked out for a target; ok is false if it was not.
func fact(t *testing.T, a core.Assessment, at core.Target, name string) (value float64, ok bool) {
	t.Helper()
	for _, f := range condition(t, a, at).Facts {
		if f.Name == name {
			return f.Value.Quantity.Value, true
		}
	}
	return 0, false
}

// open lists the remedies that are feasible now, and those of any state.
func open(t *testing.T, a core.Assessment, at core.Target) (now, ever []string) {
	t.Helper()
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

// What is never used again, in no state (N25): cracked insulation, most of all near fuel, circuits without a fuse, a bodged
// fuse. Common practice, no source.
func TestNeverReused(t *testing.T) {
	for _, c := range []struct {
		name     string
		findings []core.Finding
		open     []string
	}{
		{"cracked near fuel", []core.Finding{found("harness-branch", "rear", "near-fuel", "", passes(false))}, []string{"with-harness"}},
		{"cracked, away from fuel", []core.Finding{found("harness-branch", "dash", "insulation", "", class(2)), found("harness-branch", "dash", "near-fuel", "", passes(true))},
			[]string{"repair", "with-harness"}},
		{"circuit without a fuse", []core.Finding{found("harness", "", "unfused-circuits", "", count(1)), found("harness", "", "added-circuits", "", count(2)),
			found("harness", "", "insulation-to-earth", "", size(20, "Mohm"))}, []string{"take-out-added", "new-harness"}},
		{"foil round the fuse", []core.Finding{found("fuse", "main", "rating", "", passes(false))}, []string{"new-fuse"}},
		{"battery cable chafed", []core.Finding{found("battery-cables", "", "insulation", "", class(2))}, []string{"new-cables"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			a := assess(t, c.findings...)
			at := c.findings[0].Target
			require.Equal(t, core.Failed, condition(t, a, at).Grade)
			now, ever := open(t, a, at)
			require.Equal(t, c.open, now)
			require.NotContains(t, ever, "reuse")
		})
	}
}

// What can start a fire is not used again on trust.
func TestNotSeenIsNotTrusted(t *testing.T) {
	a := assess(t)
	for _, at := range []core.Target{target("harness-branch", "front"), target("harness", ""), target("fuse", "main"), target("battery-cables", "")} {
		require.Equal(t, core.NotSeen, condition(t, a, at).Grade, at)
		now, ever := open(t, a, at)
		require.NotContains(t, now, "reuse", at)
		require.Contains(t, ever, "reuse", at)
	}
	states := condition(t, a, target("harness-branch", "front")).States
	require.Equal(t, "H39", states[1].RegisterID)
	require.InDelta(t, .75, states[1].Chance, 1e-9)
}

// Limits and cures of single findings: the published ones of TM 10-3930-653-14&P (commutators, armature), TM 10-3930-671-24
// (starter circuit), TM 5-2420-230-24-2 (cables); the others common practice, no source.
func TestWornParts(t *testing.T) {
	in := func(x float64) core.Value { return size(x, "in") }
	volts := func(x float64) core.Value { return size(x, "V") }
	for _, c := range []struct {
		name     string
		findings []core.Finding
		grade    core.Grade
		open     []string
	}{
		{"commutator out of round", []core.Finding{found("dynamo-commutator", "", "out-of-round", "", in(.009))}, core.PastLimit, []string{"turn-and-undercut", "other-armature"}},
		{"commutator turned too small", []core.Finding{found("dynamo-commutator", "", "diameter-under-new", "worn", in(1.41))}, core.PastLimit, []string{"other-armature"}},
		{"shaft bent", []core.Finding{found("dynamo-armature", "", "shaft-bend", "", in(.004))}, core.PastLimit, []string{"other-armature"}},
		{"armature leaks to earth", []core.Finding{found("dynamo-armature", "", "insulation", "", size(.4, "Mohm"))}, core.PastLimit, []string{"rewind", "other-armature"}},
		{"ball bearing false brinelled", []core.Finding{found("dynamo-bearing", "drive-end", "roughness", "", class(1))}, core.Failed, []string{"new-bearing"}},
		{"brush spring soft", []core.Finding{found("dynamo-brush-spring", "earthed", "tension", "", size(13, "oz"))}, core.PastLimit, []string{"new-springs"}},
		{"brush spring too strong", []core.Finding{found("dynamo-brush-spring", "earthed", "tension", "", size(30, "oz"))}, core.TooTight, []string{"new-springs"}},
		{"charges too high", []core.Finding{found("control-box", "", "regulated-voltage", "", volts(15.8))}, core.PastLimit, []string{"set", "another"}},
		{"charges too low", []core.Finding{found("control-box", "", "regulated-voltage", "", volts(13.5))}, core.TooTight, []string{"set", "another"}},
		{"cuts in too early", []core.Finding{found("control-box", "", "cut-in", "", volts(12.4))}, core.TooTight, []string{"set", "another"}},
		{"pinion chipped", []core.Finding{found("starter-pinion", "", "damaged-teeth", "", count(3))}, core.PastLimit, []string{"new-pinion"}},
		{"cell low", []core.Finding{found("battery", "", "gravity", "C4", size(1.19, "SG"))}, core.PastLimit, []string{"charge", "new-battery"}},
		{"battery fails under load", []core.Finding{found("battery", "", "loaded-volts", "", volts(9.1))}, core.PastLimit, []string{"new-battery"}},
		{"cables drop", []core.Finding{found("battery-cables", "", "total-drop", "", volts(.6)), found("battery-cables", "", "insulation", "", class(1))}, core.PastLimit, []string{"clean-ends", "new-cables"}},
		{"points too close", []core.Finding{found("contact-points", "", "gap", "", in(.010))}, core.WornFit, []string{"new"}},
		{"distributor shaft loose", []core.Finding{found("distributor-shaft", "", "side-play", "", size(.19, "mm"))}, core.PastLimit, []string{"bush", "new-shaft"}},
		{"lobes uneven", []core.Finding{found("distributor", "", "lobe-spread", "widest", size(92.5, "deg")), found("distributor", "", "lobe-spread", "narrowest", size(88.5, "deg"))},
			core.PastLimit, []string{"bush", "new-shaft"}},
		{"coil shorted", []core.Finding{found("coil", "", "primary-resistance", "", size(1.4, "ohm"))}, core.PastLimit, []string{"new-coil"}},
		{"gauge reads wrong", []core.Finding{found("gauge", "ammeter", "error", "", size(14, "%"))}, core.PastLimit, []string{"repair", "other-gauge"}},
		{"fuel gauge reads wrong", []core.Finding{found("fuel-gauge", "", "error", "", size(14, "%"))}, core.PastLimit, []string{"repair", "calibrate-to-sender", "other-gauge"}},
		{"more circuits added than a harness bears", []core.Finding{found("harness", "", "added-circuits", "", count(4))}, core.PastLimit, []string{"new-harness"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			a := assess(t, c.findings...)
			at := c.findings[0].Target
			require.Equal(t, c.grade.String(), condition(t, a, at).Grade.String())
			now, _ := open(t, a, at)
			require.Equal(t, c.open, now)
		})
	}
}

// What is one job is one operation, and brushes that are new anyway are within the overhaul.
func TestSharedWork(t *testing.T) {
	a := assess(t)
	names := func(part, remedy string) []string {
		for _, r := range a.Remedies {
			if r.Target.Part == part && r.ID == remedy {
				return r.Operations
			}
		}
		t.Fatalf("no remedy %s of %s", remedy, part)
		return nil
	}
	require.Equal(t, names("dynamo-armature", "rewind"), names("dynamo-field", "rewind"))
	require.Equal(t, names("dynamo-commutator", "turn-and-undercut"), names("dynamo-bearing", "new-bearing"))
	require.Equal(t, names("lamp", "overhaul"), names("switch", "clean"))
	require.Equal(t, names("harness", "new-harness"), names("harness-branch", "with-harness"))
	require.Equal(t, []string{"repair-instrument/oil-pressure"}, names("gauge", "repair"), "each by itself")
	within := map[string][]string{}
	for _, o := range a.Operations {
		within[o.ID] = o.Includes
	}
	require.Equal(t, []string{"dynamo-brushes", "dynamo-brush-springs"}, within["dynamo-overhaul"])
	require.Equal(t, []string{"starter-brushes", "starter-brush-springs"}, within["starter-overhaul"])
	require.Equal(t, []string{"terminals-and-grommets"}, within["new-harness"])
}
