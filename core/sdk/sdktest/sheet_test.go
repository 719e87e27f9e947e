package sdktest

import (
	"context"
	"testing"

	"github.com/hashicorp/go-plugin"
	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

// The sheet that a new author starts from keeps every promise, in process and behind its wire.
func TestNewSheetKeepsEveryPromise(t *testing.T) {
	p, err := sdk.New(sdk.Subsystem{Sheet: sdk.NewSheet("water-pump")})
	require.NoError(t, err)
	size := []core.Fact{{Name: "D", Source: "measured", Value: core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: .75, Unit: "in"}}}}
	require.Empty(t, Check(context.Background(), p, size))

	for _, set := range sdk.PluginSets(p) { // There is one.
		client, server := plugin.TestPluginGRPCConn(t, false, set)
		for name := range set {
			far, err := client.Dispense(name)
			require.NoError(t, err)
			require.Empty(t, Check(context.Background(), far.(core.Assessor), size))
		}
		require.NoError(t, client.Close())
		server.Stop()
	}
}

// A nominal size that is not given is asked for, and the kit says so rather than passing what could not be tried.
func TestKitWantsItsFacts(t *testing.T) {
	p, err := sdk.New(sdk.Subsystem{Sheet: sdk.NewSheet("water-pump")})
	require.NoError(t, err)
	faults := Check(context.Background(), p, nil)
	require.NotEmpty(t, faults)
	require.Equal(t, Answers, faults[0].Promise)
	require.Contains(t, faults[0].What, "D")
}
