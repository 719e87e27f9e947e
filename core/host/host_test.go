package host_test

import (
	"bytes"
	"context"
	"fmt"
	"log/slog"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/host"
)

// self is the test binary and its hash, worked out once.
var self = sync.OnceValues(func() (string, string) {
	path, err := os.Executable()
	if err != nil {
		panic(err)
	}
	sum, err := host.Sum(path)
	if err != nil {
		panic(err)
	}
	return path, sum
})

func spec(name string, args ...string) host.Spec {
	path, sum := self()
	return host.Spec{Name: name, Path: path, SHA256: sum, Args: append([]string{"plugin"}, args...)}
}

// newHost makes a host with a plugin "bad" that misbehaves in a way and a healthy one "good" beside it.
func newHost(t *testing.T, change func(*host.Config), how ...string) *host.Host {
	t.Helper()
	c := host.Config{Plugins: []host.Spec{spec("bad", how...), spec("good", "good", "good")}, StartTimeout: 20 * time.Second, CallTimeout: 20 * time.Second}
	if change != nil {
		change(&c)
	}
	h, err := host.New(c)
	require.NoError(t, err)
	t.Cleanup(h.Close)
	return h
}

// requireGood makes sure that the healthy plugin is not touched by the other's trouble.
func requireGood(t *testing.T, h *host.Host) {
	t.Helper()
	a, err := h.Assessor("good").Assess(t.Context(), fakeRequest())
	require.NoError(t, err)
	require.Len(t, a.Conditions, 3)
	require.Equal(t, core.WornFit, a.Conditions[0].Grade)
	require.Equal(t, core.PastLimit, a.Conditions[1].Grade)
}

func TestEachMisbehaviourCostsItsOwnSubsystemOnly(t *testing.T) {
	quick := func(c *host.Config) { c.StartTimeout = 4 * time.Second }
	short := func(c *host.Config) { c.CallTimeout = 3 * time.Second }
	for _, c := range []struct {
		how    string
		code   core.Code
		what   string // after "bad: not assessed: "
		change func(*host.Config)
	}{
		{"crash", core.Unavailable, "the plugin stopped while answering (exit status 3)", nil},
		{"panic", core.Unavailable, "the plugin failed while answering: panic: no such gear", nil},
		{"panic aside", core.Unavailable, "the plugin stopped while answering (exit status 2: panic: aside", nil},
		{"hang", core.Unavailable, "the plugin gave no answer within 3s and was ended", short},
		{"sleep", core.Unavailable, "the plugin said nothing within 4s of its start", quick},
		{"silent describe", core.Unavailable, "the plugin did not describe its sheet within 4s of its start", quick},
		{"stop at once", core.Unavailable, "the plugin stopped before it was ready (exit status 7: no licence found)", nil},
		{"garbage", core.Invalid, "the plugin printed \"? garbage", nil},
		{"stray print", core.Invalid, "the plugin printed \"Hello from the plugin!\" before it was ready", nil},
		{"dead socket", core.Unavailable, "the plugin gave an address at which nobody answers as agreed", nil},
		{"socket elsewhere", core.Invalid, "the plugin listens outside its private folder: unix /tmp/elsewhere", nil},
		{"network", core.Invalid, "the plugin listens outside its private folder: tcp 127.0.0.1:9", nil},
		{"oversized", core.Invalid, "a message to or from the plugin is larger than 4 MiB", nil},
		{"wrong name", core.Invalid, "the plugin says it is \"other\"", nil},
		{"wrong version", core.Invalid, "the plugin speaks version 2 of the contract, this program version 1", nil},
		{"own error", core.Invalid, "no gearbox has 0 gears", nil},
		{"NaN", core.Invalid, "its answer was refused: answer.conditions[0].wear is NaN", nil},
		{"negative hours", core.Invalid, "its answer was refused: operation grind: hours is negative", nil},
		{"somebody else's part", core.Invalid, "its answer was refused: condition drum: drum is no part of its sheet", nil},
		{"too kind", core.Invalid, "its answer was refused: journal/B is graded worn, fit, but diameter 49.8 mm (finding f3) is past limit", nil},
	} {
		t.Run(c.how, func(t *testing.T) {
			t.Parallel()
			h := newHost(t, c.change, c.how)
			_, err := h.Assessor("bad").Assess(t.Context(), fakeRequest())
			require.Error(t, err)
			require.Equal(t, c.code, core.ErrorCode(err), "%v", err)
			require.True(t, strings.HasPrefix(err.Error(), "bad: not assessed: "+c.what), "%v", err)
			require.NotContains(t, err.Error(), "\x1b", "no escape sequences from a plugin")
			require.NotEmpty(t, core.ErrorNext(err), "it says what to do")
			requireGood(t, h)
		})
	}
}

func TestATamperedProgramOrSheetIsNotStarted(t *testing.T) {
	t.Parallel()
	path, sum := self()
	copied := filepath.Join(t.TempDir(), "program")
	program, err := os.ReadFile(path)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(copied, append(program, '!'), 0o700))
	sheet := filepath.Join(t.TempDir(), "sheet.yaml")
	require.NoError(t, os.WriteFile(sheet, []byte("subsystem: bad\n"), 0o600))
	h := newHost(t, func(c *host.Config) {
		c.Plugins = append(c.Plugins,
			host.Spec{Name: "tampered", Path: copied, SHA256: sum, Args: []string{"plugin", "good", "tampered"}},
			host.Spec{Name: "unpinned", Path: path, Args: []string{"plugin", "good", "unpinned"}},
			host.BareSheet("sheet", path, sum, sheet, sum),
			host.Spec{Name: "gone", Path: "/no/such/program", SHA256: sum},
			host.Spec{Name: "relative", Path: "no-such-program", SHA256: sum})
	}, "good", "bad")
	for name, what := range map[string]string{
		"tampered": "tampered: not assessed: its program has changed since it was pinned",
		"unpinned": "unpinned: not assessed: its program is not pinned by a SHA-256",
		"sheet":    "sheet: not assessed: its sheet has changed since it was pinned",
		"gone":     "gone: not assessed: its program cannot be read",
		"relative": "relative: not assessed: its program cannot be read",
		"nobody":   "nobody: not assessed: no plugin of that name",
	} {
		_, _, err := h.Assessor(name).Describe(t.Context(), nil)
		require.ErrorContains(t, err, what)
		require.NotEmpty(t, core.ErrorNext(err))
	}
	requireGood(t, h)
}

func TestAPluginIsStartedAfreshAfterACrash(t *testing.T) {
	t.Parallel()
	h := newHost(t, nil, "crash once", filepath.Join(t.TempDir(), "mark"))
	_, err := h.Assessor("bad").Assess(t.Context(), fakeRequest())
	require.ErrorContains(t, err, "the plugin stopped while answering")
	require.Equal(t, host.StateStopped, h.List()[0].State)
	a, err := h.Assessor("bad").Assess(t.Context(), fakeRequest())
	require.NoError(t, err)
	require.Len(t, a.Conditions, 3)
	require.Equal(t, host.StateRunning, h.List()[0].State)
	require.Empty(t, h.List()[0].Fault)
}

func TestAPluginThatDiesBetweenCallsIsNotNoticed(t *testing.T) {
	t.Parallel()
	h := newHost(t, nil, "good", "bad")
	require.NoError(t, h.Start(t.Context()))
	pid := h.List()[0].PID
	process, err := os.FindProcess(pid)
	require.NoError(t, err)
	require.NoError(t, process.Kill())
	require.Eventually(t, func() bool { return gone(pid) }, 5*time.Second, 5*time.Millisecond)
	require.Eventually(t, func() bool { return h.List()[0].State == host.StateStopped }, 5*time.Second, 5*time.Millisecond)
	require.Contains(t, h.List()[0].Fault, "the plugin stopped (signal: killed")
	_, err = h.Assessor("bad").Assess(t.Context(), fakeRequest())
	require.NoError(t, err)
	requireGood(t, h)
}

func TestAPluginThatKeepsFailingRestsAndIsTriedLater(t *testing.T) {
	t.Parallel()
	now := time.Date(1956, 4, 1, 8, 0, 0, 0, time.UTC)
	h := newHost(t, func(c *host.Config) { c.Now = func() time.Time { return now } }, "crash")
	fails := func(what string) {
		t.Helper()
		_, err := h.Assessor("bad").Assess(t.Context(), fakeRequest())
		require.ErrorContains(t, err, what)
	}
	fails("the plugin stopped while answering")
	fails("the plugin stopped while answering")
	fails("it is tried again in 250ms")
	now = now.Add(time.Second)
	fails("the plugin stopped while answering")
	fails("it failed 3 times in a row and is left alone for 1m0s")
	require.Equal(t, host.StateResting, h.List()[0].State)
	h.Again("bad") // somebody has seen to it
	fails("the plugin stopped while answering")
	require.Equal(t, host.StateStopped, h.List()[0].State)
	fails("the plugin stopped while answering")
	now = now.Add(time.Second)
	fails("the plugin stopped while answering")
	fails("left alone")
	now = now.Add(61 * time.Second)
	fails("the plugin stopped while answering")
	requireGood(t, h)
}

func TestAFloodIsCappedInTheLog(t *testing.T) {
	t.Parallel()
	var log lockedBuffer
	h := newHost(t, func(c *host.Config) {
		c.Log = slog.New(slog.NewTextHandler(&log, nil))
		c.OutputCap = 4 << 10
	}, "flood")
	_, err := h.Assessor("bad").Assess(t.Context(), fakeRequest())
	require.NoError(t, err)
	requireGood(t, h)
	h.Close()
	require.Contains(t, log.String(), "flood flood")
	require.Contains(t, log.String(), "plugin output cut off")
	require.Less(t, len(log.String()), 32<<10)
}

// lockedBuffer is a log that several goroutines write to.
type lockedBuffer struct {
	mu sync.Mutex
	b  bytes.Buffer
}

func (l *lockedBuffer) Write(p []byte) (int, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.b.Write(p)
}

func (l *lockedBuffer) String() string {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.b.String()
}

func TestAPluginSeesNothingOfTheShop(t *testing.T) {
	h := newHost(t, nil, "environment")
	a, err := h.Assessor("bad").Assess(t.Context(), core.AssessRequest{})
	require.NoError(t, err)
	p := a.Problems[0]
	require.Equal(t, "bad", p.Subsystem)
	require.Equal(t, "0", p.Detail, "nothing on standard input")
	inCertificate := false
	for line := range strings.Lines(p.Summary) {
		name, _, _ := strings.Cut(line, "=")
		if inCertificate = inCertificate && !strings.Contains(line, "END CERTIFICATE") || name == "PLUGIN_CLIENT_CERT"; inCertificate {
			continue
		}
		if strings.Contains(line, "END CERTIFICATE") || strings.TrimSpace(line) == "" {
			continue
		}
		require.Contains(t, []string{"FETTLE_PLUGIN", "PLUGIN_MIN_PORT", "PLUGIN_MAX_PORT", "PLUGIN_PROTOCOL_VERSIONS", "PLUGIN_UNIX_SOCKET_DIR"}, name)
	}
}

func TestCloseLeavesNothing(t *testing.T) {
	t.Parallel()
	mark := filepath.Join(t.TempDir(), "pid")
	tmp, err := os.MkdirTemp("", "t")
	require.NoError(t, err)
	defer func() { _ = os.RemoveAll(tmp) }()
	h := newHost(t, func(c *host.Config) { c.TempDir = tmp }, "hang with a child", mark)
	require.NoError(t, h.Start(t.Context()))
	pid := h.List()[0].PID
	text, err := os.ReadFile(mark)
	require.NoError(t, err)
	child, err := strconv.Atoi(string(text))
	require.NoError(t, err)
	require.False(t, gone(child))
	began := time.Now()
	h.Close()
	require.Less(t, time.Since(began), 5*time.Second)
	require.Eventually(t, func() bool { return gone(pid) && gone(child) }, 5*time.Second, 5*time.Millisecond)
	left, err := os.ReadDir(tmp)
	require.NoError(t, err)
	require.Empty(t, left, "no socket folder stays")
	_, err = h.Assessor("good").Assess(t.Context(), fakeRequest())
	require.ErrorContains(t, err, "the plugins have been stopped")
}

func TestCloseDoesNotWaitForAStart(t *testing.T) {
	t.Parallel()
	h := newHost(t, nil, "sleep")
	ctx, cancel := context.WithTimeout(t.Context(), 200*time.Millisecond)
	defer cancel()
	require.ErrorContains(t, h.Start(ctx, "bad"), "bad: not assessed: nobody waited for its start")
	began := time.Now()
	h.Close()
	require.Less(t, time.Since(began), 5*time.Second)
}

func TestManyCallsAtOnceShareOneProcess(t *testing.T) {
	t.Parallel()
	h := newHost(t, nil, "good", "bad")
	var wg sync.WaitGroup
	errs := make([]error, 24)
	for i := range errs {
		wg.Go(func() {
			req := fakeRequest()
			req.Facts = []core.Fact{{Name: "n", Value: core.Value{Kind: core.ValueCount, Count: i}}}
			_, errs[i] = h.Assessor([]string{"bad", "good"}[i%2]).Assess(t.Context(), req)
		})
	}
	wg.Wait()
	for _, err := range errs {
		require.NoError(t, err)
	}
	for _, p := range h.List() {
		require.Equal(t, host.StateRunning, p.State)
	}
}

func TestACallerThatLeavesCostsNobodyTheProcess(t *testing.T) {
	t.Parallel()
	h := newHost(t, nil, "hang")
	require.NoError(t, h.Start(t.Context()))
	ctx, cancel := context.WithTimeout(t.Context(), 300*time.Millisecond)
	defer cancel()
	_, err := h.Assessor("bad").Assess(ctx, fakeRequest())
	require.ErrorContains(t, err, "bad: not assessed: nobody waited for the answer")
	require.Equal(t, host.StateRunning, h.List()[0].State)
}

// gone reports whether a process has ended; one that nobody has waited for counts as ended.
func gone(pid int) bool {
	stat, err := os.ReadFile(fmt.Sprintf("/proc/%d/stat", pid))
	if err != nil {
		return true
	}
	_, after, _ := strings.Cut(string(stat), ") ")
	return strings.HasPrefix(after, "Z") || strings.HasPrefix(after, "X")
}
