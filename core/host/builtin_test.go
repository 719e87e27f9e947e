package host

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/fettle-tools/fettle/cmd/fettle-subsystems/builtin"
	"github.com/fettle-tools/fettle/configs"
	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/config"
	"github.com/fettle-tools/fettle/core/sdk"
)

// packed gives the facts of the demonstration's own vehicle for a subsystem.
func packed(t *testing.T, subsystem string) []core.Fact {
	t.Helper()
	const name = "packs/packhorse.yaml"
	data, err := configs.Files.ReadFile(name)
	require.NoError(t, err)
	pack, err := config.ReadPack(data, name)
	require.NoError(t, err)
	return pack.FactsFor(subsystem)
}

// Whatever is found on the built-in subsystems' parts, the sdk's answer passes the host's checks: two workings of the
// same rules agree.
func TestTheBuiltInSubsystemsPassTheHostsChecks(t *testing.T) {
	subsystems := builtin.All()
	require.Len(t, subsystems, 18)
	for _, s := range subsystems {
		name := s.Name
		plugin, err := sdk.New(s.Subsystem())
		require.NoError(t, err)
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			found := packed(t, name)
			for _, facts := range [][]core.Fact{nil, found} {
				sheet, problems, err := plugin.Describe(t.Context(), facts)
				require.NoError(t, err)
				require.NoError(t, checkSheet(name, sheet, problems))
			}
			sheet, _, err := plugin.Describe(t.Context(), found)
			require.NoError(t, err)
			rapid.Check(t, func(t *rapid.T) {
				req := core.AssessRequest{Unit: name, Facts: found, Findings: drawFindings(t, sheet)}
				answer, err := plugin.Assess(t.Context(), req)
				require.NoError(t, err)
				require.NoError(t, checkAnswer(newIndex(sheet), req, &answer))
				for _, p := range answer.Problems {
					require.NotContains(t, p.Summary, "the host closed", "%s %s %v", p.Target, p.Check, req.Findings)
				}
			})
		})
	}
}

// Shoes with bonded linings, read as such, are judged by them, and the host takes it.
func TestBondedLiningsStandForRivetedOnes(t *testing.T) {
	i := slices.IndexFunc(builtin.All(), func(s builtin.Named) bool { return s.Name == "brakes" })
	plugin, err := sdk.New(builtin.All()[i].Subsystem())
	require.NoError(t, err)
	facts := packed(t, "brakes")
	sheet, _, err := plugin.Describe(t.Context(), facts)
	require.NoError(t, err)
	shoe := core.Target{Part: "shoe", Position: "LR"}
	req := core.AssessRequest{Unit: "brakes", Facts: facts}
	find := func(check, station string, v core.Value) {
		req.Findings = append(req.Findings, core.Finding{ID: fmt.Sprintf("f%d", len(req.Findings)+1), Subsystem: "brakes", Unit: "brakes", Target: shoe, Check: check, Station: station, Value: v})
	}
	for _, at := range []string{"leading", "trailing"} {
		find("lining-bonded", at, core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: .11, Unit: "in"}})
	}
	find("dry", "", core.Value{Kind: core.ValuePass, Pass: true})
	find("whole", "", core.Value{Kind: core.ValuePass, Pass: true})
	find("table", "", core.Value{Kind: core.ValueClass})
	answer, err := plugin.Assess(t.Context(), req)
	require.NoError(t, err)
	require.NoError(t, checkAnswer(newIndex(sheet), req, &answer))
	at := slices.IndexFunc(answer.Conditions, func(c core.Condition) bool { return c.Target == shoe })
	require.Equal(t, core.WornFit, answer.Conditions[at].Grade)
	require.Equal(t, "lining", answer.Conditions[at].GoverningCheck)
}

// drawFindings finds something, or why there is nothing, on some of the sheet's parts.
func drawFindings(t *rapid.T, sheet core.Sheet) (fs []core.Finding) {
	for _, part := range sheet.Parts {
		for _, target := range part.Targets() {
			for _, check := range part.Checks {
				for _, station := range append(check.Stations, "") {
					if station == "" && len(check.Stations) > 0 || rapid.IntRange(0, 3).Draw(t, "skip") == 0 {
						continue
					}
					fs = append(fs, core.Finding{ID: fmt.Sprintf("f%d", len(fs)+1), Subsystem: sheet.Subsystem, Unit: sheet.Subsystem,
						Target: target, Check: check.ID, Station: station, Value: drawValue(t, check)})
				}
			}
		}
	}
	return fs
}

func drawValue(t *rapid.T, c core.Check) core.Value {
	if rapid.IntRange(0, 15).Draw(t, "not read") == 0 {
		return core.Value{Kind: core.ValueNotRead, NotRead: rapid.SampledFrom(core.NotReadWords).Draw(t, "why")}
	}
	switch c.Kind {
	case core.Counted, core.OneUse:
		return core.Value{Kind: core.ValueCount, Count: rapid.IntRange(0, 4).Draw(t, "count")}
	case core.Judged:
		return core.Value{Kind: core.ValueClass, Class: rapid.IntRange(0, 3).Draw(t, "class")}
	case core.GoNoGo:
		return core.Value{Kind: core.ValuePass, Pass: rapid.IntRange(0, 9).Draw(t, "pass") > 0}
	}
	low, high := 0.0, 1.0
	if c.PlausibleLow != nil && c.PlausibleHigh != nil {
		low, high = *c.PlausibleLow, *c.PlausibleHigh
	}
	bound := rapid.SampledFrom([]float64{0, (high - low) / 200, (high - low) / 10}).Draw(t, "bound")
	return core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: rapid.Float64Range(low, high).Draw(t, "x"), Unit: c.Unit, Bound: bound}}
}
