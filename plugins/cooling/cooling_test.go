package cooling

import (
	"context"
	"fmt"
	"testing"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
	"github.com/stretchr/testify/require"
)

func found(part, position, check, station string, v core.Value) core.Finding {
	return core.Finding{ID: fmt.Sprint(part, "/", position, "/", check, "/", station), Target: core.Target{Part: part, Position: position}, Check: check, Station: station, Value: v, AsTyped: v.String()}
}

func reads(x float64, unit string) core.Value {
	return core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: x, Unit: unit}}
}
func passes(ok bool) core.Value       { return core.Value{Kind: core.ValuePass, Pass: ok} }
func class(n int) core.Value          { return core.Value{Kind: core.ValueClass, Class: n} }
func count(n int) core.Value          { return core.Value{Kind: core.ValueCount, Count: n} }
func target(p, at string) core.Target { return core.Target{Part: p, Position: at} }

func assess(t *testing.T, fs ...core.Finding) core.Assessment {
	t.Helper()
	p, err := sdk.New(Subsystem())
	require.NoError(t, err)
	a, err := p.Assess(context.Background(), core.AssessRequest{Unit: "vehicle", Findings: fs,
		Facts: []core.Fact{{Name: "P_cap", Value: reads(4, "psi"), Source: "demonstration vehicle"}}})
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

// A fan with a crack, a bend or a weld is replaced, in every state (N17: common practice, no source).
func TestFanIsNeverMended(t *testing.T) {
	for _, c := range []struct {
		name     string
		findings []core.Finding
	}{
		{"cracked", []core.Finding{found("fan", "", "cracks", "", count(1))}},
		{"bent or welded", []core.Finding{found("fan", "", "bends-and-welds", "", count(1))}},
		{"out of track", []core.Finding{found("fan", "", "track-spread", "nearest", reads(.5, "in")), found("fan", "", "track-spread", "farthest", reads(.7, "in"))}},
	} {
		t.Run(c.name, func(t *testing.T) {
			a := assess(t, c.findings...)
			require.Equal(t, core.Failed, condition(t, a, target("fan", "")).Grade)
			now, ever := open(t, a, target("fan", ""))
			require.Equal(t, []string{"replace-fan"}, now)
			require.NotContains(t, ever, "reuse")
		})
	}
}

// A fan that nobody has dyed is not run on trust.
func TestFanNotTested(t *testing.T) {
	a := assess(t, found("fan", "", "track-spread", "", reads(.03, "in")), found("fan", "", "bends-and-welds", "", count(0)))
	require.Equal(t, core.NotSeen, condition(t, a, target("fan", "")).Grade)
	now, ever := open(t, a, target("fan", ""))
	require.NotContains(t, now, "reuse")
	require.Contains(t, ever, "reuse")
}

func TestWornParts(t *testing.T) {
	for _, c := range []struct {
		name    string
		finding core.Finding
		grade   core.Grade
		open    []string
	}{
		{"radiator leaks", found("radiator", "", "pressure-drop", "", reads(2, "psi")), core.PastLimit, []string{"rod-out", "recore", "replace-radiator"}},
		{"core slow: 32 % lost", found("radiator", "", "flow-loss", "flow", reads(68, "%")), core.PastLimit, []string{"rod-out", "recore", "replace-radiator"}},
		{"tubes blocked", found("radiator", "", "tubes-blocked", "", reads(18, "%")), core.PastLimit, []string{"recore", "replace-radiator"}},
		{"patched four times", found("radiator", "", "repairs", "", count(4)), core.PastLimit, []string{"recore", "replace-radiator"}},
		{"cap blows early", found("radiator-cap", "", "opening-pressure", "", reads(2.5, "psi")), core.PastLimit, []string{"new-cap"}},
		{"cap does not blow: over 5.5 psi", found("radiator-cap", "", "opening-pressure", "", reads(7, "psi")), core.PastLimit, []string{"new-cap"}},
		{"tap snapped", found("drain-tap", "block", "works", "", passes(false)), core.Failed, []string{"new-tap"}},
		{"pump seal has wept", found("water-pump", "", "weep-hole", "", class(1)), core.Failed, []string{"rebuild", "replace-pump"}},
		{"impeller rubs", found("water-pump", "", "impeller-clearance", "", reads(.012, "in")), core.TooTight, []string{"rebuild", "replace-pump"}},
		{"pulley out of line", found("pulley", "dynamo", "misalignment", "", reads(.08, "in/ft")), core.PastLimit, []string{"shim", "replace-pulley"}},
		{"jacket sludged", found("jacket", "", "sludge", "", reads(.75, "in")), core.PastLimit, []string{"dig-out", "chemical-tank"}},
		{"gauge 14 degF out", found("temperature-gauge", "", "error", "", reads(14, "degF")), core.PastLimit, []string{"repair", "replace-gauge"}},
		{"neck dented", found("filler-neck", "", "seat", "", class(2)), core.Failed, []string{"new-neck"}},
		{"heater leaks", found("heater-matrix", "heater-1", "pressure-drop", "", reads(3, "psi")), core.PastLimit, []string{"repair", "replace-matrix"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			a := assess(t, c.finding)
			require.Equal(t, c.grade, condition(t, a, c.finding.Target).Grade)
			now, _ := open(t, a, c.finding.Target)
			require.Equal(t, c.open, now)
		})
	}
}

// A jacket that is clean is closed with new plugs; digging it out has them in its price (common practice).
func TestJacketIsDugOutOnlyIfSludged(t *testing.T) {
	a := assess(t, found("jacket", "", "sludge", "", reads(.1, "in")))
	for _, r := range a.Remedies {
		switch r.Target.Part + "#" + r.ID {
		case "jacket#reuse":
			require.Equal(t, []string{"new-core-plugs", "flush-and-hoses"}, r.Operations)
		case "core-plug#new":
			require.Equal(t, []string{"new-core-plugs"}, r.Operations)
		case "jacket#dig-out":
			require.Equal(t, []string{"dig-out-jacket"}, r.Operations)
		}
	}
	for _, o := range a.Operations {
		if o.ID == "dig-out-jacket" {
			require.Equal(t, []string{"new-core-plugs"}, o.Includes)
		}
	}
}

// Hoses, clips, belt, thermostat and joints are always new, and are one service, paid once; a new cap comes with it.
func TestOneService(t *testing.T) {
	a := assess(t, found("thermostat", "", "opening-error", "", reads(1, "degF")))
	for _, r := range a.Remedies {
		switch r.Target.Part {
		case "hose", "hose-clip", "fan-belt", "thermostat", "joint":
			require.Equal(t, "new", r.ID, r.Target)
			fallthrough
		case "radiator-cap":
			if r.ID != "reuse" {
				require.Equal(t, []string{"flush-and-hoses"}, r.Operations)
			}
		}
	}
	now, _ := open(t, a, target("thermostat", ""))
	require.Equal(t, []string{"new"}, now)
}

// A core that nobody looked into is blocked in 40 of 100 (shop experience, low confidence): rodding out does not cure that.
func TestCoreNotSeen(t *testing.T) {
	c := condition(t, assess(t), target("radiator", ""))
	require.Len(t, c.States, 2)
	past := c.States[1]
	require.InDelta(t, .40, past.Chance, 1e-9)
	require.Equal(t, "H37", past.RegisterID)
	require.NotContains(t, past.Remedies, "rod-out")
	require.Contains(t, past.Remedies, "recore")
}

// A leak does not take the reserve for a blocked core away; a core that passes its flow, or was counted, does.
func TestLeakKeepsTheCoresReserve(t *testing.T) {
	leak := found("radiator", "", "pressure-drop", "", reads(2, "psi"))
	c := condition(t, assess(t, leak), target("radiator", ""))
	require.Equal(t, core.PastLimit, c.Grade)
	require.Len(t, c.States, 2)
	require.InDelta(t, .60, c.States[0].Chance, 1e-9)
	require.Contains(t, c.States[0].Remedies, "rod-out")
	require.Equal(t, []string{"recore", "replace-radiator"}, c.States[1].Remedies)
	require.Equal(t, "H37", c.States[1].RegisterID)
	for _, seen := range []core.Finding{found("radiator", "", "flow-loss", "flow", reads(90, "%")), found("radiator", "", "tubes-blocked", "", reads(4, "%"))} {
		require.Len(t, condition(t, assess(t, leak, seen), target("radiator", "")).States, 1, seen.Check)
	}
}

// A gauge that says 172 degF where a thermometer in degC says 82 is 7.6 degF out: a difference is not converted like a
// temperature.
func TestGaugeInTwoUnits(t *testing.T) {
	a := assess(t, found("temperature-gauge", "", "error", "thermometer", reads(82, "degC")), found("temperature-gauge", "", "error", "gauge", reads(172, "degF")))
	c := condition(t, a, target("temperature-gauge", ""))
	require.Equal(t, core.NearLimit, c.Grade)
	require.InDelta(t, (7.6-5)/(10-5), *c.Wear, 1e-9)
}

// The loss of flow is 100 less what runs through, in per cent of a clean core.
func TestFlowLoss(t *testing.T) {
	a := assess(t, found("radiator", "", "flow-loss", "flow", reads(84, "%")))
	for _, f := range condition(t, a, target("radiator", "")).Facts {
		if f.Name == "flow-loss" {
			require.InDelta(t, 16, f.Value.Quantity.Value, 1e-9)
			return
		}
	}
	t.Fatal("the loss is not worked out")
}
