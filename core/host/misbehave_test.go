package host_test

import (
	"bytes"
	"context"
	"fmt"
	"math"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/hashicorp/go-plugin"
	"google.golang.org/grpc"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/host"
	"github.com/fettle-tools/fettle/core/sdk"
)

// TestMain lets the test binary be a plugin, well or badly behaved, and a host. The environment of a plugin is empty,
// so the arguments say which.
func TestMain(m *testing.M) {
	if len(os.Args) > 2 && os.Args[1] == "plugin" {
		misbehave(os.Args[2], os.Args[3:])
		return
	}
	if len(os.Args) > 2 && os.Args[1] == sdk.ConfineWord {
		fmt.Fprintln(os.Stderr, sdk.BecomeConfined(os.Args[2:]))
		os.Exit(1)
	}
	if len(os.Args) > 2 && os.Args[1] == "host" {
		hostUntilKilled(os.Args[2])
		return
	}
	os.Exit(m.Run())
}

// answering serves a fake that answers Assess with what change makes of it.
func answering(change func(core.AssessRequest, *core.Assessment)) {
	sdk.ServeAssessor(fake{name: "bad", assess: change})
}

// misbehave is a plugin called "bad" that does one thing wrong; "good" serves the name it is given.
func misbehave(how string, args []string) {
	switch how {
	case "good":
		sdk.ServeAssessor(fake{name: args[0]})
	case "crash":
		answering(func(core.AssessRequest, *core.Assessment) { os.Exit(3) })
	case "crash once": // ... and never again, once it has left its mark
		answering(func(core.AssessRequest, *core.Assessment) {
			if f, err := os.OpenFile(args[0], os.O_CREATE|os.O_EXCL, 0o600); err == nil {
				_ = f.Close()
				os.Exit(3)
			}
		})
	case "panic":
		answering(func(core.AssessRequest, *core.Assessment) { panic("no such gear") })
	case "panic aside":
		answering(func(core.AssessRequest, *core.Assessment) {
			go panic("aside\x1b[31m")
			select {}
		})
	case "hang":
		answering(func(core.AssessRequest, *core.Assessment) { select {} })
	case "hang with a child": // the child holds the pipes
		child := exec.Command(os.Args[0], "plugin", "sleep")
		child.Stdout, child.Stderr = os.Stdout, os.Stderr
		_ = child.Start()
		_ = os.WriteFile(args[0], fmt.Append(nil, child.Process.Pid), 0o600)
		answering(func(core.AssessRequest, *core.Assessment) { select {} })
	case "sleep":
		time.Sleep(time.Minute)
	case "silent describe":
		sdk.ServeAssessor(fake{name: "bad", describe: func(*core.Sheet) { select {} }})
	case "stop at once":
		fmt.Fprintln(os.Stderr, "no licence found")
		os.Exit(7)
	case "garbage":
		fmt.Print(strings.Repeat("\x00\xff garbage ", 100_000))
		time.Sleep(time.Minute)
	case "stray print":
		fmt.Println("Hello from the plugin!")
		sdk.ServeAssessor(fake{name: "bad"})
	case "dead socket":
		fmt.Printf("1|1|unix|%s|grpc|\n", filepath.Join(os.Getenv("PLUGIN_UNIX_SOCKET_DIR"), "nobody"))
		time.Sleep(time.Minute)
	case "socket elsewhere":
		fmt.Println("1|1|unix|/tmp/elsewhere|grpc|")
		time.Sleep(time.Minute)
	case "network":
		fmt.Println("1|1|tcp|127.0.0.1:9|grpc|")
		time.Sleep(time.Minute)
	case "oversized":
		unbounded(1, func(_ core.AssessRequest, a *core.Assessment) {
			a.Problems = []core.Problem{{Severity: core.SeverityNote, Summary: strings.Repeat("x", 2*sdk.MaxMessage)}}
		})
	case "wrong name":
		sdk.ServeAssessor(fake{name: "other"})
	case "wrong version":
		unbounded(2, nil)
	case "deaf": // does not watch the host's pipe
		unbounded(1, nil)
	case "flood":
		answering(func(core.AssessRequest, *core.Assessment) {
			for range 20_000 {
				fmt.Fprintln(os.Stderr, strings.Repeat("flood ", 30))
			}
		})
	case "environment":
		answering(func(_ core.AssessRequest, a *core.Assessment) {
			n, _ := os.Stdin.Read(make([]byte, 1))
			a.Problems = []core.Problem{{Severity: core.SeverityNote, Summary: strings.Join(os.Environ(), "\n"), Detail: fmt.Sprint(n)}}
		})
	case "spy": // tries what it is given, and tells what worked
		answering(func(_ core.AssessRequest, a *core.Assessment) { a.Problems = spy(args[0], args[1]) })
	case "hog":
		answering(func(core.AssessRequest, *core.Assessment) {
			var held [][]byte
			for range 64 {
				held = append(held, bytes.Repeat([]byte{1}, 64<<20))
			}
			_ = held
		})
	case "own error":
		sdk.ServeAssessor(erring{})
	default:
		badAnswer(how)
	}
}

// badAnswer gives an answer that is wrong in one way.
func badAnswer(how string) {
	answering(func(_ core.AssessRequest, a *core.Assessment) {
		switch how {
		case "NaN":
			a.Conditions[0].Wear = new(math.NaN())
		case "negative hours":
			a.Operations[0].Hours.Low = -1
		case "somebody else's part":
			a.Conditions = append(a.Conditions, core.Condition{Target: core.Target{Part: "drum"}, Grade: core.WornFit, States: a.Conditions[0].States})
		case "too kind":
			a.Conditions[1].Grade = core.WornFit
		}
	})
}

// erring is an assessor whose Assess fails in its own words.
type erring struct{}

func (erring) Describe(ctx context.Context, facts []core.Fact) (core.Sheet, []core.Problem, error) {
	return fake{name: "bad"}.Describe(ctx, facts)
}

func (erring) Assess(context.Context, core.AssessRequest) (core.Assessment, error) {
	return core.Assessment{}, core.Errorf(core.Invalid, "give the number of gears", "no gearbox has 0 gears")
}

// unbounded serves without the sdk's own care.
func unbounded(version int, change func(core.AssessRequest, *core.Assessment)) {
	set := sdk.PluginSets(fake{name: "bad", assess: change})[sdk.ProtocolVersion]
	plugin.Serve(&plugin.ServeConfig{HandshakeConfig: sdk.Handshake(), VersionedPlugins: map[int]plugin.PluginSet{version: set},
		GRPCServer: func(o []grpc.ServerOption) *grpc.Server {
			return grpc.NewServer(append(o, grpc.MaxSendMsgSize(1<<30))...)
		}})
}

// spy tries to get at the shop: its files, its network, its processes. Each thing that works is a problem.
func spy(secret, address string) (worked []core.Problem) {
	try := func(what string, err error) {
		if err == nil {
			worked = append(worked, core.Problem{Severity: core.SeverityNote, Summary: what})
		}
	}
	_, err := os.ReadFile(secret)
	try("read", err)
	_, err = os.ReadDir(filepath.Dir(secret))
	try("list", err)
	try("write", os.WriteFile(secret+".new", nil, 0o600))
	try("remove", os.Remove(secret))
	_, err = os.ReadFile(fmt.Sprintf("/proc/%d/environ", os.Getppid()))
	try("environment of the host", err)
	conn, err := net.Dial("tcp", address)
	if err == nil {
		_ = conn.Close()
	}
	try("connect", err)
	if parent, err := os.FindProcess(os.Getppid()); err == nil {
		try("signal", parent.Signal(syscall.Signal(0)))
	}
	try("own folder", os.WriteFile(filepath.Join(os.Getenv("PLUGIN_UNIX_SOCKET_DIR"), "note"), nil, 0o600))
	return worked
}

// hostUntilKilled is a host with a plugin that watches its pipe and one that does not; it prints their processes.
func hostUntilKilled(dir string) {
	self, _ := os.Executable()
	sum, _ := host.Sum(self)
	h, err := host.New(host.Config{TempDir: dir, Plugins: []host.Spec{
		{Name: "good", Path: self, SHA256: sum, Args: []string{"plugin", "good", "good"}},
		{Name: "bad", Path: self, SHA256: sum, Args: []string{"plugin", "deaf"}},
	}})
	if err == nil {
		err = h.Start(context.Background())
	}
	if err != nil {
		fmt.Println(err)
		os.Exit(1)
	}
	for _, p := range h.List() {
		fmt.Println(p.PID)
	}
	select {}
}
