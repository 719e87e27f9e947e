package frame

import (
	"context"
	"fmt"
	"slices"
	"testing"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
	"github.com/stretchr/testify/require"
)

func found(part, position, check, station string, v core.Value) core.Finding {
	return core.Finding{ID: fmt.Sprint(part, "/", position, "/", check, "/", station), Target: core.Target{Part: part, Position: position},
		Check: check, Station: station, Value: v, AsTyped: v.String()}
}

func passes(ok bool) core.Value { return core.Value{Kind: core.ValuePass, Pass: ok} }
func class(n int) core.Value    { return core.Value{Kind: core.ValueClass, Class: n} }
func count(n int) core.Value    { return core.Value{Kind: core.ValueCount, Count: n} }
func inches(x float64) core.Value {
	return core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: x, Unit: "in"}}
}
func missing() core.Value { return core.Value{Kind: core.ValueNotRead, NotRead: core.PartMissing} }

// assess asks the whole plugin of a frame of steel .104 in with rivets of a diameter in inches.
func assess(t *testing.T, rivet float64, fs ...core.Finding) core.Assessment {
	t.Helper()
	p, err := sdk.New(Subsystem())
	require.NoError(t, err)
	a, err := p.Assess(context.Background(), core.AssessRequest{Unit: "vehicle", Findings: fs, Facts: []core.Fact{
		{Name: "t", Value: inches(.104), Source: "demonstration frame"}, {Name: "rivet", Value: inches(rivet), Source: "demonstration frame"}}})
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

// operationOf is the only operation of a remedy.
func operationOf(t *testing.T, a core.Assessment, part, position, id string) core.Operation {
	t.Helper()
	r := remedy(t, a, part, position, id)
	require.Len(t, r.Operations, 1)
	for _, o := range a.Operations {
		if o.ID == r.Operations[0] {
			return o
		}
	}
	t.Fatalf("no operation %s", r.Operations[0])
	return core.Operation{}
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

// beside gives the finding, with all else of a hanger or a crossmember read as sound.
func beside(f core.Finding) []core.Finding {
	fs := []core.Finding{f}
	for _, x := range []struct {
		parts []string
		check string
		value core.Value
	}{
		{[]string{"crossmember"}, "bend-tear", class(1)}, {[]string{"crossmember"}, "ends", class(1)},
		{[]string{"spring-hanger", "shackle-hanger"}, "pin-hole-wear", inches(.002)}, {[]string{"spring-hanger", "shackle-hanger"}, "position-error", inches(.02)},
		{[]string{"spring-hanger", "shackle-hanger"}, "cracks", count(0)}, {[]string{"spring-hanger", "shackle-hanger"}, "corrosion", class(1)},
	} {
		if slices.Contains(x.parts, f.Target.Part) && x.check != f.Check && f.Value.Kind != core.ValueNotRead {
			fs = append(fs, found(f.Target.Part, f.Target.Position, x.check, "", x.value))
		}
	}
	return fs
}

// Rule N16: crack, hole or rot at the steering box, a spring hanger, a crossmember's end or anywhere in the frame is
// repaired first. 49 CFR 393.201(a) for cracks; common practice for rot.
func TestNeverReused(t *testing.T) {
	for _, c := range []struct {
		name    string
		finding core.Finding
		open    []string
	}{
		{"crack at the steering box", found("steering-box-mounting", "", "cracks", "", count(1)), []string{"repair-and-plate", "new-section"}},
		{"rot at the steering box", found("steering-box-mounting", "", "corrosion", "", class(2)), []string{"repair-and-plate", "new-section"}},
		{"cracked hanger", found("spring-hanger", "LF", "cracks", "", count(1)), []string{"new-hanger"}},
		{"rotten hanger", found("spring-hanger", "RR", "corrosion", "", class(3)), []string{"new-hanger"}},
		{"cracked shackle hanger", found("shackle-hanger", "LR", "cracks", "", count(2)), []string{"new-hanger"}},
		{"hanger missing", found("shackle-hanger", "LR", "cracks", "", missing()), []string{"new-hanger"}},
		{"rotten crossmember end", found("crossmember", "X2", "ends", "", class(2)), []string{"new-ends", "new-crossmember"}},
		{"torn crossmember", found("crossmember", "X5", "bend-tear", "", class(3)), []string{"new-crossmember"}},
		{"crack in the frame", found("frame-cracks", "", "cracks", "", count(1)), []string{"weld", "renew-members", "replacement-frame"}},
		{"frame rusted through", found("frame-perforations", "", "perforations", "", count(4)), []string{"let-in", "renew-members", "replacement-frame"}},
		{"thin rail", found("side-rail", "LH", "wall-thickness", "S7", inches(.080)), []string{"let-in", "section", "replacement-frame"}},
		{"cracked dumb iron", found("dumb-irons", "", "cracks", "", count(1)), []string{"new-irons"}},
		{"rotten body mount", found("body-mount-bracket", "B3", "corrosion", "", class(2)), []string{"new-bracket"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			a := assess(t, .375, beside(c.finding)...)
			at := c.finding.Target
			require.Equal(t, core.Failed, condition(t, a, at.Part, at.Position).Grade)
			now, ever := open(t, a, at.Part, at.Position)
			require.Equal(t, c.open, now)
			require.NotContains(t, ever, "reuse")
		})
	}
}

func TestWornParts(t *testing.T) {
	for _, c := range []struct {
		name    string
		finding core.Finding
		open    []string
	}{
		{"panel out of square", found("frame-panel", "panel-2", "diagonal-difference", "", inches(.31)), []string{"straighten", "renew-members"}},
		{"rail bowed", found("side-rail-line", "RH", "side-bow", "", inches(.2)), []string{"straighten", "section"}},
		{"hanger hole worn", found("spring-hanger", "LF", "pin-hole-wear", "", inches(.02)), []string{"bush-hole", "new-hanger"}},
		{"hanger hole near its limit: a spring hangs on it", found("spring-hanger", "LF", "pin-hole-wear", "", inches(.012)), []string{"bush-hole", "new-hanger"}},
		{"hanger out of place", found("shackle-hanger", "LF", "position-error", "", inches(.2)), []string{"refit", "new-hanger"}},
		{"outrigger pitted", found("outrigger", "R4", "corrosion", "", class(2)), []string{"let-in", "new-outrigger"}},
		{"scab plate", found("old-repairs", "", "welds", "", class(2)), []string{"redo", "renew-members"}},
		{"tow eye worn", found("towing-fitting", "rear", "eye-pin-wear", "", inches(.2)), []string{"new-fitting"}},
		{"wheelbase out", found("wheelbase", "LH", "error", "", inches(.4)), []string{"straighten", "hangers-anew"}},
		{"mount sunk", found("mount", "LF", "rubber-set", "", inches(.2)), []string{"new"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			now, _ := open(t, assess(t, .375, beside(c.finding)...), c.finding.Target.Part, c.finding.Target.Position)
			require.Equal(t, c.open, now)
		})
	}
}

// Hanger pairs go together, and all that the jig cures is one visit to it.
func TestSharedWork(t *testing.T) {
	a := assess(t, .375)
	for _, p := range [][2]string{{"frame-panel", "panel-1"}, {"frame-panel", "panel-4"}, {"frame-twist", ""}, {"wheelbase", "RH"}, {"side-rail-line", "LH"}, {"dumb-irons", ""}} {
		require.Equal(t, []string{"straighten-on-jig"}, remedy(t, a, p[0], p[1], "straighten").Operations)
	}
	require.Equal(t, []string{"section-rail/LH"}, remedy(t, a, "side-rail", "LH", "section").Operations)
	require.Equal(t, []string{"section-rail/LH"}, remedy(t, a, "side-rail-line", "LH", "section").Operations, "one section serves line and steel")
	require.NotEqual(t, remedy(t, a, "spring-hanger", "LF", "new-hanger").Operations, remedy(t, a, "shackle-hanger", "LF", "new-hanger").Operations)
}

// Another frame takes the number with it: it is never chosen, only pinned.
func TestReplacementFrameIsOnlyPinned(t *testing.T) {
	for _, r := range assess(t, .375).Remedies {
		require.Equal(t, r.ID == "replacement-frame", r.PinOnly, "%s %s", r.Target, r.ID)
	}
}
