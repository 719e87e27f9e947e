package main

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"
)

// clockVariable fixes the clock of the doubled command. The program itself does not know it.
const clockVariable = "TEST_CLOCK"

// noon is the time in every script that does not say otherwise.
const noon = "2026-11-25T12:00:00Z"

// TestMain lets the test binary stand in for fettle, so that scripts and benchmarks drive it as a process of its own.
func TestMain(m *testing.M) {
	testscript.Main(swept{m}, map[string]func(){"fettle": doubled})
}

// swept takes away what programs built, after the tests have run.
type swept struct{ m *testing.M }

func (s swept) Run() int {
	defer func() {
		if built.folder != "" {
			_ = os.RemoveAll(built.folder)
		}
	}()
	return s.m.Run()
}

func doubled() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	clock := time.Now
	if s := os.Getenv(clockVariable); s != "" {
		at, err := time.Parse(time.RFC3339, s)
		if err != nil {
			fmt.Fprintf(os.Stderr, "%s: %v\n", clockVariable, err)
			os.Exit(1)
		}
		clock = func() time.Time { return at }
	}
	code := run(ctx, os.Args[1:], environment{in: os.Stdin, out: os.Stdout, err: os.Stderr, clock: clock, getenv: os.Getenv, folder: programFolder()})
	stop()
	os.Exit(code)
}

// built holds the two real programs once they have been asked for.
var built struct {
	once   sync.Once
	folder string
	err    error
}

// programs builds fettle-subsystems and fettle as make build does, the hash of the first linked into the second, and gives their folder.
func programs(t testing.TB) string {
	t.Helper()
	built.once.Do(func() {
		if built.folder, built.err = os.MkdirTemp("", "fettle-built"); built.err != nil {
			return
		}
		subsystems := filepath.Join(built.folder, "fettle-subsystems")
		if built.err = goBuild(subsystems, "", "../fettle-subsystems"); built.err != nil {
			return
		}
		var sum string
		if sum, built.err = fileSum(subsystems); built.err != nil {
			return
		}
		var names string
		if names, built.err = made(); built.err != nil {
			return
		}
		built.err = goBuild(filepath.Join(built.folder, "fettle"), fmt.Sprintf("-X main.version=test -X main.subsystemsSHA256=%s -X 'main.builtinSubsystems=%s'", sum, names), ".")
	})
	if built.err != nil {
		t.Fatal(built.err)
	}
	return built.folder
}

// made gives the names of the subsystems that make build links in.
func made() (string, error) {
	b, err := os.ReadFile("../../Makefile")
	if err != nil {
		return "", err
	}
	for line := range strings.Lines(string(b)) {
		if names, ok := strings.CutPrefix(line, "SUBSYSTEMS := "); ok {
			return strings.TrimSpace(names), nil
		}
	}
	return "", fmt.Errorf("the Makefile names no SUBSYSTEMS")
}

func goBuild(out, flags, pkg string) error {
	cmd := exec.Command("go", "build", "-trimpath", "-ldflags", strings.TrimSpace("-s -w "+flags), "-o", out, pkg)
	cmd.Env = append(os.Environ(), "CGO_ENABLED=0")
	if b, err := cmd.CombinedOutput(); err != nil {
		return fmt.Errorf("building %s: %w\n%s", pkg, err, b)
	}
	return nil
}
