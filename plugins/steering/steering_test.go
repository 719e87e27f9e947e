package steering

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
func missing() core.Value       { return core.Value{Kind: core.ValueNotRead, NotRead: core.PartMissing} }
func in(x float64) core.Value   { return of(x, "in") }
func of(x float64, unit string) core.Value {
	return core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: x, Unit: unit}}
}
func target(p, at string) core.Target { return core.Target{Part: p, Position: at} }

// packhorse is the invented demonstration vehicle: wheel 17 in, box 14 to 1, drop arm 6 in, toe to 1/8 in.
func packhorse() []core.Fact {
	return []core.Fact{fact("W", in(17)), fact("T_thread", in(.6875)), fact("T_toe", in(.125)), fact("drop_arm", in(6)), fact("box_ratio", of(14, "1")),
		fact("swivel_arm", in(6.5)), fact("tyre", in(29)), fact("thread_pitch", count(16)), fact("rim", in(16)), fact("gross", of(5400, "lb"))}
}

func fact(name string, v core.Value) core.Fact {
	return core.Fact{Name: name, Value: v, Source: "demonstration vehicle"}
}

func assess(t *testing.T, fs ...core.Finding) answer {
	t.Helper()
	return assessWith(t, packhorse(), fs...)
}

func assessWith(t *testing.T, facts []core.Fact, fs ...core.Finding) answer {
	t.Helper()
	p, err := sdk.New(Subsystem())
	require.NoError(t, err)
	a, err := p.Assess(context.Background(), core.AssessRequest{Unit: "vehicle", Facts: facts, Findings: fs})
	require.NoError(t, err)
	return answer{t, a}
}

// answer is what the plugin said.
type answer struct {
	t *testing.T
	core.Assessment
}

func (a answer) condition(at core.Target) core.Condition {
	a.t.Helper()
	for _, c := range a.Conditions {
		if c.Target == at {
			return c
		}
	}
	a.t.Fatalf("no condition of %s", at)
	return core.Condition{}
}

func (a answer) remedy(at core.Target, id string) core.Remedy {
	a.t.Helper()
	for _, r := range a.Remedies {
		if r.Target == at && r.ID == id {
			return r
		}
	}
	a.t.Fatalf("no remedy %s of %s", id, at)
	return core.Remedy{}
}

// open lists the remedies that are feasible now, and those of any state.
func (a answer) open(at core.Target) (now, ever []string) {
	a.t.Helper()
	for _, r := range a.Remedies {
		if r.Target == at && r.Feasible {
			now = append(now, r.ID)
		}
	}
	for _, s := range a.condition(at).States {
		ever = append(ever, s.Remedies...)
	}
	return now, ever
}

func (a answer) words(at core.Target) (s string) {
	a.t.Helper()
	for _, r := range a.condition(at).Reasons {
		s += r.Text + "\n"
	}
	return s
}

func (a answer) problems() (s string) {
	for _, p := range a.Problems {
		s += p.Summary + " -> " + p.Next + "\n"
	}
	return s
}

// What is never used again, in no state: rules N01, N02, N03, N05 (common practice, no source).
func TestNeverReused(t *testing.T) {
	for _, c := range []struct {
		rule    string
		finding core.Finding
		open    []string
	}{
		{"N01", found("drop-arm", "", "crack-test", passes(false)), []string{"replace-arm"}},
		{"N01", found("drop-arm", "", "untouched", passes(false)), []string{"replace-arm"}},
		{"N03", found("drop-arm", "", "splines", passes(false)), []string{"replace-arm"}},
		{"N01", found("drag-link", "", "bend", in(.12)), []string{"replace-link"}},
		{"N01", found("drag-link", "", "untouched", passes(false)), []string{"replace-link"}},
		{"N01", found("track-rod", "", "bend", in(.15)), []string{"replace-rod"}},
		{"N01", found("track-rod", "", "untouched", passes(false)), []string{"replace-rod"}},
		{"N01", found("relay-arm", "upper", "untouched", passes(false)), []string{"replace-arm"}},
		{"N02", found("ball-joint", "track-rod-LF", "side-play", passes(false)), []string{"new-joint"}},
		{"N02", found("ball-joint", "drag-link-rear", "axial-play", in(.025)), []string{"new-joint"}},
		{"N02", found("ball-joint", "drag-link-rear", "thread-and-taper", passes(false)), []string{"new-joint"}},
		{"N02", found("ball-joint", "drag-link-rear", "taper-contact", of(60, "%")), []string{"new-joint"}},
		{"N02", found("track-rod-end", "RF", "thread-sound", passes(false)), []string{"new-ends"}},
		{"N03", found("rocker-shaft", "", "splines", passes(false)), []string{"replace-shaft"}},
		{"N03", found("rocker-shaft", "", "crack-test", passes(false)), []string{"replace-shaft"}},
		{"N05", found("worm", "", "track-pitting", class(1)), []string{"worm-set"}},
		{"N05", found("roller", "", "condition", class(1)), []string{"worm-set"}},
		{"casing", found("box-casing", "", "cracks", count(1)), []string{"replace-casing"}},
	} {
		t.Run(c.rule+" "+c.finding.ID, func(t *testing.T) {
			a := assess(t, c.finding)
			require.Equal(t, core.Failed.String(), a.condition(c.finding.Target).Grade.String())
			now, ever := a.open(c.finding.Target)
			require.Equal(t, c.open, now)
			require.NotContains(t, ever, "reuse")
		})
	}
	now, _ := assess(t).open(target("split-pin", ""))
	require.Equal(t, []string{"new"}, now, "N23")
}

func TestWornParts(t *testing.T) {
	for _, c := range []struct {
		name    string
		finding core.Finding
		open    []string
	}{
		{"rocker shaft worn", found("rocker-shaft", "", "wear", in(.003)), []string{"hard-chrome", "replace-shaft"}},
		{"rocker shaft near its limit: safety-critical", found("rocker-shaft", "", "wear", in(.0015)), []string{"hard-chrome", "replace-shaft"}},
		{"worm loose", found("steering-gear", "", "worm-torque", of(1, "lbf-in")), []string{"adjust", "overhaul"}},
		{"worm too tight", found("steering-gear", "", "worm-torque", of(12, "lbf-in")), []string{"adjust", "overhaul"}},
		{"arm a spline out", found("lock-to-lock", "", "lock-difference", of(.5, "turn")), []string{"index"}},
		{"play at the arm is not adjusted away", found("steering-gear", "", "arm-play", in(.06)), []string{"overhaul"}},
		{"arm not marked", found("drop-arm", "", "index-mark", passes(false)), []string{"set-on-high-point", "replace-arm"}},
		{"flat on an adjustable joint's ball", found("ball-joint", "drag-link-front", "flat-on-ball", in(.012)), []string{"pin-seats-spring", "new-joint"}},
		{"bush worn", found("rocker-shaft-bush", "inner", "clearance", in(.007)), []string{"new-bush"}},
		{"rim cracked", found("steering-wheel", "", "cracks", count(2)), []string{"recast", "replace-wheel"}},
		{"relay worn", found("steering-relay", "", "clearance", in(.012)), []string{"overhaul", "free-and-overhaul"}},
		{"relay seized", found("steering-relay", "", "free", passes(false)), []string{"free-and-overhaul"}},
		{"relay missing", found("steering-relay", "", "free", missing()), []string{"free-and-overhaul"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			now, _ := assess(t, append(sound(t, c.finding), c.finding)...).open(c.finding.Target)
			require.Equal(t, c.open, now)
		})
	}
}

// sound reads everything else of a finding's part as new: nothing of a safety-critical part is used again on a doubt.
func sound(t *testing.T, but core.Finding) (fs []core.Finding) {
	p, err := sdk.New(Subsystem())
	require.NoError(t, err)
	sheet, _, err := p.Describe(context.Background(), packhorse())
	require.NoError(t, err)
	for _, c := range sheet.Part(but.Target.Part).Checks {
		switch {
		case c.ID == but.Check:
		case c.Kind == core.GoNoGo:
			fs = append(fs, found(but.Target.Part, but.Target.Position, c.ID, passes(true)))
		case c.Limit.NewLow != nil:
			fs = append(fs, found(but.Target.Part, but.Target.Position, c.ID, of((*c.Limit.NewLow+*c.Limit.NewHigh)/2, c.Unit)))
		}
	}
	return fs
}

// A seized relay is freed beside its overhaul: two to six hours more (common practice, no source).
func TestSeizedRelay(t *testing.T) {
	a := assess(t, found("steering-relay", "", "free", passes(false)))
	require.Equal(t, []string{"relay-overhaul", "free-relay"}, a.remedy(target("steering-relay", ""), "free-and-overhaul").Operations)
	c := assess(t).condition(target("steering-relay", ""))
	require.Len(t, c.States, 2)
	require.Equal(t, "H30", c.States[1].RegisterID)
	require.InDelta(t, .35, c.States[1].Chance, 1e-9)
}

// Four ball joints and the track are one job of 2, 3, 4.5 hours and 100, 190, 380 USD (common practice, no source), paid by
// the link.
func TestBallJointsByTheLink(t *testing.T) {
	a := assess(t)
	var sum core.Range3
	for _, o := range a.Operations {
		switch o.ID {
		case "ball-joints/drag-link", "ball-joints/track-rod", "set-toe":
			sum = sum.Add(o.Hours)
		}
	}
	require.InDelta(t, 2, sum.Low, 1e-9)
	require.InDelta(t, 3, sum.Likely, 1e-9)
	require.InDelta(t, 4.5, sum.High, 1e-9)
	for at, want := range map[string]string{"drag-link-front": "ball-joints/drag-link", "drag-link-rear": "ball-joints/drag-link", "track-rod-LF": "ball-joints/track-rod"} {
		require.Equal(t, []string{want, "set-toe"}, a.remedy(target("ball-joint", at), "new-joint").Operations)
	}
	require.Equal(t, []string{"ball-joints/track-rod", "set-toe"}, a.remedy(target("track-rod-end", "RF"), "new-ends").Operations)
}

// Another rocker shaft carries its roller: worm and roller go with it.
func TestRockerShaftTakesWormAndRoller(t *testing.T) {
	r := assess(t, found("rocker-shaft", "", "splines", passes(false))).remedy(target("rocker-shaft", ""), "replace-shaft")
	require.Equal(t, []core.RemedyRef{{Target: target("worm", ""), Remedy: "worm-set"}, {Target: target("roller", ""), Remedy: "worm-set"}}, r.Requires)
}
