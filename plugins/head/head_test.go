package head

import (
	"context"
	"fmt"
	"testing"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
	"github.com/stretchr/testify/require"
)

func size(v float64, unit string) core.Value {
	return core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: v, Unit: unit}}
}
func inch(v float64) core.Value  { return size(v, "in") }
func count(n int) core.Value     { return core.Value{Kind: core.ValueCount, Count: n} }
func class(n int) core.Value     { return core.Value{Kind: core.ValueClass, Class: n} }
func passes(ok bool) core.Value  { return core.Value{Kind: core.ValuePass, Pass: ok} }
func at(p, x string) core.Target { return core.Target{Part: p, Position: x} }

func found(part, position, check, station string, v core.Value) core.Finding {
	return core.Finding{ID: fmt.Sprint(part, "/", position, "/", check, "/", station), Target: at(part, position), Check: check, Station: station, Value: v, AsTyped: v.String()}
}

// answer is what the plugin said of the invented demonstration engine: head of 3.5 in, springs of 2.0 in and 70 lbf,
// cams of .260 in lift.
type answer struct {
	t *testing.T
	core.Assessment
}

func assess(t *testing.T, fs ...core.Finding) answer {
	t.Helper()
	p, err := sdk.New(Subsystem())
	require.NoError(t, err)
	facts := []core.Fact{{Name: "T", Value: inch(3.5)}, {Name: "L", Value: inch(2)}, {Name: "P", Value: size(70, "lbf")}, {Name: "lift", Value: inch(.26)}}
	for i := range facts {
		facts[i].Source = "demonstration engine"
	}
	a, err := p.Assess(context.Background(), core.AssessRequest{Unit: "engine", Facts: facts, Findings: fs})
	require.NoError(t, err)
	return answer{t, a}
}

func (a answer) condition(target core.Target) core.Condition {
	a.t.Helper()
	for _, c := range a.Conditions {
		if c.Target == target {
			return c
		}
	}
	a.t.Fatalf("no condition of %s", target)
	return core.Condition{}
}

// open lists the remedies that are feasible now, and those of any state.
func (a answer) open(target core.Target) (now, ever []string) {
	a.t.Helper()
	for _, r := range a.Remedies {
		if r.Target == target && r.Feasible {
			now = append(now, r.ID)
		}
	}
	for _, s := range a.condition(target).States {
		ever = append(ever, s.Remedies...)
	}
	return now, ever
}

func (a answer) remedy(part, position, id string) core.Remedy {
	a.t.Helper()
	for _, r := range a.Remedies {
		if r.Target == at(part, position) && r.ID == id {
			return r
		}
	}
	a.t.Fatalf("no remedy %s of %s/%s", id, part, position)
	return core.Remedy{}
}

func (a answer) fact(target core.Target, name string) float64 {
	a.t.Helper()
	for _, f := range a.condition(target).Facts {
		if f.Name == name {
			return f.Value.Quantity.Value
		}
	}
	a.t.Fatalf("no fact %s of %s", name, target)
	return 0
}

func (a answer) problems() string {
	s := ""
	for _, p := range a.Problems {
		s += p.Summary + " -> " + p.Next + "\n"
	}
	return s
}

// What is never used again, in no state: an exhaust valve under its margin, a bent valve, a hollow tappet, a head cracked
// into a port. Common practice; the margin also TM 10-3930-671-24.
func TestNeverReused(t *testing.T) {
	for _, c := range []struct {
		name    string
		finding core.Finding
		open    []string
	}{
		{"exhaust valve under its margin", found("exhaust-valve", "3", "margin", "", inch(.035)), []string{"new-valve"}},
		{"bent inlet valve", found("inlet-valve", "1", "straight", "", passes(false)), []string{"new-valve"}},
		{"bent exhaust valve", found("exhaust-valve", "1", "straight", "", passes(false)), []string{"new-valve"}},
		{"hollow tappet", found("tappet", "5", "foot-wear", "", class(2)), []string{"reface", "new-tappet", "with-new-cam"}},
		{"crack into a port", found("head", "", "port-cracks", "", count(1)), []string{"another-head"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			a := assess(t, c.finding)
			require.Equal(t, core.Failed, a.condition(c.finding.Target).Grade)
			now, ever := a.open(c.finding.Target)
			require.Equal(t, c.open, now)
			require.NotContains(t, ever, "reuse")
		})
	}
	now, _ := assess(t).open(at("lock-tab", ""))
	require.Equal(t, []string{"new"}, now, "N23")
}

func TestWornParts(t *testing.T) {
	for _, c := range []struct {
		name    string
		finding core.Finding
		grade   core.Grade
		open    []string
	}{
		{"crack between the valves", found("head", "", "cracks", "", count(1)), core.PastLimit, []string{"stitch", "another-head"}},
		{"head leaks", found("head", "", "pressure-test", "", passes(false)), core.Failed, []string{"stitch", "another-head"}},
		{"face warped", found("head-face", "", "flatness-overall", "", inch(.005)), core.PastLimit, []string{"skim", "another-head"}},
		{"seat too wide", found("inlet-seat", "2", "contact-width", "", inch(.1)), core.PastLimit, []string{"recut", "insert"}},
		{"exhaust seat sunk", found("exhaust-seat", "2", "recession", "", inch(.07)), core.PastLimit, []string{"insert"}},
		{"valve out of true", found("inlet-valve", "2", "face-runout", "", inch(.003)), core.PastLimit, []string{"reface", "new-valve"}},
		{"stem worn", found("inlet-valve", "2", "stem-wear", "", inch(.003)), core.PastLimit, []string{"new-valve"}},
		{"guide worn", found("inlet-guide", "2", "stem-clearance", "", inch(.006)), core.PastLimit, []string{"new-guide"}},
		{"guide too tight", found("exhaust-guide", "2", "stem-clearance", "", inch(.001)), core.TooTight, []string{"new-guide"}},
		{"rocker loose", found("rocker", "8", "bush-clearance", "", inch(.006)), core.PastLimit, []string{"overhaul", "another-rocker"}},
		{"rocker through its hardening", found("rocker", "8", "pad-hard", "", passes(false)), core.Failed, []string{"another-rocker"}},
		{"cam worn", found("cam-lobe", "5", "lift-loss", "", inch(.01)), core.PastLimit, []string{"regrind", "with-new-cam"}},
		{"camshaft bent", found("camshaft", "", "runout", "", inch(.003)), core.PastLimit, []string{"straighten", "straighten-and-plate", "new-camshaft"}},
		{"camshaft floats", found("camshaft", "", "end-float", "", inch(.013)), core.PastLimit, []string{"thrust-plate", "straighten-and-plate", "new-camshaft"}},
		{"camshaft tight endwise", found("camshaft", "", "end-float", "", inch(.001)), core.TooTight, []string{"thrust-plate", "straighten-and-plate", "new-camshaft"}},
		{"chain long", found("timing-chain", "1", "deflection", "", inch(.6)), core.PastLimit, []string{"new-set"}},
		{"sprocket hooked", found("timing-sprocket", "camshaft", "hooking", "", class(2)), core.Failed, []string{"new-set"}},
		{"manifold cracked", found("manifold", "exhaust", "cracks", "", count(1)), core.PastLimit, []string{"repair", "another"}},
		{"manifold warped", found("manifold-face", "exhaust", "flatness", "", inch(.02)), core.PastLimit, []string{"face", "another"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			a := assess(t, c.finding)
			require.Equal(t, c.grade.String(), a.condition(c.finding.Target).Grade.String())
			now, _ := a.open(c.finding.Target)
			require.Equal(t, c.open, now)
		})
	}
}

// Spring 62 lbf against 70 new: -11.4 per cent, past -10, so the set of springs. The trade's worked example, common practice.
func TestWeakSpring(t *testing.T) {
	a := assess(t, found("valve-spring", "6", "load", "", size(62, "lbf")), found("valve-spring", "7", "load", "", size(68, "lbf")))
	require.Equal(t, core.PastLimit, a.condition(at("valve-spring", "6")).Grade)
	require.InDelta(t, -11.4, a.fact(at("valve-spring", "6"), "load-change"), .05)
	require.InDelta(t, -2.9, a.fact(at("valve-spring", "7"), "load-change"), .05)
	require.Contains(t, a.problems(), "weak valve springs: 6 (-11.4 %) -> springs are renewed as a set")
	now, _ := a.open(at("valve-spring", "6"))
	require.Equal(t, []string{"new-set"}, now)
}

// A skim takes the hollow and .0020: 3.4700 - .0045 - .0020 = 3.4635 may stand, 3.4655 - .0065 = 3.4590 is under 3.4600.
func TestSkimLeavesEnough(t *testing.T) {
	corners := func(in float64) (fs []core.Finding) {
		for i, st := range []string{"A", "B", "C", "D"} {
			fs = append(fs, found("head-thickness", "", "thickness", st, inch(in+.0005*float64(i))))
		}
		return append(fs, found("head-face", "", "flatness-overall", "", inch(.0045)), found("head-face", "", "flatness-local", "", inch(.002)))
	}
	a := assess(t, corners(3.4700)...)
	require.InDelta(t, 3.4635, a.fact(face, "thickness-after"), 1e-9)
	now, _ := a.open(face)
	require.Equal(t, []string{"skim", "another-head"}, now)
	a = assess(t, corners(3.4655)...)
	now, ever := a.open(face)
	require.Equal(t, []string{"another-head"}, now)
	require.NotContains(t, ever, "skim")
	require.Contains(t, a.problems(), "the head is too thin to be skimmed: 3.459 in would be left")
}

// Studs are paid by their number; until they are counted one and a half are held.
func TestBrokenStuds(t *testing.T) {
	hours := func(a answer, id string) float64 {
		for _, o := range a.Operations {
			if o.ID == id {
				return o.Hours.Likely
			}
		}
		t.Fatalf("no operation %s", id)
		return 0
	}
	a := assess(t)
	require.Equal(t, []string{"extract-studs-uncounted"}, a.remedy("manifold-stud", "", "extract").Operations)
	require.InDelta(t, 1.5*.8, hours(a, "extract-studs-uncounted"), 1e-9)
	for n, op := range map[int]string{1: "extract-stud", 3: "extract-stud-x3"} {
		a = assess(t, found("manifold-stud", "", "broken", "", count(n)))
		require.Equal(t, []string{op}, a.remedy("manifold-stud", "", "extract").Operations)
		require.InDelta(t, .8*float64(n), hours(a, op), 1e-9)
		require.Equal(t, []string{"manifold-stud-set", op}, a.remedy("manifold-stud", "", "new-set").Operations)
	}
}

// A valve, its guide and its seat (M08): what renews a guide or a valve never leaves the seat as it was.
func TestValveGuideAndSeat(t *testing.T) {
	a := assess(t)
	for _, kind := range []string{"inlet", "exhaust"} {
		want := []core.RemedyRef{{Target: at(kind+"-seat", "3"), Remedy: "reuse"}}
		require.Equal(t, want, a.remedy(kind+"-guide", "3", "new-guide").Excludes)
		require.Equal(t, want, a.remedy(kind+"-valve", "3", "new-valve").Excludes)
	}
}

// Inlet and exhaust carry the same limit wherever the table of limits speaks of all valves, seats or stems at once.
func TestInletAndExhaustAlike(t *testing.T) {
	p, err := sdk.New(Subsystem())
	require.NoError(t, err)
	s, _, err := p.Describe(context.Background(), nil)
	require.NoError(t, err)
	for _, c := range [][2]string{{"seat", "runout"}, {"seat", "recession"}, {"valve", "face-runout"}, {"valve", "stem-wear"}} {
		require.Equal(t, s.Check("inlet-"+c[0], c[1]).Limit, s.Check("exhaust-"+c[0], c[1]).Limit)
	}
}

// What is one job is one operation, and the larger includes the smaller.
func TestSharedWork(t *testing.T) {
	a := assess(t)
	for _, r := range [][3]string{{"inlet-guide", "1", "new-guide"}, {"exhaust-valve", "4", "new-valve"}, {"inlet-seat", "2", "recut"}} {
		require.Equal(t, []string{"head-overhaul"}, a.remedy(r[0], r[1], r[2]).Operations)
	}
	require.Equal(t, []string{"exhaust-inserts", "head-overhaul"}, a.remedy("exhaust-seat", "4", "insert").Operations)
	require.Equal(t, []string{"inlet-insert/4", "head-overhaul"}, a.remedy("inlet-seat", "4", "insert").Operations)
	require.Equal(t, []string{"decoke"}, a.remedy("valve-spring", "1", "new-set").Operations)
	for _, o := range a.Operations {
		if o.ID == "head-overhaul" {
			require.Equal(t, []string{"decoke", "skim-head"}, o.Includes)
		}
	}
}

// What an engine does not have is not asked for: gears where a chain runs, a tensioner where none is fitted.
func TestPartsThatAreNotThere(t *testing.T) {
	for _, c := range assess(t).Conditions {
		require.NotContains(t, []string{"timing-gears", "chain-tensioner"}, c.Target.Part)
	}
}

func TestEvidenceIsTold(t *testing.T) {
	a := assess(t, found("exhaust-valve", "2", "straight", "", passes(false)), found("exhaust-seat", "3", "recession", "", inch(.025)),
		found("pushrod", "4", "runout", "", inch(.03)), found("tappet", "5", "foot-wear", "", class(3)), found("tappet", "6", "foot-wear", "", class(1)))
	for _, want := range []string{"the exhaust valve is bent -> look at the crown", "the exhaust seat has sunk -> hard inserts are advised", "the pushrod is bent", "the foot of the tappet is worn flat or hollow"} {
		require.Contains(t, a.problems(), want)
	}
	var told []core.Target
	for _, p := range a.Problems {
		told = append(told, p.Target)
	}
	require.Equal(t, []core.Target{at("exhaust-valve", "2"), at("pushrod", "4"), at("tappet", "5"), at("exhaust-seat", "3")}, told)
}

// Face and thickness go with their head: another head brings them, and where they are used again the head is.
func TestFaceGoesWithItsHead(t *testing.T) {
	a := assess(t)
	another := []core.RemedyRef{{Target: at("head", ""), Remedy: "another-head"}}
	for _, part := range []string{"head-face", "head-thickness"} {
		require.Equal(t, another, a.remedy(part, "", "another-head").Requires, part)
		require.Equal(t, another, a.remedy(part, "", "reuse").Excludes, part)
	}
	require.Equal(t, another, a.remedy("head-face", "", "skim").Excludes)
}
