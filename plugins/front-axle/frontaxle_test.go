package frontaxle

import (
	"testing"

	"github.com/fettle-tools/fettle/core/sdk"
	"github.com/stretchr/testify/require"
)

func TestLoads(t *testing.T) {
	_, err := sdk.New(Subsystem())
	require.NoError(t, err)
}
