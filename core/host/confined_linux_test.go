package host_test

import (
	"net"
	"os"
	"path/filepath"
	"testing"

	ll "github.com/landlock-lsm/go-landlock/landlock/syscall"
	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/host"
)

func confined(c *host.Config) {
	path, sum := self()
	c.Confiner = &host.Confiner{Path: path, SHA256: sum}
}

func summaries(ps []core.Problem) (s []string) {
	for _, p := range ps {
		s = append(s, p.Summary)
	}
	return s
}

func TestAConfinedPluginGetsAtNothingOfTheShop(t *testing.T) {
	if abi, err := ll.LandlockGetABIVersion(); err != nil || abi < 6 {
		t.Skipf("this kernel has Landlock version %d; the test needs 6 (Linux 6.12)", abi)
	}
	t.Parallel()
	secret := filepath.Join(t.TempDir(), "book")
	require.NoError(t, os.WriteFile(secret, []byte("names"), 0o600))
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	defer func() { _ = listener.Close() }()
	free := newHost(t, nil, "spy", secret, listener.Addr().String())
	a, err := free.Assessor("bad").Assess(t.Context(), core.AssessRequest{})
	require.NoError(t, err)
	require.Equal(t, []string{"read", "list", "write", "remove", "environment of the host", "connect", "signal", "own folder"}, summaries(a.Problems),
		"without confinement all of it works: the test tries the right things")

	require.NoError(t, os.WriteFile(secret, []byte("names"), 0o600))
	h := newHost(t, confined, "spy", secret, listener.Addr().String())
	a, err = h.Assessor("bad").Assess(t.Context(), core.AssessRequest{})
	require.NoError(t, err)
	require.Equal(t, []string{"own folder"}, summaries(a.Problems))
	requireGood(t, h)
}

func TestAConfinedPluginsMemoryIsBounded(t *testing.T) {
	t.Parallel()
	h := newHost(t, confined, "hog")
	_, err := h.Assessor("bad").Assess(t.Context(), fakeRequest())
	require.ErrorContains(t, err, "bad: not assessed: the plugin stopped while answering (exit status ")
	requireGood(t, h)
}

func TestATamperedConfinerStartsNothing(t *testing.T) {
	t.Parallel()
	h := newHost(t, func(c *host.Config) { c.Confiner = &host.Confiner{Path: "/bin/true", SHA256: c.Plugins[0].SHA256} }, "good", "bad")
	_, _, err := h.Assessor("bad").Describe(t.Context(), nil)
	require.ErrorContains(t, err, "bad: not assessed: its confining program has changed since it was pinned")
}
