package sdktest_test

import (
	"context"
	"fmt"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
	"github.com/fettle-tools/fettle/core/sdk/sdktest"
)

// An author's whole test: load the sheet, give the facts it asks for, print what is wrong.
func ExampleCheck() {
	pump, err := sdk.New(sdk.Subsystem{Sheet: sdk.NewSheet("water-pump")})
	if err != nil {
		fmt.Println(err)
		return
	}
	diameter := core.Quantity{Value: .75, Unit: "in"}
	facts := []core.Fact{{Name: "D", Source: "measured", Value: core.Value{Kind: core.ValueQuantity, Quantity: diameter}}}
	for _, fault := range sdktest.Check(context.Background(), pump, facts) {
		fmt.Println(fault)
	}
	// Output:
}
