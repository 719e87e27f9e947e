package sdk_test

import (
	"bytes"
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
	"github.com/fettle-tools/fettle/core/sdk/sdktest"
)

// update rewrites the golden files: go test ./core/sdk -run Golden -update.
var update = flag.Bool("update", false, "rewrite the golden files")

// Every promise of a subsystem is kept by the engine, on the test sheet and on the one an author starts from.
func TestConformance(t *testing.T) {
	require.Empty(t, sdktest.Check(t.Context(), bench(t), []core.Fact{nominal}))
	p, err := sdk.New(sdk.Subsystem{Sheet: sdk.NewSheet("water-pump")})
	require.NoError(t, err)
	require.Equal(t, "water-pump", p.Name())
	require.Empty(t, sdktest.Check(t.Context(), p, []core.Fact{{Name: "D", Value: size(.625, "in")}}))
}

// mixed is a bench full of findings: good, bad, doubled, unreadable.
func mixed() []core.Finding {
	fs := journal(.0001, 2.4950, 2.4968, 2.4946, 2.4966)
	return append(fs,
		found("fv2", m1, "diameter", "FV", size(63.40, "mm", .01)),
		found("score", m1, "score", "", size(.1, "mm")),
		found("eye", armL, "eye", "", size(.5098, "in", .001)),
		found("crack", armL, "crack", "", pass(true)),
		found("lost", gear, "backlash", "", unread(core.Lost)),
		found("teeth", gear, "teeth", "", class(1)),
		found("rollers", rolls, "missing-ones", "", count(1)),
		found("gone", lf, "diameter", "", unread(core.PartMissing)),
		found("odd", core.Target{Part: "drum", Position: "RR"}, "diameter", "", size(12.031, "in")),
		found("nowhere", core.Target{Part: "wheel"}, "rim", "", size(1, "in")),
		found("blank", core.Target{Part: "drum", Position: "LR"}, "diameter", "", core.Value{}))
}

// The order of the findings changes nothing, byte for byte.
func TestAssessOrderIsNought(t *testing.T) {
	p, fs := bench(t), mixed()
	want, err := json.Marshal(assess(t, p, fs...))
	require.NoError(t, err)
	rnd := rand.New(rand.NewPCG(1, 2))
	for range 50 {
		rnd.Shuffle(len(fs), func(i, j int) { fs[i], fs[j] = fs[j], fs[i] })
		got, err := json.Marshal(assess(t, p, fs...))
		require.NoError(t, err)
		require.Equal(t, string(want), string(got))
	}
}

// Every finding stands in a reason of a condition, or in a problem.
func TestAssessUsesEveryFinding(t *testing.T) {
	a, named := assess(t, bench(t), mixed()...), map[string]bool{}
	for _, c := range a.Conditions {
		for _, r := range c.Reasons {
			for _, id := range r.FindingIDs {
				named[id] = true
			}
		}
	}
	for _, p := range a.Problems {
		named[p.FindingID] = true
	}
	for _, f := range mixed() {
		require.True(t, named[f.ID], f.ID)
	}
}

// The findings and facts given are not changed, and several may ask at once.
func TestAssessAtOnce(t *testing.T) {
	p, fs := bench(t), mixed()
	want, err := json.Marshal(assess(t, p, fs...))
	require.NoError(t, err)
	var wg sync.WaitGroup
	for range 8 {
		wg.Go(func() {
			got, err := json.Marshal(assess(t, p, fs...))
			require.NoError(t, err)
			require.True(t, bytes.Equal(want, got))
		})
	}
	wg.Wait()
	require.Equal(t, mixed(), fs)
}

func TestAssessEndsWithItsContext(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	_, err := bench(t).Assess(ctx, core.AssessRequest{})
	require.ErrorIs(t, err, context.Canceled)
	_, _, err = bench(t).Describe(ctx, nil)
	require.ErrorIs(t, err, context.Canceled)
}

// The whole answer on the test sheet, as it was looked over once.
func TestGolden(t *testing.T) {
	got, err := json.MarshalIndent(assess(t, bench(t), mixed()...), "", " ")
	require.NoError(t, err)
	got = append(got, '\n')
	const file = "testdata/bench.golden.json"
	if *update {
		require.NoError(t, os.WriteFile(file, got, 0o644))
	}
	want, err := os.ReadFile(file)
	require.NoError(t, err)
	was, is := strings.Split(string(want), "\n"), strings.Split(string(got), "\n")
	for i := range min(len(was), len(is)) {
		require.Equal(t, was[i], is[i], "%s:%d differs; if it is meant, run with -update", file, i+1)
	}
	require.Len(t, is, len(was))
}

// gearbox is the manual gearbox's sheet, and findings on its first parts up to a number.
func gearbox(b *testing.B, findings int) (sheet []byte, req core.AssessRequest) {
	b.Helper()
	sheet, err := os.ReadFile("../../plugins/gearbox/sheet.yaml")
	require.NoError(b, err)
	p, err := sdk.New(sdk.Subsystem{Sheet: sheet})
	require.NoError(b, err)
	req.Facts = []core.Fact{{Name: "L_spring", Value: size(1.1, "in")}}
	s, _, err := p.Describe(context.Background(), req.Facts)
	require.NoError(b, err)
	for round := 0; len(req.Findings) < findings; round++ {
		for _, part := range s.Parts {
			for _, target := range part.Targets() {
				for _, c := range part.Checks {
					if len(req.Findings) < findings && c.Kind == core.Measured && len(c.Stations) == 0 && c.Limit.NewHigh != nil {
						id := fmt.Sprintf("f%03d", len(req.Findings))
						req.Findings = append(req.Findings, found(id, target, c.ID, "", size(*c.Limit.NewHigh, c.Unit, .0005)))
					}
				}
			}
		}
	}
	return sheet, req
}

func BenchmarkLoad(b *testing.B) {
	sheet, _ := gearbox(b, 1)
	for b.Loop() {
		if _, err := sdk.New(sdk.Subsystem{Sheet: sheet}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkDescribe(b *testing.B) {
	sheet, req := gearbox(b, 1)
	p, err := sdk.New(sdk.Subsystem{Sheet: sheet})
	require.NoError(b, err)
	for b.Loop() {
		if _, _, err := p.Describe(b.Context(), req.Facts); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkAssess(b *testing.B) {
	sheet, req := gearbox(b, 100)
	p, err := sdk.New(sdk.Subsystem{Sheet: sheet})
	require.NoError(b, err)
	for b.Loop() {
		if _, err := p.Assess(b.Context(), req); err != nil {
			b.Fatal(err)
		}
	}
}
