package plugins_test

import (
	"context"
	"slices"
	"testing"
	"time"

	"github.com/fettle-tools/fettle/configs"
	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/budget"
	"github.com/fettle-tools/fettle/core/config"
	"github.com/fettle-tools/fettle/core/decide"
	"github.com/fettle-tools/fettle/core/sdk"
	"github.com/fettle-tools/fettle/plugins/electrics"
	"github.com/fettle-tools/fettle/plugins/fuel"
	"github.com/stretchr/testify/require"
)

// packhorse is the pack of the demonstration vehicle, with the sets that lie across subsystems.
func packhorse(t *testing.T) core.Pack {
	t.Helper()
	const name = "packs/packhorse.yaml"
	data, err := configs.Files.ReadFile(name)
	require.NoError(t, err)
	p, err := config.ReadPack(data, name)
	require.NoError(t, err)
	return p
}

// pairPlan is the plan of fuel and electrics together, with the findings given.
func pairPlan(t *testing.T, findings ...core.Finding) core.Plan {
	t.Helper()
	data, err := configs.Files.ReadFile("strip/generic.yaml")
	require.NoError(t, err)
	strip, err := config.ReadStripPlan(data, "strip/generic.yaml")
	require.NoError(t, err)
	pack := packhorse(t)
	rate, err := core.NewMoney("85", "USD")
	require.NoError(t, err)
	req := core.PlanRequest{
		Job:   core.Job{Number: "J-001", Vehicle: &core.Vehicle{Title: "a truck"}, Seed: 7, Extent: core.Extent{Kind: core.ExtentAsNeeded}, Brief: core.Brief{HorizonKM: 20000, HorizonYears: 10}},
		Strip: strip, VehiclePack: &pack, Findings: findings, Trials: 200,
		Terms: core.Terms{Currency: "USD", Rates: []core.Rate{{Skill: "mechanic", Hour: rate}}, Today: time.Date(2026, 11, 1, 0, 0, 0, 0, time.UTC),
			Taxes: []core.Tax{{Class: "labour", Percent: "0", Name: "none"}, {Class: "parts", Percent: "0", Name: "none"}, {Class: "outwork", Percent: "0", Name: "none"}}},
	}
	p := core.Planner{Decider: decide.Solver{}, Budgeter: budget.Simulator{}}
	for name, s := range map[string]sdk.Subsystem{"fuel": fuel.Subsystem(), "electrics": electrics.Subsystem()} {
		a, err := sdk.New(s)
		require.NoError(t, err)
		p.Assessors = append(p.Assessors, core.Named{Subsystem: name, Assessor: a})
	}
	out, err := p.Plan(context.Background(), req)
	require.NoError(t, err)
	return out
}

// Gauge and sender are one pair: whichever of the two is changed takes the other with it, and both mended are mended for each other
// (common practice, no source).
func TestGaugeAndSenderArePaired(t *testing.T) {
	percent := func(x float64) core.Value {
		return core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: x, Unit: "%"}}
	}
	missing := core.Value{Kind: core.ValueNotRead, NotRead: core.PartMissing}
	gauge := func(v core.Value) []core.Finding {
		return []core.Finding{{ID: "gauge", Subsystem: "electrics", Unit: "vehicle", Target: core.Target{Part: "fuel-gauge"}, Check: "error", Value: v}}
	}
	sender := func(v core.Value) (fs []core.Finding) {
		for _, station := range []string{"empty", "half", "full"} {
			fs = append(fs, core.Finding{ID: "sender-" + station, Subsystem: "fuel", Unit: "vehicle", Target: core.Target{Part: "tank-sender"}, Check: "resistance-error", Station: station, Value: v})
		}
		return fs
	}
	for _, c := range []struct {
		name                  string
		gauge, sender         core.Value
		wantGauge, wantSender []string
	}{
		{"both read right", percent(3), percent(2), []string{"reuse"}, []string{"reuse"}},
		{"both past their limit", percent(14), percent(13), []string{"repair", "other-gauge"}, []string{"rewind", "new-sender"}},
		{"the sender is missing", percent(3), missing, []string{"calibrate-to-sender", "other-gauge"}, []string{"new-sender"}},
		{"the gauge is missing", missing, percent(2), []string{"other-gauge"}, []string{"rewind-to-gauge", "new-sender"}},
		{"both are missing", missing, missing, []string{"other-gauge"}, []string{"new-sender"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := pairPlan(t, append(gauge(c.gauge), sender(c.sender)...)...)
			g, s := chosen(t, p, "fuel-gauge"), chosen(t, p, "tank-sender")
			require.Contains(t, c.wantGauge, g)
			require.Contains(t, c.wantSender, s)
			require.Equal(t, slices.Contains([]string{"reuse", "repair"}, g), slices.Contains([]string{"reuse", "rewind"}, s), "as fitted, or paired anew: %s beside %s", g, s)
		})
	}
	// A sender that nobody looked at yet will not be used again beside another gauge, whatever is found.
	require.NotContains(t, chosen(t, pairPlan(t, gauge(missing)...), "tank-sender"), "reuse")
}

func chosen(t *testing.T, p core.Plan, part string) string {
	t.Helper()
	for _, c := range p.Choices {
		if c.Part == part {
			return c.Remedy
		}
	}
	t.Fatalf("no choice for %s", part)
	return ""
}
