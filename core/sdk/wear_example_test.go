package sdk_test

import (
	"fmt"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

// A journal read with a micrometer is graded; read with a caliper it is to be measured again.
func ExampleJudge() {
	limit := core.Limit{NewLow: new(2.4995), NewHigh: new(2.5), WearLow: new(2.4985), Unit: "in"}
	fmt.Println(sdk.Judge(2.4986, sdk.StandardUncertainty(.0001), limit, core.Measured, false).Words)
	fmt.Println(sdk.Judge(2.4986, sdk.StandardUncertainty(.001), limit, core.Measured, false).Words)
	// Output:
	// 2.4986 in, new 2.4995 to 2.5 in, not under 2.4985 in: near limit
	// 2.4986 in, new 2.4995 to 2.5 in, not under 2.4985 in: measure again, the chance of being past the limit is 43 %: use a better instrument
}

// Four pins take one step, by the worst; one of them was ground before.
func ExampleGrindRule_Group() {
	pin := func(position string, fv, fh, rv, rh float64) sdk.Journal {
		return sdk.Journal{Position: position, Planes: []sdk.Plane{{V: &fv, H: &fh}, {V: &rv, H: &rh}}}
	}
	for _, w := range sdk.MainsRule(2.0).Group([]sdk.Journal{
		pin("P1", 1.9962, 1.9979, 1.9960, 1.9978),
		pin("P2", 1.9941, 1.9968, 1.9936, 1.9966),
		pin("P3", 1.9958, 1.9976, 1.9955, 1.9975),
		pin("P4", 1.9890, 1.9898, 1.9888, 1.9897),
	}).Words() {
		fmt.Println(w)
	}
	// Output:
	// all to -.020, by P4, which needs 0.0141 off; finished 1.9795 to 1.98
	// without P4, P2 would still need -.020
	// P4 not at the size of the others: mismatched set, check the stamp on the shells
}

// A pack for the end float wanted, from the shims in the drawer.
func ExampleShimJoint_Pack() {
	joint := sdk.ShimJoint{Name: "intermediate shaft", Convention: sdk.ThickerIsTighter, Proof: "end float .002 to .006 by dial"}
	wanted, _ := joint.Wanted(0, .0350, .0040) // without shims the float is .0350
	pack, _ := joint.Pack(wanted, []sdk.Shim{{Thickness: .003, Count: 6}, {Thickness: .005, Count: 2}, {Thickness: .020, Count: 1}})
	fmt.Println(pack.Words)
	fmt.Println(pack.Meaning)
	// Output:
	// pack 0.031 = 1 x 0.02 + 1 x 0.005 + 2 x 0.003
	// thicker pack = less end float, more preload; prove it: end float .002 to .006 by dial
}
