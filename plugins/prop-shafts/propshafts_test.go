package propshafts

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

func at(f core.Finding, station string) core.Finding {
	f.Station, f.ID = station, f.ID+"@"+station
	return f
}

func target(part, position string) core.Target {
	return core.Target{Part: part, Position: position}
}
func passes(ok bool) core.Value { return core.Value{Kind: core.ValuePass, Pass: ok} }
func class(n int) core.Value    { return core.Value{Kind: core.ValueClass, Class: n} }
func size(x float64, unit string) core.Value {
	return core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: x, Unit: unit}}
}
func inches(x float64) core.Value { return size(x, "in") }

func assess(t *testing.T, fs ...core.Finding) core.Assessment {
	t.Helper()
	p, err := sdk.New(Subsystem())
	require.NoError(t, err)
	a, err := p.Assess(context.Background(), core.AssessRequest{Unit: "vehicle", Findings: fs})
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

// open lists the remedies that are feasible now, and those of any state; what is only pinned is left out of the first.
func open(t *testing.T, a core.Assessment, at core.Target) (now, ever []string) {
	for _, r := range a.Remedies {
		if r.Target == at && r.Feasible && !r.PinOnly {
			now = append(now, r.ID)
		}
	}
	for _, s := range condition(t, a, at).States {
		ever = append(ever, s.Remedies...)
	}
	return now, ever
}

// soundTube is a tube of which all is read and good, but for its runout at mid length and its dent.
func soundTube(runout, dent float64) []core.Finding {
	return []core.Finding{found("shaft-tube", "rear", "mid-runout", inches(runout)), at(found("shaft-tube", "rear", "weld-runout", inches(.003)), "box_end"),
		at(found("shaft-tube", "rear", "weld-runout", inches(.004)), "axle_end"), found("shaft-tube", "rear", "dent-depth", inches(dent)), found("shaft-tube", "rear", "cracks-and-twist", passes(true))}
}

// What is never used again, in no state: a cracked, twisted or dented tube and a yoke with a crack or an egged hole
// (N22), a flange with worn holes, a joint with needle marks. Common practice.
func TestNeverReused(t *testing.T) {
	for _, c := range []struct {
		name    string
		finding core.Finding
		open    []string
	}{
		{"tube cracked at its weld", found("shaft-tube", "rear", "cracks-and-twist", passes(false)), []string{"new-tube"}},
		{"tube dented", found("shaft-tube", "front", "dent-depth", inches(.08)), []string{"new-tube"}},
		{"yoke cracked", found("shaft-yoke", "front-box", "cracks", passes(false)), []string{"new-yoke"}},
		{"yoke egged", found("shaft-yoke", "rear-axle", "cross-hole-wear", inches(.001)), []string{"new-yoke"}},
		{"flange cracked", found("flange", "rear-box", "cracks", passes(false)), []string{"another-flange"}},
		{"flange yoke egged", found("flange", "front-axle", "cross-hole-wear", inches(.001)), []string{"another-flange"}},
		{"flange holes worn", found("flange", "rear-axle", "bolt-hole-elongation", inches(.02)), []string{"another-flange"}},
		{"needle marks seen", found("universal-joint", "rear-box", "needle-marks", class(1)), []string{"new-joint"}},
		{"needle marks felt", found("universal-joint", "rear-box", "needle-marks", class(2)), []string{"new-joint"}},
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

// A dent beside readings that are all good still closes reuse; half-way to its limit it closes it too, as for all that is safety-critical.
func TestDentedTube(t *testing.T) {
	for dent, want := range map[float64][]string{0: {"reuse", "straighten", "new-tube"}, .02: {"reuse", "straighten", "new-tube"}, .04: {"new-tube"}, .08: {"new-tube"}} {
		now, _ := open(t, assess(t, soundTube(.008, dent)...), target("shaft-tube", "rear"))
		require.Equal(t, want, now, "dent %g", dent)
	}
}

// A tube that is bent and not dented is straightened.
func TestBentTubeIsStraightened(t *testing.T) {
	a := assess(t, soundTube(.025, 0)...)
	require.Equal(t, core.PastLimit, condition(t, a, target("shaft-tube", "rear")).Grade)
	now, _ := open(t, a, target("shaft-tube", "rear"))
	require.Equal(t, []string{"straighten", "new-tube"}, now)
}

// Nobody's word is taken for a yoke that was not looked at; once it is seen sound, it goes back.
func TestYokeNotSeen(t *testing.T) {
	yoke := target("shaft-yoke", "front-axle")
	now, ever := open(t, assess(t), yoke)
	require.NotContains(t, now, "reuse")
	require.Contains(t, ever, "reuse")
	now, _ = open(t, assess(t, at(found("shaft-yoke", "front-axle", "cross-hole-wear", inches(1.0622)), "hole"), at(found("shaft-yoke", "front-axle", "cross-hole-wear", inches(1.0627)), "cup"),
		found("shaft-yoke", "front-axle", "cracks", passes(true))), yoke)
	require.Contains(t, now, "reuse")
}

func TestWornParts(t *testing.T) {
	for _, c := range []struct {
		name    string
		finding core.Finding
		open    []string
	}{
		{"joint with play", found("universal-joint", "front-box", "rotational-play", inches(.01)), []string{"new-joint"}},
		{"joint notchy", found("universal-joint", "front-box", "free", passes(false)), []string{"new-joint"}},
		{"joint loose endwise", found("universal-joint", "front-box", "end-play", inches(.01)), []string{"circlips", "new-joint"}},
		{"spline worn", found("sliding-spline", "rear", "backlash", inches(.012)), []string{"new-pair"}},
		{"spline binds", found("sliding-spline", "rear", "backlash", inches(.0002)), []string{"new-pair"}},
		{"out of phase", found("yoke-phase", "front", "phase-error", size(90, "deg")), []string{"re-index", "new-pair"}},
		{"angles differ", found("joint-angles", "rear", "difference", size(4, "deg")), []string{"packers", "new-mounts"}},
		{"shaft too long", found("shaft-length", "front", "free-travel", inches(.4)), []string{"mounts-set", "to-length"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			now, _ := open(t, assess(t, c.finding), c.finding.Target)
			require.Equal(t, c.open, now)
		})
	}
}

// What is safety-critical is mended only once all else of it is seen sound: a hollow flange skimmed, an unbalanced tube
// balanced, whatever the unit it was read in.
func TestMendedOnceSeenSound(t *testing.T) {
	flange := []core.Finding{found("flange", "front-box", "face-flatness", inches(.008)), found("flange", "front-box", "bolt-hole-elongation", inches(.002)), found("flange", "front-box", "cross-hole-wear", inches(-.0005))}
	now, _ := open(t, assess(t, flange...), target("flange", "front-box"))
	require.Equal(t, []string{"another-flange"}, now, "nobody looked for cracks")
	now, _ = open(t, assess(t, append(flange, found("flange", "front-box", "cracks", passes(true)))...), target("flange", "front-box"))
	require.Equal(t, []string{"skim", "another-flange"}, now)
	for _, unbalance := range []core.Value{size(1.2, "oz-in"), size(900, "g-mm")} {
		now, _ = open(t, assess(t, append(soundTube(.005, 0), found("shaft-tube", "rear", "unbalance", unbalance))...), target("shaft-tube", "rear"))
		require.Equal(t, []string{"straighten", "new-tube"}, now, "%s", unbalance)
	}
}

// The end angles of a shaft are compared, whichever is the steeper.
func TestJointAngles(t *testing.T) {
	for _, c := range []struct {
		box, axle float64
		want      core.Grade
	}{{6, 5.5, core.WithinNew}, {5, 7.5, core.NearLimit}, {9, 5, core.PastLimit}, {5, 9, core.PastLimit}} {
		a := assess(t, at(found("joint-angles", "front", "difference", size(c.box, "deg")), "box_end"), at(found("joint-angles", "front", "difference", size(c.axle, "deg")), "axle_end"))
		require.Equal(t, c.want.String(), condition(t, a, target("joint-angles", "front")).Grade.String(), "%g and %g", c.box, c.axle)
	}
}

// Work is paid by the shaft: two joints, their gaiter and circlips once, a tube and its yokes once, nothing for the other shaft.
func TestSharedWork(t *testing.T) {
	a := assess(t)
	for _, p := range []string{"rear-box", "rear-axle"} {
		require.Equal(t, []string{"universal-joints/rear"}, remedy(t, a, target("universal-joint", p), "new-joint").Operations)
		require.Equal(t, []string{"new-tube-and-yokes/rear"}, remedy(t, a, target("shaft-yoke", p), "new-yoke").Operations)
	}
	require.Equal(t, []string{"new-tube-and-yokes/rear"}, remedy(t, a, target("shaft-tube", "rear"), "new-tube").Operations)
	require.Equal(t, []string{"replace-flange/front-box"}, remedy(t, a, target("flange", "front-box"), "another-flange").Operations)
	for _, o := range a.Operations {
		switch o.ID {
		case "universal-joints/rear":
			require.Equal(t, []string{"gaiter-and-seal/rear", "joint-circlips/rear", "re-index/rear"}, o.Includes)
		case "new-tube-and-yokes/front":
			require.Equal(t, []string{"balance-and-straighten/front"}, o.Includes)
		}
	}
}

// A joint past its limit is one event on each shaft (chance .55): one at least on four vehicles in five.
func TestJointsAreOneEventOnEachShaft(t *testing.T) {
	a := assess(t)
	ids := map[string]int{}
	for _, p := range []string{"front-box", "front-axle", "rear-box", "rear-axle"} {
		for _, s := range condition(t, a, target("universal-joint", p)).States {
			if s.RegisterID != "" {
				ids[s.RegisterID]++
				require.InDelta(t, .55, s.Chance, 1e-9)
			}
		}
	}
	require.Len(t, ids, 2)
	for id, n := range ids {
		require.Equal(t, 2, n, id)
	}
}

// Another shaft, used, is never chosen, only pinned: length and series must match.
func TestUsedShaftIsOnlyPinned(t *testing.T) {
	for _, r := range assess(t).Remedies {
		require.Equal(t, r.ID == "used-shaft", r.PinOnly, "%s %s", r.Target, r.ID)
	}
}
