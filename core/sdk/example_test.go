package sdk_test

import (
	"context"
	"fmt"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

// A sheet is loaded once and asked as often as is wanted. Readings keep their own unit and the instrument's +/-.
func ExampleNew() {
	p, err := sdk.New(sdk.Subsystem{Sheet: sdk.NewSheet("water-pump")})
	if err != nil {
		fmt.Println(err) // every fault, with its line and column
		return
	}
	shaft := core.Target{Part: "shaft"}
	in := func(v, bound float64) core.Value {
		return core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: v, Unit: "in", Bound: bound}}
	}
	a, err := p.Assess(context.Background(), core.AssessRequest{
		Facts: []core.Fact{{Name: "D", Value: in(.625, 0), Source: "its marks"}},
		Findings: []core.Finding{
			{ID: "f-1", Target: shaft, Check: "diameter", Station: "FV", Value: in(.6231, .0001)},
			{ID: "f-2", Target: shaft, Check: "diameter", Station: "FH", Value: in(.6243, .0001)},
		},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range a.Conditions {
		if c.Target == shaft {
			fmt.Println(c.Grade)
			for _, r := range c.Reasons {
				fmt.Println(r.Text)
			}
		}
	}
	for _, r := range a.Remedies {
		if r.Target == shaft && r.Feasible {
			fmt.Println(r.Kind, r.ID)
		}
	}
	// Output:
	// past limit
	// diameter 0.6231 in at FV, limit 0.6235 in at least (common practice, no source): past limit
	// out of round 0.0012 in, limit 0.001 in at most (common practice, no source): past limit
	// rebuild grind-and-sleeve
	// replace new-shaft
}

// CheckSheet tells all faults at once, each at its place and with what to do.
func ExampleCheckSheet() {
	for _, f := range sdk.CheckSheet([]byte("subsystem: pump\ntitle: Pump\nversion: 1\nunit_kind: engine\ncurrency: USD\nparts: []\noperation: []\n")) {
		fmt.Println(f)
	}
	// Output:
	// 1:1: a sheet has no operations; add operations:
	// 6:1: the sheet has no parts; add a part
	// 7:1: unknown key "operation" of a sheet; did you mean operations?
}

// Rules in Go see the result and may close what a sheet cannot judge.
func ExampleBench_Close() {
	p, _ := sdk.New(sdk.Subsystem{Sheet: sdk.NewSheet("water-pump"), Rules: func(b *sdk.Bench) {
		shaft := core.Target{Part: "shaft"}
		if q, ok := b.Derived(shaft, "out-of-round"); ok && q.Value > .002 {
			b.Close(shaft, "grind-and-sleeve", core.Reason{Text: "too far out of round to clean up", Check: "out-of-round", Source: "common practice, no source"})
		}
	}})
	fmt.Println(p.Name())
	// Output: water-pump
}
