package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// at runs fettle in this process, in a shop folder, and gives its exit status and what it wrote.
func at(t *testing.T, dir string, args ...string) (status int, out, err string) {
	t.Helper()
	var o, e bytes.Buffer
	env := environment{in: bytes.NewReader(nil), out: &o, err: &e, clock: time.Now, folder: programs(t), getenv: func(string) string { return "" }}
	status = run(context.Background(), append([]string{"-C", dir}, args...), env)
	return status, o.String(), e.String()
}

func TestTell(t *testing.T) {
	for code, status := range map[core.Code]int{core.Internal: 1, core.Invalid: 2, core.NotFound: 3, core.Conflict: 4, core.Unavailable: 5, core.Newer: 6} {
		var out bytes.Buffer
		require.Equal(t, status, tell(&out, &core.Error{Code: code, What: "what happened", Where: "where", Next: "do this\nthen that"}), code)
		require.Equal(t, "fettle: where: what happened\n  next: do this\n  next: then that\n", out.String())
		require.Equal(t, status, tell(&out, fmt.Errorf("wrapped: %w", &core.Error{Code: code, What: "x"})), code)
	}
	var out bytes.Buffer
	require.Zero(t, tell(&out, nil))
	require.Equal(t, 1, tell(&out, errors.New("nobody thought of it")))

	out.Reset()
	many := faults{core.Errorf(core.NotFound, "", "first"), core.Errorf(core.Invalid, "mend it", "second")}
	require.Equal(t, 3, tell(&out, many), "the first decides")
	require.Equal(t, "fettle: first\nfettle: second\n  next: mend it\n", out.String())
}

// TestStatusesAreDocumented: the help of the program names each exit status.
func TestStatusesAreDocumented(t *testing.T) {
	_, out, _ := at(t, t.TempDir(), "help")
	require.Contains(t, out, "Exit status: 0 done")
	for _, status := range exitCodes {
		require.Regexp(t, fmt.Sprintf(`\b%d (a|something|not|there|the)\b`, status), out)
	}
}

// TestNewerBook: what a newer program wrote is refused, with a status of its own.
func TestNewerBook(t *testing.T) {
	dir := t.TempDir()
	shop, file := filepath.Join(dir, "shop"), filepath.Join(dir, "job.fettle")
	for _, args := range [][]string{{"new", "shop", "Hollow Lane Works", "--currency", "USD"}, {"new", "job", "One gearbox", "--unit", "gearbox"}, {"job", "export", "J-001", file}} {
		status, _, err := at(t, shop, args...)
		require.Zero(t, status, err)
	}
	b, err := os.ReadFile(file)
	require.NoError(t, err)
	newer := regexp.MustCompile(`"schema":[0-9]+`).ReplaceAll(b, []byte(`"schema":99`))
	require.NotEqual(t, b, newer)
	require.NoError(t, os.WriteFile(file, newer, 0o644))
	status, _, told := at(t, shop, "job", "take", file)
	require.Equal(t, 6, status)
	require.Contains(t, told, "written by a newer program")
	require.Contains(t, told, "next: use the newer program")
}

// TestBuiltInsArePinned: the program as built serves only the subsystems it was linked for. Another file in their place costs their
// assessment, each with its reason; nothing is run.
func TestBuiltInsArePinned(t *testing.T) {
	dir := t.TempDir()
	other := filepath.Join(dir, "fettle-subsystems")
	require.NoError(t, os.WriteFile(other, []byte("#!/bin/sh\ntouch "+filepath.Join(dir, "ran")+"\n"), 0o755))
	sum, err := fileSum(filepath.Join(programs(t), "fettle-subsystems"))
	require.NoError(t, err)
	subsystemsSHA256 = sum
	t.Cleanup(func() { subsystemsSHA256 = "" })
	var o, e bytes.Buffer
	env := environment{in: bytes.NewReader(nil), out: &o, err: &e, clock: time.Now, folder: dir, getenv: func(string) string { return "" }}
	shop := filepath.Join(dir, "shop")
	for _, args := range [][]string{{"new", "shop", "Hollow Lane Works", "--currency", "USD"}, {"new", "job", "One gearbox", "--unit", "gearbox"}, {"plan"}, {"plugin", "list"}} {
		require.Zero(t, run(context.Background(), append([]string{"-C", shop}, args...), env), e.String())
	}
	require.Regexp(t, `gearbox: not assessed`, o.String())
	require.NoFileExists(t, filepath.Join(dir, "ran"))
}

func TestPlainUsage(t *testing.T) {
	for said, want := range map[string]string{
		"accepts 1 arg(s), received 0":                    "one word is wanted after the command, and there are 0",
		"accepts 3 arg(s), received 2":                    "3 words are wanted after the command, and there are 2",
		"accepts between 1 and 2 arg(s), received 3":      "1 to 2 words are wanted after the command, and there are 3",
		"accepts at most 1 arg(s), received 2":            "at most 1 words are wanted after the command, and there are 2",
		"requires at least 2 arg(s), only received 1":     "at least 2 words are wanted after the command, and there are 1",
		"unknown flag: --frob":                            "unknown flag: --frob",
		"unknown command \"x\" for \"fettle\"\n\nDid you": "unknown command \"x\" for \"fettle\"  Did you",
	} {
		require.Equal(t, want, plainUsage(said))
	}
}
