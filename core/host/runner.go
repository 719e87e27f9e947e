package host

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"sync"
)

// firstLineRoom is how much of a plugin's first line is kept for the message about a failed start, in bytes.
const firstLineRoom = 256

// runner is one run of a plugin's program as go-plugin wants to see it (go-plugin's runner.Runner).
type runner struct {
	cmd    *exec.Cmd
	stdout io.ReadCloser
	stderr io.ReadCloser
	dir    string   // the socket must lie here
	ours   *os.File // our end of the pipe whose closing tells the plugin that we are gone
	theirs *os.File
	launch func(func() error) error

	done  chan struct{} // closed when the program has ended and was waited for
	once  sync.Once
	mu    sync.Mutex
	first []byte
	pid   int
	dead  bool // it was ended before it was started
}

// newRunner prepares a program: no shell, nothing in its environment but what go-plugin itself needs, nothing to
// read, a process group of its own, and the pipe that says when the host is gone.
func newRunner(program string, args, env []string, dir string, launch func(func() error) error) (*runner, error) {
	r := &runner{dir: dir, launch: launch, done: make(chan struct{})}
	r.cmd = &exec.Cmd{Path: program, Args: append([]string{program}, args...), Env: env, Dir: dir}
	separate(r.cmd)
	var err error
	if r.stdout, err = r.cmd.StdoutPipe(); err != nil {
		return nil, err
	}
	if r.stderr, err = r.cmd.StderrPipe(); err != nil {
		return nil, err
	}
	if runtime.GOOS == "windows" {
		return r, nil
	}
	if r.theirs, r.ours, err = os.Pipe(); err != nil {
		return nil, err
	}
	r.cmd.ExtraFiles = []*os.File{r.theirs}
	return r, nil
}

// Start starts the program.
func (r *runner) Start(context.Context) error {
	err := r.launch(r.cmd.Start)
	if r.theirs != nil {
		_ = r.theirs.Close()
	}
	if err != nil {
		if r.ours != nil {
			_ = r.ours.Close()
		}
		return err
	}
	r.mu.Lock()
	r.pid = r.cmd.Process.Pid
	dead := r.dead
	r.mu.Unlock()
	if dead {
		return r.Kill(context.Background())
	}
	return nil
}

// Wait waits for its end.
func (r *runner) Wait(context.Context) error {
	err := r.cmd.Wait()
	r.once.Do(func() {
		if r.ours != nil {
			_ = r.ours.Close()
		}
		close(r.done)
	})
	return err
}

// Kill ends the program and all it started. It may be called at any time.
func (r *runner) Kill(context.Context) error {
	r.mu.Lock()
	pid := r.pid
	r.dead = r.dead || pid == 0
	r.mu.Unlock()
	if pid == 0 {
		return nil
	}
	killGroup(pid)
	if err := r.cmd.Process.Kill(); err != nil && !errors.Is(err, os.ErrProcessDone) { // it may have left its group
		return err
	}
	return nil
}

func (r *runner) process() int {
	r.mu.Lock()
	defer r.mu.Unlock()
	return r.pid
}

// ended says how the program ended, "" while it runs.
func (r *runner) ended() string {
	select {
	case <-r.done:
		return r.cmd.ProcessState.String()
	default:
		return ""
	}
}

// Stdout is where the handshake is read from; its beginning is kept for the message if it fails.
func (r *runner) Stdout() io.ReadCloser { return &firstLine{r.stdout, r} }

// Stderr is what go-plugin copies to our output.
func (r *runner) Stderr() io.ReadCloser { return r.stderr }

// Name is the program.
func (r *runner) Name() string { return r.cmd.Path }

// ID is the process, or "" before it runs.
func (r *runner) ID() string {
	if pid := r.process(); pid > 0 {
		return strconv.Itoa(pid)
	}
	return ""
}

// Diagnose adds nothing: fault.go finds the words.
func (r *runner) Diagnose(context.Context) string { return "" }

var errSocketElsewhere = errors.New("the plugin listens outside its private folder")

// PluginToHost accepts a Unix socket in the private folder and nothing else (where there are none, this machine's TCP).
func (r *runner) PluginToHost(network, address string) (string, string, error) {
	if runtime.GOOS == "windows" && network == "tcp" && strings.HasPrefix(address, "127.0.0.1:") {
		return network, address, nil
	}
	if network != "unix" || filepath.Dir(filepath.Clean(address)) != filepath.Clean(r.dir) {
		return "", "", fmt.Errorf("%w: %s %s", errSocketElsewhere, printable(network, 20), printable(address, 120))
	}
	return network, address, nil
}

// HostToPlugin changes nothing.
func (r *runner) HostToPlugin(network, address string) (string, string, error) {
	return network, address, nil
}

// handshake gives the first line, or what there is of it.
func (r *runner) handshake() string {
	r.mu.Lock()
	defer r.mu.Unlock()
	line, _, _ := bytes.Cut(r.first, []byte{'\n'})
	return string(line)
}

// firstLine keeps the beginning of what is read through it.
type firstLine struct {
	io.ReadCloser
	r *runner
}

// Read reads on.
func (f *firstLine) Read(b []byte) (int, error) {
	n, err := f.ReadCloser.Read(b)
	f.r.mu.Lock()
	if room := firstLineRoom - len(f.r.first); room > 0 {
		f.r.first = append(f.r.first, b[:min(n, room)]...)
	}
	f.r.mu.Unlock()
	return n, err
}
