package clutch

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

func assess(t *testing.T, fs ...core.Finding) core.Assessment {
	t.Helper()
	p, err := sdk.New(Subsystem())
	require.NoError(t, err)
	var facts []core.Fact
	for name, v := range map[string]core.Value{"D": size(11, "in"), "P": size(130, "lbf"), "T_plate": size(.56, "in"), "T_step": size(.75, "in")} {
		facts = append(facts, core.Fact{Name: name, Value: v, Source: "demonstration clutch"})
	}
	a, err := p.Assess(context.Background(), core.AssessRequest{Unit: "engine", Facts: facts, Findings: fs})
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

// soundFlywheel is a flywheel of which all is read and good, with this runout and this step.
func soundFlywheel(runout, step float64) []core.Finding {
	f := found("flywheel", "", "metal-removed", size(step, "in"))
	f.Station = "step"
	return []core.Finding{found("flywheel", "", "face-runout", size(runout, "in")), f, found("flywheel", "", "heat-cracks", class(1)), found("flywheel", "", "bolt-hole-cracks", passes(true))}
}

// What is never used again, in no state: a flywheel cracked to a bolt hole (N24), an oil-soaked lining, a loose ring
// gear, a flywheel ground too deep. Common practice.
func TestNeverReused(t *testing.T) {
	for _, c := range []struct {
		name    string
		finding core.Finding
		open    []string
	}{
		{"crack to a bolt hole", found("flywheel", "", "bolt-hole-cracks", passes(false)), []string{"another-flywheel"}},
		{"radial crack in the face", found("flywheel", "", "heat-cracks", class(3)), []string{"another-flywheel"}},
		{"face too deep already", found("flywheel", "", "metal-removed", size(.045, "in")), []string{"another-flywheel"}},
		{"loose ring gear", found("ring-gear", "", "tight", passes(false)), []string{"new-ring"}},
		{"oil on the linings", found("driven-plate", "", "contamination", class(1)), []string{"new-plate"}},
		{"oil-soaked linings", found("driven-plate", "", "contamination", class(3)), []string{"new-plate"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			a := assess(t, c.finding)
			require.Equal(t, core.Failed, condition(t, a, c.finding.Target).Grade)
			now, ever := open(t, a, c.finding.Target)
			require.Equal(t, c.open, now)
			require.NotContains(t, ever, "reuse")
			require.NotContains(t, ever, "face")
		})
	}
}

// Beside sound readings too, a rule closes what is not a replacement.
func TestNeverReusedBesideSoundReadings(t *testing.T) {
	fs := soundFlywheel(.002, .752)
	fs[3] = found("flywheel", "", "bolt-hole-cracks", passes(false))
	now, ever := open(t, assess(t, fs...), flywheel)
	require.Equal(t, []string{"another-flywheel"}, now)
	require.Equal(t, now, ever)
}

func TestWornParts(t *testing.T) {
	at := func(part, position, check string, v core.Value) core.Finding { return found(part, position, check, v) }
	for _, c := range []struct {
		name    string
		finding core.Finding
		open    []string
	}{
		{"plate bent", at("driven-plate", "", "runout", size(.035, "in")), []string{"new-plate"}},
		{"damper spring broken", at("driven-plate", "", "damper-springs", count(1)), []string{"new-plate"}},
		{"pressure plate dished", at("pressure-plate", "", "flatness", size(.008, "in")), []string{"reface", "new-cover"}},
		{"pressure plate cracked", at("pressure-plate", "", "heat-cracks", class(2)), []string{"new-cover"}},
		{"spring soft", at("clutch-spring", "S4", "load", size(112, "lbf")), []string{"new-springs"}},
		{"lever heights", at("release-levers", "", "height-spread", size(.03, "in")), []string{"set", "new-levers"}},
		{"lever pins", at("release-levers", "", "pins", class(2)), []string{"new-levers"}},
		{"ring gear chewed", at("ring-gear", "", "damaged-teeth", count(9)), []string{"turn", "new-ring"}},
		{"housing out of line", at("bell-housing", "", "bore-runout", size(.014, "in")), []string{"offset-dowels", "align-and-true", "another-housing"}},
		{"housing face out of square", at("bell-housing", "", "face-runout", size(.012, "in")), []string{"true-face", "align-and-true", "another-housing"}},
		{"fork worn", at("release-fork", "", "pad-wear", size(.05, "in")), []string{"build-up", "another-fork"}},
		{"bush worn", at("cross-shaft-bush", "left", "clearance", size(.015, "in")), []string{"new-bush"}},
		{"bush too tight", at("cross-shaft-bush", "right", "clearance", size(.0005, "in")), []string{"new-bush"}},
		{"clevis egged", at("clevis", "fork-lever", "hole-elongation", size(.05, "in")), []string{"bush", "new-clevis"}},
		{"no free travel", at("clutch-pedal", "", "free-travel", size(.25, "in")), []string{"adjust", "another-pedal"}},
		{"too much free travel", at("clutch-pedal", "", "free-travel", size(2, "in")), []string{"adjust", "another-pedal"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			now, _ := open(t, assess(t, c.finding), c.finding.Target)
			require.Equal(t, c.open, now)
		})
	}
}

// A flywheel near its limit is safety-critical: it is faced, not used again. Worked example, common practice.
func TestFlywheelNearItsLimitIsFaced(t *testing.T) {
	a := assess(t, soundFlywheel(.006, .755)...)
	require.Equal(t, core.NearLimit, condition(t, a, flywheel).Grade)
	now, _ := open(t, a, flywheel)
	require.Equal(t, []string{"face", "another-flywheel"}, now)
	a = assess(t, soundFlywheel(.002, .755)...)
	now, _ = open(t, a, flywheel)
	require.Contains(t, now, "reuse")
}

// Facing that takes the face past .040 in stays open, at the middling risk (common practice, no source).
func TestFacingPastTheLimitIsAGreaterRisk(t *testing.T) {
	r := remedy(t, assess(t, soundFlywheel(.006, .760)...), flywheel, "face")
	require.InDelta(t, .03, r.ResidualChance, 1e-9)
	require.Contains(t, r.Why[len(r.Why)-1].Text, "0.01 in is gone from the face and about 0.006 in has to come off: 0.016 in together")
	r = remedy(t, assess(t, soundFlywheel(.006, .786)...), flywheel, "face")
	require.True(t, r.Feasible)
	require.InDelta(t, .10, r.ResidualChance, 1e-9)
	r = remedy(t, assess(t, soundFlywheel(.001, .784)...), flywheel, "face")
	require.InDelta(t, .03, r.ResidualChance, 1e-9, "a least cut of .005 stays within .040")
}

// One soft spring condemns the set; the cover is opened once for springs, levers and lining.
func TestSharedWork(t *testing.T) {
	a := assess(t)
	for _, r := range [][2]string{{"pressure-plate", "reface"}, {"driven-plate", "reline"}, {"release-levers", "new-levers"}} {
		require.Equal(t, []string{"clutch-overhaul"}, remedy(t, a, core.Target{Part: r[0]}, r[1]).Operations)
	}
	for _, r := range []core.RemedyRef{{Target: core.Target{Part: "cross-shaft-bush", Position: "left"}, Remedy: "new-bush"}, {Target: core.Target{Part: "clevis", Position: "pedal"}, Remedy: "bush"},
		{Target: core.Target{Part: "release-fork"}, Remedy: "build-up"}} {
		require.Equal(t, []string{"linkage-overhaul"}, remedy(t, a, r.Target, r.Remedy).Operations)
	}
	includes := map[string][]string{}
	for _, o := range a.Operations {
		includes[o.ID] = o.Includes
	}
	require.Equal(t, []string{"new-springs", "set-levers"}, includes["clutch-overhaul"])
	require.Equal(t, []string{"new-plate", "new-springs", "set-levers", "release-bearing"}, includes["new-clutch"])
	require.Equal(t, []string{"face-flywheel"}, includes["replace-flywheel"])
}

// As many springs as the cover has, nine if nobody says.
func TestSpringsAreCounted(t *testing.T) {
	p, err := sdk.New(Subsystem())
	require.NoError(t, err)
	s, _, err := p.Describe(context.Background(), nil)
	require.NoError(t, err)
	require.Len(t, s.Part("clutch-spring").Positions, 9)
	s, _, err = p.Describe(context.Background(), []core.Fact{{Name: "springs", Value: count(6), Source: "counted"}})
	require.NoError(t, err)
	require.Equal(t, []string{"S1", "S2", "S3", "S4", "S5", "S6"}, s.Part("clutch-spring").Positions)
}

// What a worn part tells of its neighbours is said, once, and only then.
func TestEvidenceIsTold(t *testing.T) {
	a := assess(t, found("driven-plate", "", "contamination", class(2)), found("driven-plate", "", "hub-backlash", size(.05, "in")), found("spigot-bush", "", "clearance", size(.008, "in")), found("ring-gear", "", "damaged-teeth", count(8)))
	require.Len(t, a.Problems, 4)
	for i, next := range []string{"find the leak", "clutch splines", "sweep the bell housing", "starter's pinion"} {
		require.Contains(t, fmt.Sprint(a.Problems[0].Next, a.Problems[1].Next, a.Problems[2].Next, a.Problems[3].Next), next, i)
	}
	require.Empty(t, assess(t, found("driven-plate", "", "contamination", class(0)), found("spigot-bush", "", "clearance", size(.005, "in")), found("ring-gear", "", "damaged-teeth", count(6))).Problems)
}

// Bush and bearing together come to one piece of work, .5/.8/1.2 h and 20/45/110; a cover that brings its own bearing leaves
// the bush to be paid (common practice, no source).
func TestSpigotBushAndReleaseBearing(t *testing.T) {
	var hours core.Range3
	each := map[string]core.Money3{}
	for _, o := range assess(t).Operations {
		if o.ID == "spigot-bush" || o.ID == "release-bearing" {
			hours = core.Range3{Low: hours.Low + o.Hours.Low, Likely: hours.Likely + o.Hours.Likely, High: hours.High + o.Hours.High}
			each[o.ID] = o.Items[0].TypicalEach
		}
	}
	require.InDeltaSlice(t, []float64{.5, .8, 1.2}, []float64{hours.Low, hours.Likely, hours.High}, 1e-9)
	require.Equal(t, core.Money3{Low: "7", Likely: "15", High: "35", Currency: "USD"}, each["spigot-bush"])
	require.Equal(t, core.Money3{Low: "13", Likely: "30", High: "75", Currency: "USD"}, each["release-bearing"])
}
