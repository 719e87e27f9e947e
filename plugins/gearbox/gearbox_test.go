package gearbox

import (
	"context"
	"fmt"
	"slices"
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
func inches(x float64) core.Value {
	return core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: x, Unit: "in"}}
}
func missing() core.Value             { return core.Value{Kind: core.ValueNotRead, NotRead: core.PartMissing} }
func target(p, at string) core.Target { return core.Target{Part: p, Position: at} }

func assess(t *testing.T, fs ...core.Finding) core.Assessment {
	t.Helper()
	p, err := sdk.New(Subsystem())
	require.NoError(t, err)
	a, err := p.Assess(context.Background(), core.AssessRequest{Unit: "gearbox", Findings: fs,
		Facts: []core.Fact{{Name: "L_spring", Value: inches(1.1), Source: "demonstration gearbox"}}})
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

// What is never used again, in no state: no working interlock (N20), a chipped tooth in contact, a bent or cracked
// shaft. Common practice; gears also TM 5-3810-300-24&P2.
func TestNeverReused(t *testing.T) {
	for _, c := range []struct {
		name    string
		finding core.Finding
		open    []string
	}{
		{"interlock does not work", found("interlock", "", "working", passes(false)), []string{"make-good", "new-plungers"}},
		{"interlock plunger missing", found("interlock", "", "working", missing()), []string{"new-plungers"}},
		{"tooth chipped in contact", found("gear", "third", "teeth", class(3)), []string{"replace-pair", "made-new"}},
		{"sliding gear chipped in contact", found("sliding-gear", "first-reverse", "teeth", class(3)), []string{"replace-pair", "made-new"}},
		{"bent mainshaft", found("mainshaft", "", "runout", inches(.004)), []string{"replace-shaft"}},
		{"cracked mainshaft", found("mainshaft", "", "crack", passes(false)), []string{"replace-shaft"}},
		{"cracked first-motion shaft", found("first-motion-shaft", "", "crack", passes(false)), []string{"replace-shaft", "made-shaft"}},
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

// An interlock that nobody tried is not reused on trust; what it may turn out to be keeps it.
func TestInterlockNotTried(t *testing.T) {
	a := assess(t)
	now, ever := open(t, a, target("interlock", ""))
	require.NotContains(t, now, "reuse")
	require.Contains(t, ever, "reuse")
	require.Equal(t, core.NotSeen, condition(t, a, target("interlock", "")).Grade)
	a = assess(t, found("interlock", "", "working", passes(true)))
	now, _ = open(t, a, target("interlock", ""))
	require.Contains(t, now, "reuse")
}

func TestWornParts(t *testing.T) {
	for _, c := range []struct {
		name    string
		finding core.Finding
		open    []string
	}{
		{"one roller short", found("layshaft-rollers", "", "rollers-missing", count(1)), []string{"new-rollers"}},
		{"spindle pitted", found("layshaft-spindle", "", "track-pitting", class(1)), []string{"new-spindle"}},
		{"bearing rough", found("ball-bearing", "mainshaft", "roughness", class(1)), []string{"new-bearing"}},
		{"gear of another year", found("gear-pair", "third", "identity", passes(false)), []string{"replace-pair", "made-new"}},
		{"bearing loose in the case", found("mainshaft-case-bore", "mainshaft", "looseness", inches(.002)), []string{"sleeve-bore", "replace-case"}},
		{"fork worn", found("selector-fork", "third-fourth", "side-clearance", inches(.03)), []string{"build-up", "replace-fork"}},
		{"clutch spline stepped", found("first-motion-shaft", "", "clutch-spline-step", inches(.006)), []string{"replace-shaft", "made-shaft"}},
		{"spigot worn", found("first-motion-shaft", "", "spigot-wear", inches(.003)), []string{"build-up", "build-up-and-bearing", "replace-shaft", "made-shaft"}},
		{"cluster too tight endwise", found("layshaft-cluster", "", "end-float", inches(.001)), []string{"new-washers", "replace-cluster"}},
		{"case cracked", found("case", "", "cracks", count(1)), []string{"weld-case", "replace-case", "used-gearbox"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			now, _ := open(t, assess(t, c.finding), c.finding.Target)
			require.Equal(t, c.open, now)
		})
	}
}

// What is one job is one operation: bearings, spindle, rollers, washers and rings share one full overhaul, a pair's
// gears, dogs and cone one replacement of that pair.
func TestSharedWork(t *testing.T) {
	a := assess(t)
	ops := func(part, at, remedy string) []string {
		for _, r := range a.Remedies {
			if r.Target == target(part, at) && r.ID == remedy {
				return r.Operations
			}
		}
		t.Fatalf("no remedy %s of %s/%s", remedy, part, at)
		return nil
	}
	for _, p := range [][3]string{{"ball-bearing", "output", "new-bearing"}, {"layshaft-spindle", "", "new-spindle"}, {"layshaft-rollers", "", "new-rollers"},
		{"thrust-washer", "rear", "new-washer"}, {"synchro-ring", "fourth", "new-ring"}} {
		require.Equal(t, []string{"full-overhaul"}, ops(p[0], p[1], p[2]))
	}
	for _, p := range [][2]string{{"gear", "constant"}, {"gear", "layshaft-constant"}, {"gear-pair", "constant"}, {"dog-teeth", "fourth"}, {"synchro-cone", "fourth"}} {
		require.Equal(t, []string{"replace-gear-pair/constant"}, ops(p[0], p[1], "replace-pair"))
	}
	require.Equal(t, []string{"gear-made-new/layshaft-third"}, ops("gear", "layshaft-third", "made-new"))
	for _, o := range a.Operations {
		if o.ID == "full-overhaul" {
			require.Equal(t, []string{"open-and-reseal"}, o.Includes)
		}
	}
}

// The gearbox as one unit is never exchanged by choice: only where it is pinned, with the owner's word.
func TestUsedGearboxIsOnlyPinned(t *testing.T) {
	for _, r := range assess(t).Remedies {
		require.Equal(t, r.ID == "used-gearbox", r.PinOnly, "%s %s", r.Target, r.ID)
	}
}

// A used gearbox, opened and resealed, looks cheaper than overhauling this one with a gear pair: 1,942 to 2,156. It comes in
// not seen, and with the chance that its spindle, rollers and rings are worn out as well it is 2,701. The trade's worked
// example, common practice, at 85 an hour.
func TestAUsedGearboxIsNotCheaper(t *testing.T) {
	a := assess(t)
	dollars := func(m core.Money3) float64 {
		r, ok := m.Minor3("USD")
		require.True(t, ok)
		return r.Mean() / 100
	}
	expected := func(ids ...string) (sum float64) {
		for _, id := range ids {
			i := slices.IndexFunc(a.Operations, func(o core.Operation) bool { return o.ID == id })
			require.GreaterOrEqual(t, i, 0, id)
			o := a.Operations[i]
			sum += o.Hours.Mean() * 85
			if !o.Outwork.Empty() {
				sum += dollars(o.Outwork)
			}
			for _, item := range o.Items {
				sum += dollars(item.TypicalEach) * item.Count
			}
		}
		return sum
	}
	i := slices.IndexFunc(a.Remedies, func(r core.Remedy) bool { return r.ID == "used-gearbox" })
	require.GreaterOrEqual(t, i, 0)
	used := a.Remedies[i]
	bare := expected(used.Operations...)
	require.InDelta(t, 1942, bare, .5)
	require.InDelta(t, 2156, expected("full-overhaul", "replace-gear-pair/third"), .5)
	require.Equal(t, []string{"full-overhaul"}, used.CollateralOperations)
	require.InDelta(t, 2701, bare+used.ResidualChance*(expected(used.CollateralOperations...)-expected("open-and-reseal")), .5)
}
