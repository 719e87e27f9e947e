package sdk

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

func TestAConfinedStartSurvivesTheCommandLine(t *testing.T) {
	for _, c := range []ConfinedStart{
		{Folder: "/f", Readable: []string{"/r1", "/r2"}, Program: "/p", Args: []string{"sheet", "--", "x"}},
		{Folder: "/f", Readable: []string{}, Program: "/p", Args: []string{}},
	} {
		back, err := parseConfined(c.Arguments())
		require.NoError(t, err)
		require.Equal(t, c, back)
	}
	for _, args := range [][]string{nil, {"/f"}, {"--", "/p"}, {"/f", "--"}} {
		require.Equal(t, core.Invalid, core.ErrorCode(BecomeConfined(args)), "%v", args)
	}
}
