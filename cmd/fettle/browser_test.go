package main

import (
	"bufio"
	"context"
	"encoding/json"
	"fmt"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"
)

// bench is a shop with its pages open, served by the real program.
type bench struct {
	t      testing.TB
	dir    string
	port   string
	args   []string // of serve, beside the port
	server *exec.Cmd
}

// openBench makes a shop by commands, one a line, and serves it.
func openBench(t testing.TB, commands ...string) *bench {
	t.Helper()
	return openBenchWith(t, nil, commands...)
}

// openBenchWith serves it with more arguments.
func openBenchWith(t testing.TB, args []string, commands ...string) *bench {
	t.Helper()
	b := &bench{t: t, dir: t.TempDir(), port: "0", args: args}
	for _, c := range commands {
		b.fettle(strings.Split(c, "|")...)
	}
	b.start()
	t.Cleanup(b.stop)
	return b
}

// fettle runs a command in the shop and gives what it says.
func (b *bench) fettle(args ...string) string {
	b.t.Helper()
	out, err := exec.Command(filepath.Join(programs(b.t), "fettle"), append([]string{"-C", b.dir}, args...)...).CombinedOutput()
	require.NoError(b.t, err, "%v: %s", args, out)
	return string(out)
}

// start serves the shop, at the port it had before.
func (b *bench) start() {
	b.t.Helper()
	b.server = exec.Command(filepath.Join(programs(b.t), "fettle"), append([]string{"-C", b.dir, "serve", "--port", b.port}, b.args...)...)
	b.server.Env = append(os.Environ(), "FETTLE_BY=Jory")
	out, err := b.server.StdoutPipe()
	require.NoError(b.t, err)
	b.server.Stderr = os.Stderr
	require.NoError(b.t, b.server.Start())
	line, err := bufio.NewReader(out).ReadString('\n')
	require.NoError(b.t, err)
	_, address, ok := strings.Cut(strings.TrimSpace(line), "http://")
	require.True(b.t, ok, line)
	u, err := url.Parse("http://" + address)
	require.NoError(b.t, err)
	b.port = u.Port()
}

func (b *bench) stop() {
	if b.server == nil {
		return
	}
	_ = b.server.Process.Signal(os.Interrupt)
	_ = b.server.Wait()
	b.server = nil
}

func (b *bench) url(path string) string { return "http://127.0.0.1:" + b.port + path }

// device is a browser of its own, of a size in CSS pixels.
type device struct {
	t      testing.TB
	ctx    context.Context
	bench  *bench
	last   string // page that was opened
	mu     sync.Mutex
	faults []string // what its pages complained of
}

// browser is the program that the pages are looked at with. Missing, it fails the test where nothing may be skipped.
func browser(t testing.TB) string {
	t.Helper()
	for _, name := range []string{"chromium", "chromium-browser"} {
		if path, err := exec.LookPath(name); err == nil {
			return path
		}
	}
	if os.Getenv("FETTLE_MANDATORY") == "1" {
		t.Fatal("chromium is missing and FETTLE_MANDATORY=1: install chromium")
	}
	t.Skip("SKIPPED, NOT PASSED: chromium is missing; make tools installs it")
	return ""
}

// device opens a browser, started with more options if there are any.
func (b *bench) device(width, height int64, more ...chromedp.ExecAllocatorOption) *device {
	b.t.Helper()
	options := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(browser(b.t)), chromedp.NoSandbox, chromedp.DisableGPU, chromedp.UserDataDir(b.t.TempDir()),
		chromedp.Flag("disable-quic", true), chromedp.Flag("disable-component-update", true))
	allocated, stop := chromedp.NewExecAllocator(b.t.Context(), append(options, more...)...)
	ctx, cancel := chromedp.NewContext(allocated)
	b.t.Cleanup(func() { _ = chromedp.Cancel(ctx); cancel(); stop() })
	s := &device{t: b.t, ctx: ctx, bench: b}
	require.NoError(b.t, chromedp.Do(ctx, chromedp.EmulateViewport(width, height))) // the browser ends with the context that it was started in
	require.NoError(b.t, chromedp.Listen(ctx, func(ev any) {
		if e, ok := ev.(*runtime.EventExceptionThrown); ok {
			s.mu.Lock()
			defer s.mu.Unlock()
			s.faults = append(s.faults, e.ExceptionDetails.Text+" "+e.ExceptionDetails.Exception.Description)
		}
	}))
	b.t.Cleanup(func() {
		s.mu.Lock()
		defer s.mu.Unlock()
		if len(s.faults) > 0 {
			b.t.Errorf("the script of a page failed: %s", strings.Join(s.faults, "\n"))
		}
	})
	return s
}

// patience is how long a page may take before a test gives up; no test asserts a speed.
const patience = 20 * time.Second

func (s *device) do(steps ...chromedp.Action[chromedp.Void]) {
	s.t.Helper()
	ctx, stop := context.WithTimeout(s.ctx, patience)
	defer stop()
	require.NoError(s.t, chromedp.Do(ctx, steps...), "on the way from %v", s.last)
}

func (s *device) open(path string) {
	s.t.Helper()
	defer func() { s.last = path }()
	s.do(chromedp.Navigate(s.bench.url(path)))
}

// js gives the value of an expression; a promise is waited for.
func js[T any](s *device, expression string) T {
	s.t.Helper()
	ctx, stop := context.WithTimeout(s.ctx, patience)
	defer stop()
	v, err := chromedp.Run(ctx, chromedp.Evaluate[T](expression, chromedp.EvalAwaitPromise))
	require.NoError(s.t, err, expression)
	return v
}

// until waits for an expression to hold. What fails meanwhile, because a page is on its way, is asked again.
func (s *device) until(expression string) {
	s.t.Helper()
	ctx, stop := context.WithTimeout(s.ctx, patience)
	defer stop()
	for ctx.Err() == nil {
		if held, err := chromedp.Run(ctx, chromedp.Evaluate[bool]("Boolean("+expression+")")); err == nil && held {
			return
		}
		time.Sleep(30 * time.Millisecond)
	}
	s.t.Fatalf("never came true: %s\n%s", expression, js[string](s, "document.body.innerText.slice(0, 1500)"))
}

// touch touches the button or the link with these words, as a finger would: it must be there to be seen, and large enough.
func (s *device) touch(words string) {
	s.t.Helper()
	quoted, err := json.Marshal(words)
	require.NoError(s.t, err)
	find := fmt.Sprintf(`[...document.querySelectorAll('button, a, summary, label')].find((e) => (e.getAttribute('aria-label') || e.innerText).trim().replace(/\s+/g, ' ') === %s && e.checkVisibility())`, quoted)
	s.until(find)
	s.run("(" + find + ").scrollIntoView({block: 'center'})")
	s.run("(" + find + ").click()")
}

// run does something in the page.
func (s *device) run(statement string) {
	s.t.Helper()
	js[bool](s, "("+statement+", true)")
}

// reload loads the page anew, and waits until the old one has gone.
func (s *device) reload() {
	s.t.Helper()
	s.run("window.before = true, location.reload()")
	s.until("!window.before && document.readyState === 'complete'")
}
