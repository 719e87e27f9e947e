package cylinders

import (
	"context"
	"fmt"
	"testing"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
	"github.com/stretchr/testify/require"
)

// tolerance is what a worked sum in inches may differ by.
const tolerance = .00005

// bench collects what is known and found of one block, and asks the whole plugin.
type bench struct {
	t        *testing.T
	facts    []core.Fact
	findings []core.Finding
}

// newBench is the invented demonstration engine, of 3.375 in bore.
func newBench(t *testing.T) *bench {
	return (&bench{t: t}).fact("B", inch(3.375))
}

func inch(v float64) core.Value {
	return core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: v, Unit: "in"}}
}

func count(n int) core.Value { return core.Value{Kind: core.ValueCount, Count: n} }

func (b *bench) fact(name string, v core.Value) *bench {
	b.facts = append(b.facts, core.Fact{Name: name, Value: v, Source: "demonstration engine"})
	return b
}

func (b *bench) find(part, position, check, station string, v core.Value) *bench {
	id := fmt.Sprintf("%s/%s/%s/%s", part, position, check, station)
	b.findings = append(b.findings, core.Finding{ID: id, Target: core.Target{Part: part, Position: position}, Check: check, Station: station, Value: v, AsTyped: v.String()})
	return b
}

func (b *bench) size(part, position, check, station string, in float64) *bench {
	return b.find(part, position, check, station, inch(in))
}

func (b *bench) pressure(position, check string, psi float64) *bench {
	return b.find("cylinder", position, check, "", core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: psi, Unit: "psi"}})
}

// bore reads the six diameters of a bore, its ridge, and no pit.
func (b *bench) bore(position string, six ...float64) *bench {
	for i, x := range six {
		b.size("bore", position, "over-standard", stations[i], x)
	}
	return b.size("bore", position, "ridge-height", "", .001).size("bore-surface", position, "pit-depth", "", 0)
}

// worn is the trade's worked example of a block, common practice.
func (b *bench) worn() *bench {
	return b.bore("1", 3.3832, 3.3801, 3.3810, 3.3790, 3.3768, 3.3764).bore("2", 3.3846, 3.3808, 3.3818, 3.3795, 3.3770, 3.3765).
		bore("3", 3.3851, 3.3812, 3.3822, 3.3796, 3.3769, 3.3765).bore("4", 3.3838, 3.3803, 3.3813, 3.3791, 3.3767, 3.3764)
}

// set replaces what was found.
func (b *bench) set(part, position, check, station string, v core.Value) *bench {
	for i := range b.findings {
		if f := &b.findings[i]; f.Target == (core.Target{Part: part, Position: position}) && f.Check == check && f.Station == station {
			f.Value, f.AsTyped = v, v.String()
			return b
		}
	}
	return b.find(part, position, check, station, v)
}

func (b *bench) assess() answer {
	b.t.Helper()
	p, err := sdk.New(Subsystem())
	require.NoError(b.t, err)
	a, err := p.Assess(context.Background(), core.AssessRequest{Unit: "engine", Facts: b.facts, Findings: b.findings})
	require.NoError(b.t, err)
	return answer{b.t, a}
}

// answer is what the plugin said.
type answer struct {
	t *testing.T
	core.Assessment
}

func (a answer) condition(part, position string) core.Condition {
	a.t.Helper()
	for _, c := range a.Conditions {
		if c.Target == (core.Target{Part: part, Position: position}) {
			return c
		}
	}
	a.t.Fatalf("no condition of %s/%s", part, position)
	return core.Condition{}
}

// open lists the feasible remedies of a target.
func (a answer) open(part, position string) []string {
	var ids []string
	for _, r := range a.Remedies {
		if r.Target == (core.Target{Part: part, Position: position}) && r.Feasible {
			ids = append(ids, r.ID)
		}
	}
	return ids
}

func (a answer) remedy(part, position, id string) core.Remedy {
	a.t.Helper()
	for _, r := range a.Remedies {
		if r.Target == (core.Target{Part: part, Position: position}) && r.ID == id {
			return r
		}
	}
	a.t.Fatalf("no remedy %s of %s/%s", id, part, position)
	return core.Remedy{}
}

// closedBecause is the last reason of a remedy that is not open.
func (a answer) closedBecause(part, position, id string) string {
	a.t.Helper()
	r := a.remedy(part, position, id)
	require.False(a.t, r.Feasible, "%s is open", id)
	return r.Why[len(r.Why)-1].Text
}

// fact gives a fact of a condition.
func (a answer) fact(part, position, name string) float64 {
	a.t.Helper()
	for _, f := range a.condition(part, position).Facts {
		if f.Name == name {
			return f.Value.Quantity.Value
		}
	}
	a.t.Fatalf("no fact %s of %s/%s", name, part, position)
	return 0
}

func (a answer) problems() string {
	s := ""
	for _, p := range a.Problems {
		s += p.Summary + " -> " + p.Next + "\n"
	}
	return s
}

// agreed lists the sizes that bores and pistons could all take, in the order of the steps.
func (a answer) agreed() (all []string) {
	open := map[string]int{}
	n := 0
	for _, c := range a.Conditions {
		if c.Target.Part != "bore" && c.Target.Part != "piston" {
			continue
		}
		n++
		seen := map[string]bool{}
		for _, r := range a.Remedies {
			for _, y := range r.Yields {
				if r.Target == c.Target && r.Feasible && y.Key == key && !seen[y.Value] {
					seen[y.Value] = true
					open[y.Value]++
				}
			}
		}
	}
	for _, k := range []string{"0", ".020", ".030", ".040", ".060", "other"} {
		if open[k] == n {
			all = append(all, k)
		}
	}
	return all
}

// New pistons are a new set: they come matched, and nobody pays for matching those that leave. Matching keeps the old.
func TestNewPistonsAreASet(t *testing.T) {
	a := newBench(t).worn().assess()
	pistons := func(r core.Remedy) string {
		for _, y := range r.Yields {
			if y.Key == "pistons" {
				return y.Value
			}
		}
		return ""
	}
	for id, want := range map[string]string{"reuse": "old", "match": "old", "new-set": "new"} {
		require.Equal(t, want, pistons(a.remedy("piston-set", "", id)), id)
	}
	require.Equal(t, "new", pistons(a.remedy("piston", "1", "oversize-020")))
	require.Equal(t, "old", pistons(a.remedy("piston", "1", "reuse")))
}

// A rebore is one low risk, .03, of four bores and their pistons.
func TestReboreIsOneRisk(t *testing.T) {
	sum := 0.0
	for _, r := range newBench(t).assess().Remedies {
		if r.ID == "rebore-020" || r.ID == "oversize-020" {
			sum += r.ResidualChance
		}
	}
	require.InDelta(t, .03, sum, .005)
}
