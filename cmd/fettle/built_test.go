package main

import (
	"errors"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestMadeNamesWhatIsServed: the Makefile tells fettle of every subsystem that its other program serves, and of no other.
func TestMadeNamesWhatIsServed(t *testing.T) {
	names, err := made()
	require.NoError(t, err)
	out, err := exec.Command(filepath.Join(programs(t), "fettle-subsystems")).CombinedOutput()
	var exit *exec.ExitError
	require.True(t, errors.As(err, &exit))
	require.Equal(t, 2, exit.ExitCode())
	_, served, ok := strings.Cut(string(out), "built in: ")
	require.True(t, ok, string(out))
	require.ElementsMatch(t, strings.Fields(names), strings.Split(strings.TrimSpace(served), ", "))
	for n := range strings.FieldsSeq(builtinSubsystems) {
		require.Contains(t, strings.Fields(names), n, "go build alone serves it")
	}
}

// TestProgramsAsMade runs the two programs as make build leaves them: the demo with every subsystem that is built in.
func TestProgramsAsMade(t *testing.T) {
	program, dir := filepath.Join(programs(t), "fettle"), filepath.Join(t.TempDir(), "shop")
	fettle := func(args ...string) string {
		t.Helper()
		cmd := exec.Command(program, args...)
		var told strings.Builder
		cmd.Stderr = &told
		out, err := cmd.Output()
		require.NoError(t, err, told.String())
		return string(out)
	}
	fettle("demo", dir)
	for _, paper := range []string{"scope.pdf", "work-order.pdf"} {
		require.FileExists(t, filepath.Join(dir, "papers", paper))
	}
	require.Contains(t, fettle("-C", dir, "job", "list", "--json"), `"number": "J-001"`)
	require.NoError(t, checkPlan([]byte(fettle("-C", dir, "plan", "J-001", "--json"))))
	list := fettle("-C", dir, "plugin", "list")
	names, err := made()
	require.NoError(t, err)
	for n := range strings.FieldsSeq(names) {
		require.Regexp(t, `(?m)^`+n+` +built in +[0-9a-f]{12} +running$`, list)
		require.Contains(t, fettle("-C", dir, "sheet", n, "--json"), `"checks": [`)
	}
}

// What fettle knows of its built-in subsystems before it asks them is what they say.
func TestKindsOfBuiltInsAreThoseOfTheirSheets(t *testing.T) {
	s, err := demoShop(t).openShop(t.Context())
	require.NoError(t, err)
	t.Cleanup(s.close)
	sheets := s.served(t.Context())
	require.Len(t, sheets, len(s.names))
	for _, us := range sheets {
		require.Equal(t, us.Sheet.UnitKind, s.kinds[us.Subsystem], us.Subsystem)
	}
}
