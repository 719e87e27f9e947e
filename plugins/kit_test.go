package plugins_test

import (
	"context"
	"testing"

	"github.com/fettle-tools/fettle/core/sdk"
	"github.com/fettle-tools/fettle/core/sdk/sdktest"
	"github.com/stretchr/testify/require"
)

// Every built-in keeps the promises that are asked of anybody's subsystem.
func TestConformance(t *testing.T) {
	for _, b := range builtIns() {
		t.Run(b.name, func(t *testing.T) {
			p, err := sdk.New(b.subsystem)
			require.NoError(t, err)
			for _, f := range sdktest.Check(context.Background(), p, b.facts) {
				t.Error(f)
			}
		})
	}
}
