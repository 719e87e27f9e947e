package sdk_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

func operationOf(t *testing.T, a core.Assessment, id string) core.Operation {
	t.Helper()
	for _, o := range a.Operations {
		if o.ID == id {
			return o
		}
	}
	require.Failf(t, "no operation", "%s", id)
	return core.Operation{}
}

// An operation is one for the job, or one for each piece, pair, axle or set served.
func TestOperationInstances(t *testing.T) {
	a := assess(t, bench(t))
	rr := core.Target{Part: "drum", Position: "RR"}
	require.Equal(t, []string{"turn-pair/front"}, remedyOf(t, a, lf, "turn").Operations)
	require.Equal(t, []string{"turn-pair/rear"}, remedyOf(t, a, rr, "turn").Operations)
	require.Equal(t, []string{"drum/LF", "draw-hub/front"}, remedyOf(t, a, lf, "new").Operations)
	require.Equal(t, []string{"turn-pair/front"}, remedyOf(t, a, lf, "new").CollateralOperations)
	require.Equal(t, []string{"polish"}, remedyOf(t, a, m1, "polish").Operations, "a set without groups is one")
	require.Equal(t, []string{"gear"}, remedyOf(t, a, gear, "new").Operations)
	require.Equal(t, remedyOf(t, a, gear, "new").Operations, remedyOf(t, a, rolls, "new").Operations, "two parts share one")

	require.Equal(t, "Turn a pair of drums (front)", operationOf(t, a, "turn-pair/front").Name)
	require.Equal(t, []string{"drum/LF", "drum/RF"}, operationOf(t, a, "draw-hub/front").Includes, "those it serves, and no others")
	require.Equal(t, []string{"regrind"}, operationOf(t, a, "crankshaft").Includes)
	require.Equal(t, "12.50", operationOf(t, a, "shells/M1").Items[0].TypicalEach.Likely, "money as written")
	require.Equal(t, core.Range3{Low: 1, Likely: 2, High: 4}, operationOf(t, a, "gallery").Hours, "what a register entry raises is there")
	seen := map[string]bool{}
	for _, o := range a.Operations {
		require.False(t, seen[o.ID], "%s twice", o.ID)
		seen[o.ID] = true
	}
}

func TestRemedyFields(t *testing.T) {
	a := assess(t, bench(t))
	r := remedyOf(t, a, m1, "regrind")
	require.Equal(t, []core.RemedyRef{{Target: core.Target{Part: "shell", Position: "M1"}, Remedy: "new"}}, r.Requires, "at its own position")
	require.Equal(t, []core.RemedyRef{{Target: m1, Remedy: "polish"}, {Target: core.Target{Part: "journal", Position: "M2"}, Remedy: "polish"},
		{Target: core.Target{Part: "journal", Position: "M3"}, Remedy: "polish"}}, r.Excludes, "at every position")
	require.Equal(t, []core.Yield{{Key: "main-undersize", Value: "0.010"}}, r.Yields)
	require.InDelta(t, .03, r.ResidualChance, 0)
	g := remedyOf(t, a, gear, "new")
	require.Equal(t, []string{"bench:clean"}, g.Steps)
	require.Zero(t, *g.WearAfter)
	require.Equal(t, [2]int{1, 2}, [2]int{g.OriginalityMin, g.OriginalityMax})
	require.Equal(t, core.Reuse, remedyOf(t, a, gear, "reuse").Kind, "understood, where the sheet does not write it")
}
