package sdk_test

import (
	"context"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

// benchSheet is the sheet of testdata/bench.yaml.
func benchSheet(t testing.TB) []byte {
	t.Helper()
	b, err := os.ReadFile("testdata/bench.yaml")
	require.NoError(t, err)
	return b
}

// bench loads the test sheet, with rules if there are any.
func bench(t testing.TB, s ...sdk.Subsystem) *sdk.Plugin {
	t.Helper()
	var sub sdk.Subsystem
	if len(s) > 0 {
		sub = s[0]
	}
	sub.Sheet = benchSheet(t)
	p, err := sdk.New(sub)
	require.NoError(t, err)
	return p
}

// size is a quantity with the instrument's bound in the same unit.
func size(v float64, unit string, bound ...float64) core.Value {
	q := core.Quantity{Value: v, Unit: unit}
	if len(bound) > 0 {
		q.Bound = bound[0]
	}
	return core.Value{Kind: core.ValueQuantity, Quantity: q}
}

func class(n int) core.Value { return core.Value{Kind: core.ValueClass, Class: n} }
func count(n int) core.Value { return core.Value{Kind: core.ValueCount, Count: n} }
func pass(ok bool) core.Value {
	return core.Value{Kind: core.ValuePass, Pass: ok}
}
func unread(why core.NotRead) core.Value { return core.Value{Kind: core.ValueNotRead, NotRead: why} }

// found makes a finding on one target.
func found(id string, t core.Target, check, station string, v core.Value) core.Finding {
	return core.Finding{ID: id, Subsystem: "bench", Target: t, Check: check, Station: station, Value: v, AsTyped: v.String()}
}

var (
	m1    = core.Target{Part: "journal", Position: "M1"}
	armL  = core.Target{Part: "arm", Position: "L"}
	gear  = core.Target{Part: "gear"}
	rolls = core.Target{Part: "rollers"}
	lf    = core.Target{Part: "drum", Position: "LF"}
)

// nominal is D = 2.5 in.
var nominal = core.Fact{Name: "D", Value: size(2.5, "in"), Source: "its marks"}

// journal gives the four readings of a journal at M1, with one bound for all.
func journal(bound, fv, fh, rv, rh float64) []core.Finding {
	return []core.Finding{found("fv", m1, "diameter", "FV", size(fv, "in", bound)), found("fh", m1, "diameter", "FH", size(fh, "in", bound)),
		found("rv", m1, "diameter", "RV", size(rv, "in", bound)), found("rh", m1, "diameter", "RH", size(rh, "in", bound))}
}

// assess judges findings with D known.
func assess(t testing.TB, p *sdk.Plugin, fs ...core.Finding) core.Assessment {
	t.Helper()
	a, err := p.Assess(context.Background(), core.AssessRequest{Unit: "engine", Facts: []core.Fact{nominal}, Findings: fs})
	require.NoError(t, err)
	return a
}

func conditionOf(t testing.TB, a core.Assessment, target core.Target) core.Condition {
	t.Helper()
	for _, c := range a.Conditions {
		if c.Target == target {
			return c
		}
	}
	require.Failf(t, "no condition", "%s", target)
	return core.Condition{}
}

func remedyOf(t testing.TB, a core.Assessment, target core.Target, id string) core.Remedy {
	t.Helper()
	for _, r := range a.Remedies {
		if r.Target == target && r.ID == id {
			return r
		}
	}
	require.Failf(t, "no remedy", "%s %s", target, id)
	return core.Remedy{}
}

// feasible lists the feasible remedies of a target, in their order.
func feasible(a core.Assessment, target core.Target) []string {
	ids := []string{}
	for _, r := range a.Remedies {
		if r.Target == target && r.Feasible {
			ids = append(ids, r.ID)
		}
	}
	return ids
}

// problemOf gives the problem that names a finding.
func problemOf(t testing.TB, a core.Assessment, finding string) core.Problem {
	t.Helper()
	for _, p := range a.Problems {
		if p.FindingID == finding {
			return p
		}
	}
	require.Failf(t, "no problem", "of finding %s in %v", finding, a.Problems)
	return core.Problem{}
}
