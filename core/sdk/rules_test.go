package sdk_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

// A crank at a standard undersize is graded against that step's nominal (common practice, no source).
func TestPrepareSetsLimits(t *testing.T) {
	p := bench(t, sdk.Subsystem{Prepare: func(p *sdk.Prepare) {
		step, ok := p.Fact("present-step")
		if !ok {
			return
		}
		for _, target := range p.Sheet.Part("journal").Targets() {
			l, ok := p.Limit(target, "diameter")
			require.True(t, ok)
			for _, b := range []*float64{l.NewLow, l.NewHigh, l.WearLow} {
				*b -= step.Quantity.Value
			}
			l.Source += "; at the step marked"
			p.SetLimit(target, "diameter", l)
		}
	}})
	at := journal(0, 2.4899, 2.4899, 2.4899, 2.4899)
	require.Equal(t, core.PastLimit, conditionOf(t, assess(t, p, at...), m1).Grade)
	a, err := p.Assess(t.Context(), core.AssessRequest{Facts: []core.Fact{nominal, {Name: "present-step", Value: size(.010, "in")}}, Findings: at})
	require.NoError(t, err)
	c := conditionOf(t, a, m1)
	require.Equal(t, core.WithinNew, c.Grade)
	require.Equal(t, "diameter 2.4899 in at FV, limit 2.4885 in at least (common practice, no source; at the step marked): within new", c.Reasons[0].Text)
	require.Equal(t, core.PastLimit, conditionOf(t, assess(t, p, at...), m1).Grade, "the next call starts from the sheet")
}

// A rule may work out what no formula of the sheet can reach.
func TestPrepareSupplies(t *testing.T) {
	p := bench(t, sdk.Subsystem{Prepare: func(p *sdk.Prepare) {
		q, id, ok := p.Reading(m1, "diameter", "RV")
		if ok {
			p.Supply(gear, "backlash", core.Quantity{Value: q.Value - 2.49, Unit: "in", Bound: q.Bound}, id)
		}
	}})
	a := assess(t, p, found("rv", m1, "diameter", "RV", size(2.499, "in", .0001)))
	c := conditionOf(t, a, gear)
	require.Equal(t, "backlash", c.Facts[0].Name)
	require.InDelta(t, .009, c.Facts[0].Value.Quantity.Value, 1e-12)
	require.Equal(t, 1, c.ReadingsTaken)
	require.Equal(t, []string{"rv"}, c.Reasons[1].FindingIDs)
}

func TestRulesCloseAndAdd(t *testing.T) {
	step := core.Remedy{ID: "regrind-020", Kind: core.Rebuild, Name: "Regrind to .020", Target: m1, Feasible: true, Operations: []string{"grind-020"}}
	p := bench(t, sdk.Subsystem{Rules: func(b *sdk.Bench) {
		oor, ok := b.Derived(m1, "out-of-round")
		require.True(t, ok)
		require.InDelta(t, .002, oor.Value, 1e-9)
		_, id, ok := b.Reading(m1, "diameter", "RV")
		require.True(t, ok)
		b.Close(m1, "regrind", core.Reason{Text: "the step .010 does not clean up", FindingIDs: []string{id}, Check: "diameter", Source: "common practice, no source"})
		b.AddOperation(core.Operation{ID: "grind-020", Name: "Grind to .020", ServedPer: "job"})
		b.AddRemedy(step)
		b.AddFact(m1, core.Fact{Name: "step", Value: size(.020, "in"), Source: "worked out"})
		b.Problem(core.Problem{Severity: core.SeverityNote, Summary: "close: ask the grinder", Target: m1})
		b.Remedy(m1, "another").Name = "Another crankshaft, then grind it"
	}})
	a := assess(t, p, journal(0, 2.4950, 2.4968, 2.4946, 2.4966)...)
	require.Equal(t, []string{"regrind-020", "another"}, feasible(a, m1))
	c := conditionOf(t, a, m1)
	require.Equal(t, []string{"regrind-020", "another"}, c.States[0].Remedies)
	require.Equal(t, "the step .010 does not clean up", remedyOf(t, a, m1, "regrind").Why[len(remedyOf(t, a, m1, "regrind").Why)-1].Text)
	require.Equal(t, "Grind to .020", operationOf(t, a, "grind-020").Name)
	require.Equal(t, "step", c.Facts[len(c.Facts)-1].Name)
	require.Equal(t, "Another crankshaft, then grind it", remedyOf(t, a, m1, "another").Name)
	require.Equal(t, "close: ask the grinder", a.Problems[0].Summary)
}

// A rule that breaks its promises fails the call, and says whose fault it is.
func TestRulesAtFault(t *testing.T) {
	nowhere := core.Target{Part: "wheel"}
	for _, c := range []struct {
		name, want string
		s          sdk.Subsystem
	}{
		{"reopens reuse", "reopen reuse of journal/M1, which is past limit", sdk.Subsystem{Rules: func(b *sdk.Bench) {
			b.AddRemedy(core.Remedy{ID: "reuse", Kind: core.Reuse, Target: m1, Feasible: true})
		}}},
		{"opens reuse by hand", "open reuse of journal/M1, which is past limit", sdk.Subsystem{Rules: func(b *sdk.Bench) {
			b.Remedy(m1, "reuse").Feasible = true
		}}},
		{"closes everything", "leave no remedy for journal/M1", sdk.Subsystem{Rules: func(b *sdk.Bench) {
			b.Close(m1, "regrind", core.Reason{})
			b.Close(m1, "another", core.Reason{})
		}}},
		{"an operation nobody knows", "names the operation dance", sdk.Subsystem{Rules: func(b *sdk.Bench) {
			b.Remedy(m1, "regrind").Operations = []string{"dance"}
		}}},
		{"a remedy of nothing", "no remedy x of wheel", sdk.Subsystem{Rules: func(b *sdk.Bench) { b.Close(nowhere, "x", core.Reason{}) }}},
		{"a limit of nothing", "no check diameter of wheel", sdk.Subsystem{Prepare: func(p *sdk.Prepare) { p.SetLimit(nowhere, "diameter", core.Limit{}) }}},
		{"a limit without a source", "names no source", sdk.Subsystem{Prepare: func(p *sdk.Prepare) {
			p.SetLimit(lf, "diameter", core.Limit{WearHigh: new(12.1), Unit: "in"})
		}}},
		{"a value in another unit", "is no size", sdk.Subsystem{Prepare: func(p *sdk.Prepare) {
			p.Supply(lf, "diameter", core.Quantity{Value: 1, Unit: "kg"})
		}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := bench(t, c.s).Assess(t.Context(), core.AssessRequest{Facts: []core.Fact{nominal}, Findings: journal(0, 2.4950, 2.4968, 2.4946, 2.4966)})
			require.ErrorContains(t, err, c.want)
			require.Equal(t, core.Internal, core.ErrorCode(err))
			require.True(t, strings.HasPrefix(err.Error(), "a rule of bench") || strings.Contains(err.Error(), "of bench"))
		})
	}
}
