package brakes

import (
	"context"
	"fmt"
	"testing"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
	"github.com/stretchr/testify/require"
)

// bench collects what was found of one vehicle, and asks the whole plugin.
type bench struct {
	t         *testing.T
	findings  []core.Finding
	overrides []core.Override
}

func newBench(t *testing.T) *bench { return &bench{t: t} }

func (b *bench) find(part, position, check, station string, v core.Value) *bench {
	id := fmt.Sprintf("%s/%s/%s/%s", part, position, check, station)
	b.findings = append(b.findings, core.Finding{ID: id, Target: target(part, position), Check: check, Station: station, Value: v, AsTyped: v.String()})
	return b
}

func (b *bench) size(part, position, check, station string, in float64) *bench {
	return b.find(part, position, check, station, core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: in, Unit: "in"}})
}

func (b *bench) pass(part, position, check string, ok bool) *bench {
	return b.find(part, position, check, "", core.Value{Kind: core.ValuePass, Pass: ok})
}

func (b *bench) class(part, position, check string, n int) *bench {
	return b.find(part, position, check, "", core.Value{Kind: core.ValueClass, Class: n})
}

func (b *bench) count(part, position, check string, n int) *bench {
	return b.find(part, position, check, "", core.Value{Kind: core.ValueCount, Count: n})
}

// drum reads a drum that is round and parallel, with its deepest score, and sound in all else.
func (b *bench) drum(position string, diameter, score float64) *bench {
	for _, s := range []string{"O1", "O2", "O3", "O4", "I1", "I2", "I3", "I4"} {
		b.size("drum", position, "max-diameter", s, diameter)
	}
	return b.size("drum", position, "score-depth", "", score).size("drum", position, "runout", "", .002).
		count("drum", position, "cracks", 0).class("drum", position, "heat", 0)
}

// shoes reads the shoes of a wheel, sound in all but their lining's height above the rivets.
func (b *bench) shoes(position string, lining float64) *bench {
	for _, s := range []string{"leading", "trailing"} {
		b.size("shoe", position, "lining", s, lining)
	}
	return b.soundShoes(position)
}

// worn reads the shoes of a wheel as sound but for one check that fails.
func (b *bench) worn(position, fails string) *bench {
	for _, s := range []string{"leading", "trailing"} {
		b.size("shoe", position, "lining", s, .15)
	}
	return b.pass("shoe", position, "dry", fails != "dry").pass("shoe", position, "whole", fails != "whole").class("shoe", position, "table", 0)
}

func (b *bench) soundShoes(position string) *bench {
	return b.pass("shoe", position, "dry", true).pass("shoe", position, "whole", true).class("shoe", position, "table", 0)
}

// cylinder reads a front cylinder by its clearance and its pits.
func (b *bench) cylinder(position string, clearance float64, pits int) *bench {
	return b.size("front-cylinder", position, "clearance", "bore", 1+clearance).size("front-cylinder", position, "clearance", "piston", 1).
		class("front-cylinder", position, "pits", pits).pass("front-cylinder", position, "size", true)
}

func (b *bench) assess() answer {
	b.t.Helper()
	p, err := sdk.New(Subsystem())
	require.NoError(b.t, err)
	in := func(name string, v float64) core.Fact {
		return core.Fact{Name: name, Source: "demonstration vehicle", Value: core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: v, Unit: "in"}}}
	}
	a, err := p.Assess(context.Background(), core.AssessRequest{Unit: "vehicle", Facts: []core.Fact{in("D", 12), in("D_hand", 8)}, Findings: b.findings, Overrides: b.overrides})
	require.NoError(b.t, err)
	return answer{b.t, a}
}

func target(part, position string) core.Target { return core.Target{Part: part, Position: position} }

// answer is what the plugin said.
type answer struct {
	t *testing.T
	core.Assessment
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

func (a answer) remedy(part, position, id string) core.Remedy {
	a.t.Helper()
	for _, r := range a.Remedies {
		if r.Target == target(part, position) && r.ID == id {
			return r
		}
	}
	a.t.Fatalf("no remedy %s of %s/%s", id, part, position)
	return core.Remedy{}
}

// open lists the remedies that are feasible now.
func (a answer) open(part, position string) (ids []string) {
	for _, r := range a.Remedies {
		if r.Target == target(part, position) && r.Feasible {
			ids = append(ids, r.ID)
		}
	}
	return ids
}

// ever lists the remedies of every state.
func (a answer) ever(part, position string) (ids []string) {
	for _, s := range a.condition(part, position).States {
		ids = append(ids, s.Remedies...)
	}
	return ids
}

// why is all that a remedy says for or against itself.
func (a answer) why(part, position, id string) (s string) {
	a.t.Helper()
	for _, w := range a.remedy(part, position, id).Why {
		s += w.Text + "\n"
	}
	return s
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
