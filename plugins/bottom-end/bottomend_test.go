package bottomend

import (
	"context"
	"fmt"
	"testing"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
	"github.com/stretchr/testify/require"
)

// micrometer is how far an outside micrometer may be off, in inches (common practice, no source).
const micrometer = .0001

// bench collects what is known and found of one engine, and asks the whole plugin.
type bench struct {
	t        *testing.T
	facts    []core.Fact
	findings []core.Finding
}

// newBench is the invented demonstration engine: mains 2.500 in, pins 2.000 in, thrust washers .0930 in.
func newBench(t *testing.T) *bench {
	b := &bench{t: t}
	for _, f := range []struct {
		name string
		in   float64
	}{{"D", 2.5}, {"DP", 2}, {"L_bolt", 2.5}, {"L_spring", 2.2}, {"T_thrust", .093}} {
		b.fact(f.name, core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: f.in, Unit: "in"}})
	}
	return b
}

func (b *bench) fact(name string, v core.Value) *bench {
	b.facts = append(b.facts, core.Fact{Name: name, Value: v, Source: "demonstration engine"})
	return b
}

func (b *bench) find(part, position, check, station string, v core.Value) *bench {
	id := fmt.Sprintf("%s/%s/%s/%s", part, position, check, station)
	b.findings = append(b.findings, core.Finding{ID: id, Target: core.Target{Part: part, Position: position}, Check: check, Station: station, Value: v, AsTyped: v.String()})
	return b
}

func (b *bench) size(part, position, check, station string, in, bound float64) *bench {
	return b.find(part, position, check, station, core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: in, Unit: "in", Bound: bound}})
}

func (b *bench) pass(part, position, check string, pass bool) *bench {
	return b.find(part, position, check, "", core.Value{Kind: core.ValuePass, Pass: pass})
}

// journal reads the four diameters of a journal, and no score.
func (b *bench) journal(part, position string, fv, fh, rv, rh float64) *bench {
	for i, x := range []float64{fv, fh, rv, rh} {
		b.size(part, position, "diameter", stations[i], x, micrometer)
	}
	return b.size(part, position, "score-depth", "", 0, 0)
}

// soundCrank reads the crank as good in everything but its end float.
func (b *bench) soundCrank(endFloat float64) *bench {
	return b.size("crankshaft", "", "runout", "", .0005, 0).size("crankshaft", "", "end-float", "", endFloat, 0).
		pass("crankshaft", "", "crack-test", true).pass("crankshaft", "", "fillets", true)
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
	require.False(a.t, r.Feasible)
	return r.Why[len(r.Why)-1].Text
}

// fact gives a fact of a condition, in inches.
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

// agreed is the smallest step open to every journal of a group, "0" for reuse, as its set would agree on it.
func (a answer) agreed(g group, positions ...string) string {
	keys := map[string]int{}
	for _, pos := range positions {
		seen := map[string]bool{}
		for _, r := range a.Remedies {
			if r.Target != (core.Target{Part: g.part, Position: pos}) || !r.Feasible {
				continue
			}
			for _, y := range r.Yields {
				if y.Key == g.key && !seen[y.Value] {
					seen[y.Value] = true
					keys[y.Value]++
				}
			}
		}
	}
	for _, k := range []string{"0", ".010", ".020", ".030", ".040", "welded", "other"} {
		if keys[k] == len(positions) {
			return k
		}
	}
	return ""
}
