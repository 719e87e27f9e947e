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

// BenchmarkStart is the start of both built-in subsystems in parallel: pins, confinement, handshake, first sheet.
func BenchmarkStart(b *testing.B) {
	for b.Loop() {
		h := benchHost(b, "gearbox", "bottom-end")
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

// BenchmarkIdleMemory shows what an idle plugin holds for itself alone, and its share of what is common to both
// (Linux, smaps_rollup), after a call and some seconds of rest.
func BenchmarkIdleMemory(b *testing.B) {
	h := benchHost(b, "gearbox", "bottom-end")
	defer h.Close()
	require.NoError(b, h.Start(b.Context()))
	for b.Loop() {
		for _, p := range h.List() {
			_, err := h.Assessor(p.Name).Assess(b.Context(), core.AssessRequest{Unit: p.Name})
			require.NoError(b, err)
		}
	}
	time.Sleep(4 * time.Second)
	for _, p := range h.List() {
		private, proportional := memory(b, p.PID)
		b.ReportMetric(private, p.Name+"-private-MB")
		b.ReportMetric(proportional, p.Name+"-pss-MB")
	}
}

// memory gives a process's private and proportional memory in MB.
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
			private += kb / 1000
		case "Pss:":
			proportional += kb / 1000
		}
	}
	return private, proportional
}
