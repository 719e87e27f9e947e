package body

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

func class(n int) core.Value      { return core.Value{Kind: core.ValueClass, Class: n} }
func count(n int) core.Value      { return core.Value{Kind: core.ValueCount, Count: n} }
func inches(x float64) core.Value { return size(x, "in") }
func share(x float64) core.Value  { return size(x, "%") }
func size(x float64, unit string) core.Value {
	return core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: x, Unit: unit}}
}
func missing() core.Value { return core.Value{Kind: core.ValueNotRead, NotRead: core.PartMissing} }

// assess asks the whole plugin of a body of steel .048 in with some aluminium panels.
func assess(t *testing.T, aluminium int, fs ...core.Finding) core.Assessment {
	t.Helper()
	p, err := sdk.New(Subsystem())
	require.NoError(t, err)
	a, err := p.Assess(context.Background(), core.AssessRequest{Unit: "vehicle", Findings: fs, Facts: []core.Fact{
		{Name: "t", Value: inches(.048), Source: "demonstration body"}, {Name: "aluminium_panels", Value: count(aluminium), Source: "demonstration body"}}})
	require.NoError(t, err)
	return a
}

func condition(t *testing.T, a core.Assessment, part, position string) core.Condition {
	t.Helper()
	for _, c := range a.Conditions {
		if c.Target == (core.Target{Part: part, Position: position}) {
			return c
		}
	}
	t.Fatalf("no condition of %s/%s", part, position)
	return core.Condition{}
}

func remedy(t *testing.T, a core.Assessment, part, position, id string) core.Remedy {
	t.Helper()
	for _, r := range a.Remedies {
		if r.Target == (core.Target{Part: part, Position: position}) && r.ID == id {
			return r
		}
	}
	t.Fatalf("no remedy %s of %s/%s", id, part, position)
	return core.Remedy{}
}

// open lists the remedies that are feasible now, and those of any state.
func open(t *testing.T, a core.Assessment, part, position string) (now, ever []string) {
	t.Helper()
	for _, r := range a.Remedies {
		if r.Target == (core.Target{Part: part, Position: position}) && r.Feasible {
			now = append(now, r.ID)
		}
	}
	for _, s := range condition(t, a, part, position).States {
		ever = append(ever, s.Remedies...)
	}
	return now, ever
}

// Rule N16: a seat is not bolted to a floor that rusts, not even by the first class of rust. A cracked seat frame and a
// cracked or clouded windscreen are not used again either (49 CFR 393.60, from memory, for glass; else common practice).
func TestNeverReused(t *testing.T) {
	for _, c := range []struct {
		name    string
		finding core.Finding
		open    []string
	}{
		{"rust at the seat", found("seat-mounting", "driver", "floor-corrosion", class(1)), []string{"let-in", "new-mounting"}},
		{"rot at the seat", found("seat-mounting", "passenger", "floor-corrosion", class(3)), []string{"let-in", "new-mounting"}},
		{"seat mounting gone", found("seat-mounting", "middle", "floor-corrosion", missing()), []string{"new-mounting"}},
		{"cracked seat frame", found("seat-frame", "driver", "cracks", count(1)), []string{"weld", "new-frame"}},
		{"cracked windscreen", found("windscreen", "LH", "cracks", count(1)), []string{"new-glass"}},
		{"clouded windscreen", found("windscreen", "RH", "delamination", inches(1.5)), []string{"new-glass"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			a := assess(t, 2, c.finding)
			require.Equal(t, core.Failed, condition(t, a, c.finding.Target.Part, c.finding.Target.Position).Grade)
			now, ever := open(t, a, c.finding.Target.Part, c.finding.Target.Position)
			require.Equal(t, c.open, now)
			require.NotContains(t, ever, "reuse")
		})
	}
}

// A floor nobody hammered is not sat over on trust; what it may turn out to be keeps it.
func TestSeatMountingNotSeen(t *testing.T) {
	now, ever := open(t, assess(t, 2), "seat-mounting", "driver")
	require.NotContains(t, now, "reuse")
	require.Contains(t, ever, "reuse")
}

func TestWornParts(t *testing.T) {
	for _, c := range []struct {
		name    string
		finding core.Finding
		open    []string
	}{
		{"thin panel", found("panel", "tub", "thickness", inches(.030)), []string{"section", "new-panel"}},
		{"pitted panel", found("panel", "tub", "pitting", class(2)), []string{"patch", "section", "new-panel"}},
		{"filler", found("panel-surface", "wing-LH", "filler", inches(.2)), []string{"strip-and-beat", "with-the-panel"}},
		{"swollen edge", found("aluminium-panel", "A1", "edge-corrosion", class(2)), []string{"new-edge", "new-panel"}},
		{"bulkhead out of square", found("bulkhead", "", "diagonal-difference", inches(.25)), []string{"repair-and-align", "another-bulkhead"}},
		{"door aperture out of square", found("door-aperture", "LH", "diagonal-difference", inches(.2)), []string{"correct", "new-posts"}},
		{"door gap wide", found("door", "LH", "shut-gap", inches(.3)), []string{"hang-anew", "another-door"}},
		{"door gap too tight", found("door", "LH", "shut-gap", inches(.08)), []string{"hang-anew", "another-door"}},
		{"hinge pins worn", found("hinge-pins", "RH", "clearance", inches(.03)), []string{"bush-and-pin", "new-hinges"}},
		{"hinge pins too tight", found("hinge-pins", "RH", "clearance", inches(0)), []string{"bush-and-pin", "new-hinges"}},
		{"wet timber", found("timber", "sill-LH", "moisture", share(26)), []string{"dry-out", "scarf", "new-timber"}},
		{"rotten timber", found("timber", "sill-LH", "rot", inches(.5)), []string{"scarf", "new-timber"}},
		{"trim missing", found("trim", "", "missing-items", count(9)), []string{"source"}},
		{"items of another year", found("trim-of-year", "", "wrong-items", count(2)), []string{"keep-by-choice", "correct"}},
		{"hood stick bent", found("roof-frame", "", "bend", inches(.6)), []string{"straighten", "new-frame"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			a := assess(t, 2, c.finding)
			now, _ := open(t, a, c.finding.Target.Part, c.finding.Target.Position)
			require.Equal(t, c.open, now, "%v", condition(t, a, c.finding.Target.Part, c.finding.Target.Position).Reasons)
		})
	}
}

// Stripping a panel serves its steel and its surface; a new one serves both and leaves nothing to strip.
func TestSharedWork(t *testing.T) {
	a := assess(t, 2)
	require.Equal(t, []string{"strip-panel/wing-LH"}, remedy(t, a, "panel", "wing-LH", "patch").Operations)
	require.Equal(t, []string{"strip-panel/wing-LH"}, remedy(t, a, "panel-surface", "wing-LH", "strip-and-beat").Operations)
	require.Equal(t, []string{"replace-panel/wing-LH"}, remedy(t, a, "panel", "wing-LH", "new-panel").Operations)
	require.Equal(t, []string{"replace-panel/wing-LH"}, remedy(t, a, "panel-surface", "wing-LH", "with-the-panel").Operations)
	for _, o := range a.Operations {
		if o.ID == "replace-panel/wing-LH" {
			require.Equal(t, []string{"strip-panel/wing-LH"}, o.Includes)
		}
	}
	for _, p := range []string{"front-LH", "rear-RH"} {
		require.Equal(t, []string{"floor-set"}, remedy(t, a, "floor", p, "new-floor").Operations)
	}
	require.Equal(t, []string{"hang-doors"}, remedy(t, a, "door", "RH", "hang-anew").Operations)
}

// A door is hung anew where its aperture is corrected or its hinges are renewed.
func TestDoorsHingesAndApertures(t *testing.T) {
	a := assess(t, 2)
	asItIs := core.RemedyRef{Target: core.Target{Part: "door", Position: "LH"}, Remedy: "reuse"}
	for _, r := range [][2]string{{"door-aperture", "correct"}, {"door-aperture", "new-posts"}, {"hinge-pins", "bush-and-pin"}, {"hinge-pins", "new-hinges"}} {
		require.Equal(t, []core.RemedyRef{asItIs}, remedy(t, a, r[0], "LH", r[1]).Excludes)
	}
}

// What belongs to another year is kept only by the owner's word.
func TestKeptByTheOwnersWord(t *testing.T) {
	for _, r := range assess(t, 2).Remedies {
		require.Equal(t, r.ID == "keep-by-choice", r.PinOnly, "%s %s", r.Target, r.ID)
	}
}

// A body all of steel has no aluminium panel to ask about.
func TestNoAluminium(t *testing.T) {
	for _, c := range assess(t, 0).Conditions {
		require.NotEqual(t, "aluminium-panel", c.Target.Part)
	}
}

// A surface goes with its panel: it is new where the panel is, and nowhere else (common practice).
func TestSurfaceGoesWithItsPanel(t *testing.T) {
	seen := 0
	other := []core.RemedyRef{{Target: core.Target{Part: "panel", Position: "wing-RH"}, Remedy: "new-panel"}}
	for _, r := range assess(t, 2).Remedies {
		if r.Target != (core.Target{Part: "panel-surface", Position: "wing-RH"}) {
			continue
		}
		seen++
		if r.ID == "with-the-panel" {
			require.Equal(t, other, r.Requires)
		} else {
			require.Equal(t, other, r.Excludes, r.ID)
		}
	}
	require.Equal(t, 3, seen)
}
