package hubswheels

import (
	"context"
	"fmt"
	"testing"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
	"github.com/stretchr/testify/require"
)

// bench collects what is known and found of one vehicle, and asks the whole plugin.
type bench struct {
	t        *testing.T
	facts    []core.Fact
	findings []core.Finding
}

// newBench is the invented demonstration vehicle: tyres that roll 88 in, hub nuts of 16 threads to the inch locked every 30 degrees.
func newBench(t *testing.T) *bench {
	return (&bench{t: t}).fact("t_rim", reads(.16, "in")).fact("C_tyre", reads(88, "in")).fact("nut_threads", count(16)).fact("nut_lock_step", reads(30, "deg"))
}

func (b *bench) fact(name string, v core.Value) *bench {
	b.facts = append(b.facts, core.Fact{Name: name, Value: v, Source: "demonstration vehicle"})
	return b
}

func reads(x float64, unit string) core.Value {
	return core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: x, Unit: unit}}
}
func passes(ok bool) core.Value       { return core.Value{Kind: core.ValuePass, Pass: ok} }
func class(n int) core.Value          { return core.Value{Kind: core.ValueClass, Class: n} }
func count(n int) core.Value          { return core.Value{Kind: core.ValueCount, Count: n} }
func target(p, at string) core.Target { return core.Target{Part: p, Position: at} }

func (b *bench) find(part, position, check, station string, v core.Value) *bench {
	id := fmt.Sprintf("%s/%s/%s/%s", part, position, check, station)
	b.findings = append(b.findings, core.Finding{ID: id, Target: target(part, position), Check: check, Station: station, Value: v, AsTyped: v.String()})
	return b
}

func (b *bench) in(part, position, check string, x float64) *bench {
	return b.find(part, position, check, "", reads(x, "in"))
}

func (b *bench) studs(position string, bent, missing int, alike bool) *bench {
	return b.find("wheel-stud", position, "bent", "", count(bent)).find("wheel-stud", position, "missing", "", count(missing)).find("wheel-stud", position, "handing", "", passes(alike))
}

type answer struct {
	t *testing.T
	core.Assessment
}

func (b *bench) assess() answer {
	b.t.Helper()
	p, err := sdk.New(Subsystem())
	require.NoError(b.t, err)
	a, err := p.Assess(context.Background(), core.AssessRequest{Unit: "vehicle", Facts: b.facts, Findings: b.findings})
	require.NoError(b.t, err)
	return answer{b.t, a}
}

func (a answer) condition(part, position string) core.Condition {
	a.t.Helper()
	for _, c := range a.Conditions {
		if c.Target == target(part, position) {
			return c
		}
	}
	a.t.Fatalf("no condition of %s/%s", part, position)
	return core.Condition{}
}

// open lists the remedies that are feasible now, and those of any state.
func (a answer) open(part, position string) (now, ever []string) {
	for _, r := range a.Remedies {
		if r.Target == target(part, position) && r.Feasible {
			now = append(now, r.ID)
		}
	}
	for _, s := range a.condition(part, position).States {
		ever = append(ever, s.Remedies...)
	}
	return now, ever
}

func (a answer) remedy(part, position, id string) core.Remedy {
	for _, r := range a.Remedies {
		if r.Target == target(part, position) && r.ID == id {
			return r
		}
	}
	a.t.Fatalf("no remedy %s of %s/%s", id, part, position)
	return core.Remedy{}
}

// What is never used again, in no state (N04, N11, N12, N13, N23; a dented bearing; a grooved spindle thread). Sources
// stand in the sheet: 49 CFR 393.205, read in summary; 570.9, 570.10(b), 570.62; common practice.
func TestNeverReused(t *testing.T) {
	for _, c := range []struct {
		name, part, position, check string
		v                           core.Value
		open                        []string
	}{
		{"stub axle cracked", "stub-axle", "LF", "crack-test", passes(false), []string{"replace-spindle"}},
		{"stub axle worn past its limit", "stub-axle", "LF", "race-fit", reads(.003, "in"), []string{"replace-spindle"}},
		{"spindle thread grooved", "stub-axle", "RR", "thread", class(1), []string{"replace-spindle"}},
		{"cup dented", "bearing-cup", "LF", "marks", class(1), []string{"new-bearings"}},
		{"cone blue", "bearing-cone", "RF", "marks", class(2), []string{"new-bearings"}},
		{"wheel cracked or welded", "wheel", "spare", "cracks", count(1), []string{"replace-wheel"}},
		{"stud hole egged", "wheel", "LF", "hole-elongation", reads(.03, "in"), []string{"replace-wheel"}},
		{"wheel out of round", "wheel", "LR", "radial-runout", reads(.15, "in"), []string{"replace-wheel"}},
		{"wheel buckled", "wheel", "LR", "lateral-runout", reads(.15, "in"), []string{"replace-wheel"}},
		{"odd wheel", "wheel", "spare", "pattern", passes(false), []string{"replace-wheel"}},
		{"wheel nuts mixed", "wheel-nut", "RR", "cone-seat", count(3), []string{"new-nuts"}},
		{"tyre shows cord", "tyre", "LR", "sidewall", class(2), []string{"matching-tyre", "new-set"}},
		{"tyre worn out", "tyre", "RR", "tread", reads(.05, "in"), []string{"matching-tyre", "new-set"}},
		{"tyre of 13 years", "tyre", "spare", "age", reads(13, "a"), []string{"matching-tyre", "new-set"}},
		{"front tyre of a heavy truck", "tyre", "LF", "tread-heavy-front", reads(.1, "in"), []string{"matching-tyre", "new-set"}},
		{"lock washer missing", "lock-washer", "LF", "always-new", core.Value{Kind: core.ValueNotRead, NotRead: core.PartMissing}, []string{"new"}},
		{"split pin missing", "split-pin", "LF", "always-new", core.Value{Kind: core.ValueNotRead, NotRead: core.PartMissing}, []string{"new"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := newBench(t)
			if p, err := sdk.New(Subsystem()); err == nil {
				s, _, _ := p.Describe(context.Background(), b.facts)
				if check := s.Check(c.part, c.check); check != nil && len(check.Stations) > 0 && check.Kind != core.Derived {
					for _, station := range check.Stations {
						b.find(c.part, c.position, c.check, station, c.v)
					}
				} else {
					b.find(c.part, c.position, c.check, "", c.v)
				}
			}
			a := b.assess()
			require.Equal(t, core.Failed, a.condition(c.part, c.position).Grade)
			now, ever := a.open(c.part, c.position)
			require.Equal(t, c.open, now)
			require.NotContains(t, ever, "reuse")
		})
	}
}

// One bad stud is one stud; two, or one that is gone, are all of the hub (N11; 49 CFR 393.205, read in summary).
func TestStuds(t *testing.T) {
	for _, c := range []struct {
		name  string
		bench *bench
		open  []string
	}{
		{"sound", newBench(t).studs("LF", 0, 0, true), []string{"reuse", "one-stud", "all-studs"}},
		{"one bent", newBench(t).studs("LF", 1, 0, true), []string{"one-stud", "all-studs"}},
		{"two bent", newBench(t).studs("LF", 2, 0, true), []string{"all-studs"}},
		{"one gone", newBench(t).studs("LF", 0, 1, true), []string{"all-studs"}},
		{"one bent, one gone", newBench(t).studs("LF", 1, 1, true), []string{"all-studs"}},
		{"left-hand threads among them", newBench(t).studs("LF", 0, 0, false), []string{"all-studs"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			now, _ := c.bench.assess().open("wheel-stud", "LF")
			require.Equal(t, c.open, now)
		})
	}
}

// The hand of the threads is looked at before studs are ordered: one side may be left-handed (common practice).
func TestHandOfThreadsIsReadFirst(t *testing.T) {
	bent := func() *bench { return newBench(t).find("wheel-stud", "RF", "bent", "", count(2)) }
	require.Contains(t, fmt.Sprint(bent().assess().Problems), "hub RF: the hand of its studs' threads is not read")
	require.NotContains(t, fmt.Sprint(bent().find("wheel-stud", "RF", "handing", "", passes(true)).assess().Problems), "the hand of")
	require.NotContains(t, fmt.Sprint(newBench(t).assess().Problems), "the hand of")
}

// Cup and cone of a hub are one bearing: its chance is told once at each hub, and not once for each piece (common practice).
func TestCupAndConeAreOneEvent(t *testing.T) {
	a := newBench(t).assess()
	for _, part := range []string{"bearing-cup", "bearing-cone"} {
		states := a.condition(part, "LR").States
		require.Len(t, states, 2)
		require.Equal(t, "hub-bearings/LR", states[1].RegisterID)
		require.InDelta(t, .60, states[1].Chance, 1e-9)
	}
}

// Worked example of the trade: .012 in found, 16 threads, 30 degree locks: 51.8 degrees, locked at 60 (common practice).
func TestHubNutIsTurned(t *testing.T) {
	a := newBench(t).in("hub-bearing", "LF", "end-float", .012).in("hub-bearing", "RF", "end-float", .003).assess()
	require.Equal(t, core.PastLimit, a.condition("hub-bearing", "LF").Grade)
	require.Contains(t, fmt.Sprint(a.remedy("hub-bearing", "LF", "adjust").Why), "51.8 degrees by the sum; lock it at 60 degrees in, which leaves 0.0016")
	require.NotContains(t, fmt.Sprint(a.remedy("hub-bearing", "RF", "adjust").Why), "degrees")
	a = newBench(t).in("hub-bearing", "RR", "end-float", 0).assess()
	require.Equal(t, core.TooTight, a.condition("hub-bearing", "RR").Grade)
	require.Contains(t, fmt.Sprint(a.Problems), "never back it off")
}

// Worked example of the trade: rolled 88.4 in at the most, 87.6 at the least, mean 88.0: .91 %, near the limit of 1 %:
// matched, not reused (N21 is safety; common practice).
func TestTyresRollApart(t *testing.T) {
	b := newBench(t)
	for position, x := range map[string]float64{"LF": 88.4, "RF": 87.9, "LR": 87.6, "RR": 88.1} {
		b.in("tyre", position, "rolled-circumference", x)
	}
	a := b.assess()
	c := a.condition("tyre-set", "")
	require.Equal(t, core.NearLimit, c.Grade)
	require.InDelta(t, .82, *c.Wear, .005)
	now, _ := a.open("tyre-set", "")
	require.Equal(t, []string{"match", "new-set"}, now)
	a = newBench(t).find("tyre-set", "", "circumference-spread", "longest", reads(101, "%")).find("tyre-set", "", "circumference-spread", "shortest", reads(99.2, "%")).assess()
	require.Equal(t, core.Failed, a.condition("tyre-set", "").Grade)
	now, ever := a.open("tyre-set", "")
	require.Equal(t, []string{"match", "new-set"}, now)
	require.NotContains(t, ever, "reuse")
}

// Three tyres rolled of four tell nothing of the set.
func TestTyresNotAllRolled(t *testing.T) {
	b := newBench(t)
	for _, position := range []string{"LF", "RF", "LR"} {
		b.in("tyre", position, "rolled-circumference", 88)
	}
	require.Equal(t, core.NotSeen, b.assess().condition("tyre-set", "").Grade)
}

// The same tread of 3/32 in is fit in front of a light vehicle and not in front of one over 10 000 lb gross
// (49 CFR 570.9, from memory of text; 570.62).
func TestTreadByGrossWeight(t *testing.T) {
	for _, c := range []struct {
		gross    float64
		position string
		grade    core.Grade
	}{{5400, "LF", core.NearLimit}, {12000, "LF", core.Failed}, {12000, "LR", core.NearLimit}} {
		b := newBench(t).fact("gross", reads(c.gross, "lb")).find("tyre", c.position, "age", "", reads(3, "a")).find("tyre", c.position, "sidewall", "", class(0))
		for _, station := range []string{"A", "B", "C"} {
			b.find("tyre", c.position, "tread", station, reads(3./32, "in"))
		}
		require.Equal(t, c.grade, b.assess().condition("tyre", c.position).Grade, "%v", c)
	}
}

// A seat near its limit is built up; past it the stub axle is replaced (N04). A hub whose race has spun is sleeved.
func TestSeats(t *testing.T) {
	b := newBench(t).in("stub-axle", "LF", "race-fit", .002).find("stub-axle", "LF", "crack-test", "", passes(true)).find("stub-axle", "LF", "thread", "", class(0))
	now, _ := b.assess().open("stub-axle", "LF")
	require.Equal(t, []string{"build-up", "replace-spindle"}, now)
	a := newBench(t).in("hub", "LF", "race-fit", .0004).in("hub", "LF", "flange-runout", .001).assess()
	require.Equal(t, core.PastLimit, a.condition("hub", "LF").Grade)
	now, _ = a.open("hub", "LF")
	require.Equal(t, []string{"sleeve", "replace-hub"}, now)
	now, _ = newBench(t).in("hub", "LF", "race-fit", -.002).in("hub", "LF", "flange-runout", .008).assess().open("hub", "LF")
	require.Equal(t, []string{"sleeve", "skim", "replace-hub"}, now)
}

// One hub is opened once: seal, lock washer, split pin and float are one operation, which new bearings include.
func TestSharedWork(t *testing.T) {
	a := newBench(t).assess()
	require.Equal(t, []string{"repack-hub/LF"}, a.remedy("hub-bearing", "LF", "adjust").Operations)
	require.Equal(t, []string{"repack-hub/LF"}, a.remedy("hub-seal", "LF", "new").Operations)
	require.Equal(t, []string{"repack-hub/LF"}, a.remedy("lock-washer", "LF", "new").Operations)
	for _, o := range a.Operations {
		switch o.ID {
		case "new-bearings/LF":
			require.Equal(t, []string{"repack-hub/LF"}, o.Includes)
		case "tyre-set":
			require.Contains(t, o.Includes, "new-tube/spare")
		}
	}
}
