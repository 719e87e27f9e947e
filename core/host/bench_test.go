package host_test

import (
	"fmt"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/host"
)

// builtIns is the program of the built-in subsystems as it is shipped.
const builtIns = "../../bin/fettle-subsystems"

func benchHost(b *testing.B, names ...string) *host.Host {
	b.Helper()
	sum, err := host.Sum(builtIns)
	require.NoError(b, err, "make build comes first")
	c := host.Config{Confiner: &host.Confiner{Path: builtIns, SHA256: sum}}
	for _, n := range names {
		c.Plugins = append(c.Plugins, host.BuiltIn(n, builtIns, sum))
	}
	h, err := host.New(c)
	require.NoError(b, err)
	return h
}

// everySubsystem gives the names of all built-in subsystems, as the Makefile builds them in.
func everySubsystem(b *testing.B) []string {
	b.Helper()
	text, err := os.ReadFile("../../Makefile")
	require.NoError(b, err)
	for line := range strings.Lines(string(text)) {
		if names, ok := strings.CutPrefix(line, "SUBSYSTEMS := "); ok {
			return strings.Fields(names)
		}
	}
	b.Fatal("the Makefile names no SUBSYSTEMS")
	return nil
}

// BenchmarkStart is the start of all built-in subsystems in parallel: pins, confinement, handshake, first sheet. The aim
// is 1.2 s on two cores.
func BenchmarkStart(b *testing.B) {
	names := everySubsystem(b)
	for b.Loop() {
		h := benchHost(b, names...)
		require.NoError(b, h.Start(b.Context()))
		b.StopTimer()
		h.Close()
		b.StartTimer()
	}
}

// BenchmarkDescribe is one call of a running plugin for its sheet, checked.
func BenchmarkDescribe(b *testing.B) {
	h := benchHost(b, "gearbox")
	defer h.Close()
	require.NoError(b, h.Start(b.Context()))
	for b.Loop() {
		_, _, err := h.Assessor("gearbox").Describe(b.Context(), nil)
		require.NoError(b, err)
	}
}

// BenchmarkAssess is one call of a running plugin for a unit of which nothing was found, checked.
func BenchmarkAssess(b *testing.B) {
	h := benchHost(b, "gearbox")
	defer h.Close()
	require.NoError(b, h.Start(b.Context()))
	for b.Loop() {
		_, err := h.Assessor("gearbox").Assess(b.Context(), core.AssessRequest{Unit: "gearbox"})
		require.NoError(b, err)
	}
}

// rest is how long the plugins are left alone before their memory is read.
const rest = 4 * time.Second

// BenchmarkIdleMemory shows what all idle plugins hold together (Linux, smaps_rollup), once each has described itself and
// judged a unit and had some seconds of rest: all-pss-MB counts what they share once and is to stay under 90,
// all-private-MB is theirs alone.
func BenchmarkIdleMemory(b *testing.B) {
	names := everySubsystem(b)
	h := benchHost(b, names...)
	defer h.Close()
	require.NoError(b, h.Start(b.Context()))
	for b.Loop() {
		for _, name := range names {
			_, _, err := h.Assessor(name).Describe(b.Context(), nil)
			require.NoError(b, err)
			_, err = h.Assessor(name).Assess(b.Context(), core.AssessRequest{Unit: name})
			require.NoError(b, err)
		}
	}
	time.Sleep(rest)
	var private, proportional float64
	plugins := h.List()
	require.Len(b, plugins, len(names))
	for _, p := range plugins {
		own, share := memory(b, p.PID)
		private, proportional = private+own, proportional+share
	}
	b.ReportMetric(private, "all-private-MB")
	b.ReportMetric(proportional, "all-pss-MB")
}

// memory gives a process's private and proportional memory in MB of a million bytes.
func memory(b *testing.B, pid int) (private, proportional float64) {
	b.Helper()
	text, err := os.ReadFile(fmt.Sprintf("/proc/%d/smaps_rollup", pid))
	require.NoError(b, err)
	for line := range strings.Lines(string(text)) {
		var name, unit string
		var kb float64
		if n, _ := fmt.Sscan(line, &name, &kb, &unit); n != 3 {
			continue
		}
		switch name {
		case "Private_Clean:", "Private_Dirty:":
			private += kb * 1024 / 1e6
		case "Pss:":
			proportional += kb * 1024 / 1e6
		}
	}
	return private, proportional
}
