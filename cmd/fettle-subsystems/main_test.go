package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/cmd/fettle-subsystems/builtin"
	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/host"
	"github.com/fettle-tools/fettle/core/sdk"
)

// TestMain lets the test binary be the command: the host starts it with arguments that are no flags of a test.
func TestMain(m *testing.M) {
	if len(os.Args) > 1 && !strings.HasPrefix(os.Args[1], "-") {
		main()
		return
	}
	os.Exit(m.Run())
}

func TestEveryBuiltInAndABareSheetAreServedInConfinedProcesses(t *testing.T) {
	self, err := os.Executable()
	require.NoError(t, err)
	sum, err := host.Sum(self)
	require.NoError(t, err)
	sheet := filepath.Join(t.TempDir(), "winch", "sheet.yaml")
	require.NoError(t, os.Mkdir(filepath.Dir(sheet), 0o700))
	require.NoError(t, os.WriteFile(sheet, sdk.NewSheet("winch"), 0o600))
	sheetSum, err := host.Sum(sheet)
	require.NoError(t, err)
	config := host.Config{Confiner: &host.Confiner{Path: self, SHA256: sum},
		Plugins: []host.Spec{host.BareSheet("winch", self, sum, sheet, sheetSum)}}
	for _, b := range builtin.All() {
		config.Plugins = append(config.Plugins, host.BuiltIn(b.Name, self, sum))
	}
	h, err := host.New(config)
	require.NoError(t, err)
	defer h.Close()
	require.NoError(t, h.Start(t.Context()))
	for _, p := range h.List() {
		sheet, _, err := h.Assessor(p.Name).Describe(t.Context(), nil)
		require.NoError(t, err)
		require.Equal(t, p.Name, sheet.Subsystem)
		require.NotEmpty(t, sheet.Parts)
		a, err := h.Assessor(p.Name).Assess(t.Context(), core.AssessRequest{Unit: p.Name})
		require.NoError(t, err)
		require.NotEmpty(t, a.Conditions)
	}
}

func TestWhatItCannotServeItSays(t *testing.T) {
	for _, c := range []struct {
		args   []string
		status int
		says   string
	}{
		{nil, 2, "built in: bottom-end, "},
		{[]string{"winch"}, 2, "fettle plugin list"},
		{[]string{"gearbox", "please"}, 2, "fettle plugin list"},
		{[]string{"sheet", "/no/such/sheet.yaml", ""}, 1, "the sheet cannot be read"},
		{[]string{"sheet", os.Args[0], strings.Repeat("0", 64)}, 1, "the sheet has changed since it was pinned"},
	} {
		var said strings.Builder
		_, status := choose(c.args, &said)
		require.Equal(t, c.status, status, "%v", c.args)
		require.Contains(t, said.String(), c.says)
	}
	_, status := choose([]string{"gearbox"}, nil)
	require.Zero(t, status)
}
