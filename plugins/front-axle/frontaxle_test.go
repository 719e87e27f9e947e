package frontaxle

import (
	"context"
	"strings"
	"testing"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
	"github.com/stretchr/testify/require"
)

func target(place string) core.Target {
	part, position, _ := strings.Cut(place, "/")
	return core.Target{Part: part, Position: position}
}

func found(place, check string, v core.Value) core.Finding {
	return core.Finding{ID: place + "/" + check, Target: target(place), Check: check, Value: v, AsTyped: v.String()}
}

func at(station string, f core.Finding) core.Finding {
	f.Station, f.ID = station, f.ID+"@"+station
	return f
}

func passes(ok bool) core.Value { return core.Value{Kind: core.ValuePass, Pass: ok} }
func class(n int) core.Value    { return core.Value{Kind: core.ValueClass, Class: n} }
func count(n int) core.Value    { return core.Value{Kind: core.ValueCount, Count: n} }
func word(w string) core.Value  { return core.Value{Kind: core.ValueWord, Word: w} }
func missing() core.Value       { return core.Value{Kind: core.ValueNotRead, NotRead: core.PartMissing} }
func size(x float64, unit string) core.Value {
	return core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: x, Unit: unit}}
}

type answer struct {
	t *testing.T
	core.Assessment
}

func assess(t *testing.T, facts []core.Fact, fs ...core.Finding) answer {
	t.Helper()
	p, err := sdk.New(Subsystem())
	require.NoError(t, err)
	a, err := p.Assess(context.Background(), core.AssessRequest{Unit: "front-axle", Facts: facts, Findings: fs})
	require.NoError(t, err)
	return answer{t, a}
}

func (a answer) condition(place string) core.Condition {
	a.t.Helper()
	for _, c := range a.Conditions {
		if c.Target == target(place) {
			return c
		}
	}
	a.t.Fatalf("no condition of %s", place)
	return core.Condition{}
}

func (a answer) remedy(place, id string) core.Remedy {
	a.t.Helper()
	for _, r := range a.Remedies {
		if r.Target == target(place) && r.ID == id {
			return r
		}
	}
	a.t.Fatalf("no remedy %s of %s", id, place)
	return core.Remedy{}
}

// open lists the remedies that are feasible now, and those of any state.
func (a answer) open(place string) (now, ever []string) {
	for _, r := range a.Remedies {
		if r.Target == target(place) && r.Feasible {
			now = append(now, r.ID)
		}
	}
	for _, s := range a.condition(place).States {
		ever = append(ever, s.Remedies...)
	}
	return now, ever
}

// What is never used again, in no state: a steering arm that is cracked, bent or has a worn eye, and its studs (N01), a
// swivel pin or stub axle with a crack or worn past its limit (N04), a cracked or twisted shaft (N22), old locking pieces
// (N23), a cracked housing, a ball pitted in the track of its seal, a mismatched pair, a chipped tooth, a blued gear.
// Common practice; locking wire also NAVEDTRA 14014.
func TestNeverReused(t *testing.T) {
	for _, c := range []struct {
		name    string
		finding core.Finding
		open    []string
	}{
		{"arm cracked", found("steering-arm/LF", "crack-test", passes(false)), []string{"new-arm"}},
		{"arm bent or welded", found("steering-arm/RF", "straight", passes(false)), []string{"new-arm"}},
		{"eye out of round", found("steering-arm/RF", "eye", class(1)), []string{"new-arm"}},
		{"studs missing", found("swivel-bolt/LF", "", missing()), []string{"new"}},
		{"pin cracked", found("swivel-pin/LF", "root", passes(false)), []string{"new-pin"}},
		{"pin worn in its bush", found("swivel-pin/LF", "bush-clearance", size(.012, "in")), []string{"new-pin"}},
		{"stub axle cracked at its root", found("stub-axle/RF", "root", passes(false)), []string{"new-stub-axle"}},
		{"stub axle worn at a seat", found("stub-axle/RF", "seat-wear", size(.003, "in")), []string{"new-stub-axle"}},
		{"inner shaft cracked", found("inner-shaft/LF", "crack-test", passes(false)), []string{"new-shaft"}},
		{"inner shaft twisted", found("inner-shaft/LF", "spline-twist", size(1, "deg")), []string{"new-shaft"}},
		{"stub shaft cracked", found("stub-shaft/RF", "crack-test", passes(false)), []string{"new-shaft"}},
		{"tab washer missing", found("lock-tab/LF", "", missing()), []string{"new"}},
		{"split pin missing", found("split-pin/LF", "", missing()), []string{"new"}},
		{"pinion nut missing", found("pinion-nut", "", missing()), []string{"new"}},
		{"housing cracked", found("knuckle-housing/LF", "crack-test", passes(false)), []string{"new-housing"}},
		{"ball pitted", found("swivel-ball/RF", "seal-track", class(2)), []string{"replate", "new-ball"}},
		{"pair numbers differ", found("crown-wheel-pinion", "pair-marks", passes(false)), []string{"new-pair"}},
		{"tooth chipped", found("final-gear/pinion", "teeth", class(3)), []string{"new-pair"}},
		{"gear blued", found("final-gear/crown-wheel", "heat-colour", passes(false)), []string{"new-pair"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			a := assess(t, nil, c.finding)
			require.Equal(t, core.Failed, a.condition(c.finding.Target.String()).Grade)
			now, ever := a.open(c.finding.Target.String())
			require.Equal(t, c.open, now)
			require.NotContains(t, ever, "reuse")
		})
	}
}

func TestWornParts(t *testing.T) {
	for _, c := range []struct {
		name     string
		findings []core.Finding
		open     []string
	}{
		{"swivel loose", []core.Finding{found("swivel-bearings/LF", "rolling-torque", size(9, "lbf-in"))}, []string{"re-shim", "new-bearings"}},
		{"swivel too tight", []core.Finding{found("swivel-bearings/LF", "rolling-torque", size(75, "lbf-in"))}, []string{"re-shim", "new-bearings"}},
		{"race dented", []core.Finding{found("lower-swivel-bearing/RF", "condition", class(1))}, []string{"new-bearing"}},
		{"play up and down, the rest sound", []core.Finding{found("knuckle/LF", "vertical-play", size(.02, "in")), found("knuckle/LF", "camber-change", size(.05, "deg"))}, []string{"re-shim", "new-bearings"}},
		{"rocks", []core.Finding{found("knuckle/LF", "camber-change", size(.3, "deg"))}, []string{"new-bearings"}},
		{"joint slack", []core.Finding{found("axle-joint/LF", "rotational-play", size(.03, "in"))}, []string{"rebuild", "new-joint"}},
		{"cage cracked", []core.Finding{found("axle-joint/LF", "tracks", class(3))}, []string{"new-joint"}},
		{"stub shaft worn, not cracked", []core.Finding{found("stub-shaft/LF", "journal-wear", size(.004, "in")), found("stub-shaft/LF", "crack-test", passes(true))}, []string{"build-up", "new-shaft"}},
		{"drive spline worn", []core.Finding{found("drive-flange/RF", "spline-backlash", size(.012, "in"))}, []string{"with-shaft"}},
		{"camber past its limit", []core.Finding{found("wheel-angles/RF", "camber", size(3, "deg"))}, []string{"straighten", "bent-part"}},
		{"castor lost", []core.Finding{found("wheel-angles/RF", "castor", size(.5, "deg"))}, []string{"wedges", "bent-part"}},
		{"over-lock", []core.Finding{found("steering-stop/LF", "lock-angle", size(33, "deg"))}, []string{"set-stops", "new-stop"}},
		{"tyre rubs", []core.Finding{found("steering-stop/RF", "tyre-clearance", size(.5, "in"))}, []string{"set-stops", "new-stop"}},
		{"tube bent, no cracks", []core.Finding{found("axle-tube", "bend", size(.2, "in")), found("axle-tube", "cracks", count(0))}, []string{"straighten", "weld", "new-case"}},
		{"tube cracked", []core.Finding{found("axle-tube", "bend", size(0, "in")), found("axle-tube", "cracks", count(1))}, []string{"weld", "new-case"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			now, ever := assess(t, nil, c.findings...).open(c.findings[0].Target.String())
			require.Equal(t, c.open, now)
			require.NotContains(t, ever, "reuse")
		})
	}
}

// Gaps .031 and .035, mean .033, pack .029: two of .010 and three of .003; then 40 to 60 lbf-in with seal and link off.
// Worked example of the trade by the way of TM 5-3825-226-24.
func TestCoverPack(t *testing.T) {
	gaps := []core.Finding{at("A", found("upper-pack/LF", "cover-gap", size(.031, "in"))), at("B", found("upper-pack/LF", "cover-gap", size(.035, "in")))}
	a := assess(t, nil, gaps...)
	facts := a.condition("upper-pack/LF").Facts
	require.Len(t, facts, 1)
	require.InDelta(t, .029, facts[0].Value.Quantity.Value, 1e-9)
	name := a.remedy("upper-pack/LF", "new-pack").Name
	for _, words := range []string{"mean gap 0.033 less 0.004", "pack 0.029 = 2 x 0.01 + 3 x 0.003", "thicker pack = more end float, less preload", "rolling torque 40 to 60 lbf-in, seal and link off"} {
		require.Contains(t, name, words)
	}
	other := []core.Fact{{Name: "swivel_pack", Value: word("thicker-is-tighter"), Source: "workshop book"}}
	a = assess(t, other, gaps...)
	require.Empty(t, a.condition("upper-pack/LF").Facts)
	require.Contains(t, a.Problems[0].Next, "by its rolling torque")
	unknown := []core.Fact{{Name: "swivel_pack", Value: word("no idea"), Source: "nobody"}}
	require.Contains(t, assess(t, unknown, gaps...).Problems[0].Next, "swivel_pack")
	few := []core.Fact{{Name: "shim_sizes", Value: word("sizes .010 .020"), Source: "the drawer"}}
	require.Contains(t, assess(t, few, gaps...).Problems[0].Next, "get other shims")
}

// Too high adds shim, too low takes it out, .003 at a time (TM 5-3825-226-24); where thicker is tighter it is the other way.
func TestRollingTorqueSaysWhichWay(t *testing.T) {
	tighter := []core.Fact{{Name: "swivel_pack", Value: word("thicker-is-tighter"), Source: "workshop book"}}
	for _, c := range []struct {
		facts []core.Fact
		x     float64
		words string
	}{{nil, 75, "add shim, 0.003 in at a time"}, {nil, 9, "take shim out, 0.003 in at a time"}, {tighter, 75, "take shim out"}, {tighter, 9, "add shim"}} {
		why := assess(t, c.facts, found("swivel-bearings/RF", "rolling-torque", size(c.x, "lbf-in"))).remedy("swivel-bearings/RF", "re-shim").Why
		require.Contains(t, why[len(why)-1].Text, c.words)
	}
}

// Left and right are compared by what both wheels read: .5 deg is as new, over .75 a part is bent. Common practice, no source.
func TestAnglesCompared(t *testing.T) {
	angles := func(left, right float64) answer {
		return assess(t, nil, found("wheel-angles/LF", "camber", size(left, "deg")), found("wheel-angles/RF", "camber", size(right, "deg")),
			found("wheel-angles/LF", "castor", size(3, "deg")), found("wheel-angles/RF", "castor", size(2.8, "deg")))
	}
	require.Equal(t, core.WithinNew, angles(1.2, 1.6).condition("axle-alignment").Grade)
	require.Equal(t, core.NearLimit, angles(1.2, 1.9).condition("axle-alignment").Grade)
	a := angles(1, 1.9)
	require.Equal(t, core.PastLimit, a.condition("axle-alignment").Grade)
	now, _ := a.open("axle-alignment")
	require.Equal(t, []string{"straighten", "new-case"}, now)
	written := assess(t, nil, found("axle-alignment", "camber-difference", size(.9, "deg")), found("wheel-angles/LF", "camber", size(1.5, "deg")), found("wheel-angles/RF", "camber", size(1.5, "deg")))
	require.Equal(t, core.PastLimit, written.condition("axle-alignment").Grade)
}

// As at the rear, the bearings are judged as found: 6 lbf-in is as new, though 8 is the floor of those shimmed again; the
// pair yields its ratio. Common practice, no source.
func TestFinalDrive(t *testing.T) {
	facts := []core.Fact{{Name: "crown_teeth", Value: count(43), Source: "workshop notes"}, {Name: "pinion_teeth", Value: count(9), Source: "workshop notes"}}
	a := assess(t, facts, found("pinion-bearings", "rolling-torque", size(6, "lbf-in")), found("pinion-bearings", "end-float", size(0, "in")), found("crown-wheel-pinion", "tooth-ratio", size(4.7, "1")))
	require.Equal(t, core.WithinNew, a.condition("pinion-bearings").Grade)
	ratio := func(remedy string) (v string) {
		for _, y := range a.remedy("crown-wheel-pinion", remedy).Yields {
			if y.Key == "ratio" {
				v = y.Value
			}
		}
		return v
	}
	require.Equal(t, "47/10", ratio("reuse"))
	require.Equal(t, "47/10", ratio("reset"))
	require.Equal(t, "43/9", ratio("new-pair"))
	now, _ := assess(t, nil, found("pinion-bearings", "rolling-torque", size(2, "lbf-in")), found("pinion-bearings", "end-float", size(0, "in"))).open("pinion-bearings")
	require.Equal(t, []string{"re-shim", "new-bearings"}, now)
}

// Swivels are one job for both sides, which brings seals and shims; balls are done as a pair.
func TestSharedWork(t *testing.T) {
	a := assess(t, nil)
	for _, o := range a.Operations {
		switch o.ID {
		case "swivel-overhaul":
			require.ElementsMatch(t, []string{"reseal-swivels", "re-shim-swivel/LF", "re-shim-swivel/RF"}, o.Includes)
		case "differential-overhaul":
			require.ElementsMatch(t, []string{"reseal-differential", "re-shim"}, o.Includes)
		case "crown-wheel-and-pinion":
			require.Equal(t, []string{"differential-overhaul"}, o.Includes)
		}
	}
	for _, side := range sides {
		require.Equal(t, []string{"swivel-overhaul"}, a.remedy("swivel-bearings/"+side, "new-bearings").Operations)
		require.Equal(t, []string{"replate-swivel-balls/front"}, a.remedy("swivel-ball/"+side, "replate").Operations)
		require.Equal(t, []string{"replace-inner-shaft/" + side, "axle-joint-work/" + side}, a.remedy("inner-shaft/"+side, "new-shaft").Operations)
	}
}

// A steering arm that nobody tested is not used again on trust; what it may turn out to be keeps it, at the register's chance.
func TestArmNotTested(t *testing.T) {
	a := assess(t, nil)
	now, ever := a.open("steering-arm/LF")
	require.NotContains(t, now, "reuse")
	require.Contains(t, ever, "reuse")
	states := a.condition("steering-arm/LF").States
	require.Len(t, states, 2)
	require.Contains(t, []float64{states[0].Chance, states[1].Chance}, .08)
}

// An axle shaft's joint replaced is .75 h in the maintenance allocation chart of TM 5-4210-224-14&P, page B-21. The chart is of
// another, later truck: it gives the order of size, so its figure must lie between two thirds of our low and our high.
func TestAJointsHoursAgainstALabourChart(t *testing.T) {
	a := assess(t, nil, found("axle-joint/LF", "tracks", class(3)))
	for _, o := range a.Operations {
		if strings.HasPrefix(o.ID, "axle-joint-work") {
			require.GreaterOrEqual(t, .75, o.Hours.Low*2/3)
			require.LessOrEqual(t, .75, o.Hours.High)
			return
		}
	}
	require.Fail(t, "no operation of the joint")
}
