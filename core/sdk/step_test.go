package sdk_test

import (
	"context"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core/sdk"
)

// Refit hours that are written as nothing mean that nothing goes back; those that are not written follow the strip's.
func TestStepWithNothingToRefit(t *testing.T) {
	b, err := os.ReadFile("testdata/bench.yaml")
	require.NoError(t, err)
	for refit, want := range map[string]bool{"": false, ", refit_hours: [0, 0, 0]": true, ", refit_hours: [.1, .2, .3]": false} {
		s := string(b) + "\n"
		require.Contains(t, s, "\nsteps:\n")
		s = strings.Replace(s, "\nsteps:\n", "\nsteps:\n  - {id: as-found, name: Read as found, strip_hours: [.1, .2, .3], skill: mechanic"+refit+"}\n", 1)
		p, err := sdk.New(sdk.Subsystem{Sheet: []byte(s)})
		require.NoError(t, err)
		sheet, _, err := p.Describe(context.Background(), nil)
		require.NoError(t, err)
		require.Equal(t, want, sheet.Steps[0].NoRefit, refit)
	}
}
