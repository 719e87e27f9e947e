package host_test

import (
	"bufio"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core/host"
)

func TestAKilledHostLeavesNoPluginBehind(t *testing.T) {
	t.Parallel()
	tmp, err := os.MkdirTemp("", "t")
	require.NoError(t, err)
	defer func() { _ = os.RemoveAll(tmp) }()
	path, _ := self()
	cmd := exec.Command(path, "host", tmp)
	out, err := cmd.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, cmd.Start())
	var pids []int
	for lines := bufio.NewScanner(out); len(pids) < 2 && lines.Scan(); {
		pid, err := strconv.Atoi(lines.Text())
		require.NoError(t, err, "%s", lines.Text())
		require.False(t, gone(pid))
		pids = append(pids, pid)
	}
	require.Len(t, pids, 2)
	require.NoError(t, cmd.Process.Kill())
	_ = cmd.Wait()
	require.Eventually(t, func() bool { return gone(pids[0]) && gone(pids[1]) }, 10*time.Second, 5*time.Millisecond)

	left, err := filepath.Glob(filepath.Join(tmp, "ft*"))
	require.NoError(t, err)
	require.Len(t, left, 1, "the dead host could not remove its folder")
	old := time.Now().Add(-time.Hour)
	require.NoError(t, os.Chtimes(left[0], old, old))
	h, err := host.New(host.Config{TempDir: tmp})
	require.NoError(t, err)
	defer h.Close()
	require.NoDirExists(t, left[0], "the next host does")
}
