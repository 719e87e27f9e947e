package plugins_test

import (
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core/host"
	"github.com/fettle-tools/fettle/core/sdk/sdktest"
)

// Every built-in, as a confined process of the real program behind the host, keeps its promises too: what it is asked and what it answers
// come through the wire and the host's own checks. TestConformance asks all of it before the wire.
func TestLiveConformance(t *testing.T) {
	program := filepath.Join(t.TempDir(), "fettle-subsystems")
	out, err := exec.Command("go", "build", "-trimpath", "-ldflags", "-s -w", "-o", program, "../cmd/fettle-subsystems").CombinedOutput()
	require.NoError(t, err, string(out))
	sum, err := host.Sum(program)
	require.NoError(t, err)
	c := host.Config{Confiner: &host.Confiner{Path: program, SHA256: sum}}
	for _, b := range builtIns() {
		c.Plugins = append(c.Plugins, host.BuiltIn(b.name, program, sum))
	}
	h, err := host.New(c)
	require.NoError(t, err)
	t.Cleanup(h.Close)
	for _, b := range builtIns() {
		t.Run(b.name, func(t *testing.T) {
			t.Parallel()
			for _, f := range sdktest.CheckShort(t.Context(), h.Assessor(b.name), b.facts) {
				t.Error(f)
			}
		})
	}
}
