package fuel

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
func missing() core.Value       { return core.Value{Kind: core.ValueNotRead, NotRead: core.PartMissing} }
func size(x float64, unit string) core.Value {
	return core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: x, Unit: unit}}
}
func target(p, at string) core.Target { return core.Target{Part: p, Position: at} }

// assess asks the whole plugin about the demonstration vehicle, whose float is set at .75 in.
func assess(t *testing.T, fs ...core.Finding) core.Assessment {
	t.Helper()
	return assessWith(t, nil, fs...)
}

func assessWith(t *testing.T, overrides []core.Override, fs ...core.Finding) core.Assessment {
	t.Helper()
	p, err := sdk.New(Subsystem())
	require.NoError(t, err)
	a, err := p.Assess(context.Background(), core.AssessRequest{Unit: "vehicle", Findings: fs, Overrides: overrides,
		Facts: []core.Fact{{Name: "F", Value: size(.75, "in"), Source: "demonstration vehicle"}}})
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

// What is never used again, in no state (N18): a leaking or patched tank, a bad pipe, a hose of any age, and a float with
// fuel in it. Common practice, no source.
func TestNeverReused(t *testing.T) {
	for _, c := range []struct {
		name     string
		findings []core.Finding
		open     []string
	}{
		{"tank leaks", []core.Finding{found("fuel-tank", "", "leak", "", passes(false))}, []string{"repair-and-line", "new-tank"}},
		{"tank patched with filler", []core.Finding{found("fuel-tank", "", "patches", "", passes(false))}, []string{"repair-and-line", "new-tank"}},
		{"pipe flattened", []core.Finding{found("fuel-pipe", "tap-to-pump", "corrosion", "", class(2))}, []string{"new-pipe"}},
		{"hose gone", []core.Finding{found("fuel-hose", "tank", "always-new", "", missing())}, []string{"new"}},
		{"float bubbles", []core.Finding{found("float", "", "leak", "", passes(false))}, []string{"new-float"}},
		{"fuel in the float", []core.Finding{found("float", "", "weight-gain", "as_found", size(20.4, "g")), found("float", "", "weight-gain", "dried", size(18.2, "g"))}, []string{"new-float"}},
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

// What is always new needs no reading and has no way back, whatever is found of it.
func TestAlwaysNew(t *testing.T) {
	a := assess(t, found("needle-and-seat", "", "leak-down", "", size(0, "psi")))
	for _, at := range []core.Target{target("fuel-hose", "tank"), target("fuel-hose", "pump-inlet"), target("fuel-hose", "carburettor"), target("pump-diaphragm", ""),
		target("needle-and-seat", ""), target("carburettor-joints", ""), target("fuel-filter", ""), target("tank-felt", "")} {
		now, ever := open(t, a, at)
		require.Equal(t, []string{"new"}, now, at)
		require.Equal(t, []string{"new"}, ever, at)
	}
}

// A tank that nobody looked into is not reused on trust; rust is its register entry, and the vehicle's storage moves it.
func TestTankNotSeen(t *testing.T) {
	c := condition(t, assess(t), target("fuel-tank", ""))
	require.Equal(t, core.NotSeen, c.Grade)
	require.Len(t, c.States, 2)
	require.Equal(t, "H38", c.States[1].RegisterID)
	require.InDelta(t, .65, c.States[1].Chance, 1e-9)
	require.Contains(t, c.States[0].Remedies, "reuse")
	require.NotContains(t, c.States[1].Remedies, "reuse")
	now, _ := open(t, assess(t), target("fuel-tank", ""))
	require.NotContains(t, now, "reuse")
}

// Limits and cures of single findings; common practice, no source.
func TestWornParts(t *testing.T) {
	soundTank := []core.Finding{found("fuel-tank", "", "leak", "", passes(true)), found("fuel-tank", "", "patches", "", passes(true))}
	soundFloat := []core.Finding{found("float", "", "leak", "", passes(true)), found("float", "", "weight-gain", "as_found", size(18.2, "g")), found("float", "", "weight-gain", "dried", size(18.2, "g"))}
	for _, c := range []struct {
		name     string
		findings []core.Finding
		grade    core.Grade
		open     []string
	}{
		{"tank rusted inside, whether it leaks not seen", []core.Finding{found("fuel-tank", "", "inside-rust", "", class(2))}, core.Failed, []string{"repair-and-line", "new-tank"}},
		{"tank rusted inside", append(soundTank, found("fuel-tank", "", "inside-rust", "", class(2))), core.Failed, []string{"clean-and-line", "repair-and-line", "new-tank"}},
		{"pump weak", []core.Finding{found("fuel-pump", "", "static-pressure", "", size(1.2, "psi"))}, core.PastLimit, []string{"overhaul", "overhaul-and-arm", "new-pump"}},
		{"pump floods", []core.Finding{found("fuel-pump", "", "static-pressure", "", size(4.8, "psi"))}, core.PastLimit, []string{"overhaul", "overhaul-and-arm", "new-pump"}},
		{"rocker arm worn", []core.Finding{found("fuel-pump", "", "arm-pad-wear", "", size(.04, "in"))}, core.PastLimit, []string{"overhaul-and-arm", "new-pump"}},
		{"another carburettor fitted", []core.Finding{found("carburettor", "", "identity", "", passes(false))}, core.Failed, []string{"other-carburettor"}},
		{"spindle worn", []core.Finding{found("throttle-spindle", "", "clearance", "bore", size(.3204, "in")), found("throttle-spindle", "", "clearance", "spindle", size(.3117, "in"))},
			core.PastLimit, []string{"bush-body", "bush-body-new-spindle", "with-carburettor"}},
		{"spindle tight", []core.Finding{found("throttle-spindle", "", "clearance", "bore", size(.3125, "in")), found("throttle-spindle", "", "clearance", "spindle", size(.312, "in"))},
			core.TooTight, []string{"bush-body", "bush-body-new-spindle", "with-carburettor"}},
		{"flange bowed", []core.Finding{found("carburettor-flange", "", "bow", "", size(.3, "mm"))}, core.PastLimit, []string{"face", "with-carburettor"}},
		{"float too low", append(soundFloat, found("float", "", "level", "", size(.70, "in"))), core.TooTight, []string{"set-level", "new-float"}},
		{"float too high", append(soundFloat, found("float", "", "level", "", size(.79, "in"))), core.PastLimit, []string{"set-level", "new-float"}},
		{"sender jumps", []core.Finding{found("tank-sender", "", "resistance-error", "half", size(13, "%"))}, core.PastLimit, []string{"rewind", "rewind-to-gauge", "new-sender"}},
		{"linkage hole egged", []core.Finding{found("accelerator-joint", "pedal-rod", "elongation", "", size(.9, "mm"))}, core.PastLimit, []string{"bush", "new-lever"}},
		{"exhaust holed", []core.Finding{found("exhaust", "", "perforations", "", count(1))}, core.PastLimit, []string{"new-exhaust"}},
		{"low vacuum", []core.Finding{found("inlet-vacuum", "", "at-idle", "", size(14, "inHg"))}, core.PastLimit, []string{"trace-leak", "new-inlet-joints"}},
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

// The kit that the needle wants anyway is paid once, whatever else of the carburettor or the pump names it; a new run of
// pipe includes the hoses, which are always new.
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
	for _, p := range [][2]string{{"carburettor", "reuse"}, {"float", "reuse"}, {"float", "set-level"}, {"needle-and-seat", "new"}, {"carburettor-joints", "new"}} {
		require.Equal(t, []string{"carburettor-overhaul"}, names(p[0], p[1]), p)
	}
	require.Equal(t, []string{"pump-overhaul"}, names("fuel-pump", "overhaul"))
	require.Equal(t, []string{"pump-overhaul"}, names("pump-diaphragm", "new"))
	require.Equal(t, names("throttle-spindle", "bush-body"), names("carburettor-flange", "face"))
	for _, o := range a.Operations {
		if o.ID == "pipes-and-hoses" {
			require.Equal(t, []string{"hoses-and-seals"}, o.Includes)
		}
	}
}
