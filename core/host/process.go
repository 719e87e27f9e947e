package host

import (
	"context"
	"crypto/tls"
	"fmt"
	"os/exec"
	"strings"
	"sync"
	"time"

	"github.com/hashicorp/go-hclog"
	"github.com/hashicorp/go-plugin"
	goplugin "github.com/hashicorp/go-plugin/runner"
	"google.golang.org/grpc"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

// stopGrace is how long cleaning up after a run may hold anybody up. A process that left its group and still holds
// our pipes is not waited for.
const stopGrace = 2 * time.Second

// process is one run of a plugin.
type process struct {
	assessor core.Assessor // the raw one, over gRPC: nothing is checked yet
	client   *plugin.Client
	out      *output
	sheets   sheets // what it described, by the facts

	mu   sync.Mutex
	run  *runner // nil before the program is there
	late bool    // it was ended because it did not start in time, or because nobody waits for it any more
}

// start starts a pinned plugin and makes sure of its name. Nothing is left behind when it fails.
func (h *Host) start(s Spec, p *process) *core.Error {
	if err := s.verify(&h.hashes); err != nil {
		return err
	}
	if err := h.config.Confiner.verify(&h.hashes, s); err != nil {
		return err
	}
	log := h.config.Log.With("plugin", s.Name)
	p.out = newOutput(log, h.config.OutputCap)
	p.client = plugin.NewClient(h.clientConfig(s, p))
	watchdog := time.AfterFunc(h.config.StartTimeout, p.giveUp)
	err := p.connect(s)
	watchdog.Stop()
	if err != nil {
		fault := h.startFault(s, p, err)
		p.stop()
		log.Warn("plugin did not start", "fault", fault.Error())
		return fault
	}
	log.Info("plugin started", "pid", p.runner().process())
	return nil
}

func (h *Host) clientConfig(s Spec, p *process) *plugin.ClientConfig {
	config := &plugin.ClientConfig{
		HandshakeConfig:  sdk.Handshake(),
		VersionedPlugins: sdk.PluginSets(nil),
		AllowedProtocols: []plugin.Protocol{plugin.ProtocolGRPC},
		AutoMTLS:         true,
		SkipHostEnv:      true,
		StartTimeout:     2 * h.config.StartTimeout, // the watchdog comes first, and knows more
		UnixSocketConfig: &plugin.UnixSocketConfig{TempDir: h.folder.path},
		Logger:           hclog.New(&hclog.LoggerOptions{Level: hclog.Off}),
		Stderr:           p.out,
		SyncStdout:       p.out,
		SyncStderr:       p.out,
		GRPCDialOptions: []grpc.DialOption{
			grpc.WithIdleTimeout(0), // one connection for the whole run: the socket may be swept away meanwhile
			grpc.WithDefaultCallOptions(grpc.MaxCallRecvMsgSize(sdk.MaxMessage), grpc.MaxCallSendMsgSize(sdk.MaxMessage)),
		},
	}
	config.RunnerFunc = func(_ hclog.Logger, cmd *exec.Cmd, dir string) (goplugin.Runner, error) {
		if err := ownCertificate(config, cmd); err != nil {
			return nil, err
		}
		program, args := h.config.Confiner.wrap(s, dir)
		r, err := newRunner(program, args, cmd.Env, dir, h.launcher.do)
		if err != nil {
			return nil, err
		}
		if !p.setRun(r) {
			return nil, context.Canceled
		}
		return r, nil
	}
	return config
}

// ownCertificate puts a certificate that costs the plugin less (sdk.RunCertificate) where go-plugin put its own: into the
// settings of the connection, and into what the plugin is told.
func ownCertificate(config *plugin.ClientConfig, cmd *exec.Cmd) error {
	cert, inPEM, err := sdk.RunCertificate()
	if err != nil {
		return err
	}
	config.TLSConfig.Certificates = []tls.Certificate{cert}
	for i, v := range cmd.Env {
		if strings.HasPrefix(v, sdk.ClientCertKey+"=") {
			cmd.Env[i] = sdk.ClientCertKey + "=" + string(inPEM)
		}
	}
	return nil
}

// connect takes the handshake, connects and asks for the name: a socket nobody listens on is found only by calling.
func (p *process) connect(s Spec) error {
	conn, err := p.client.Client()
	if err != nil {
		return err
	}
	raw, err := conn.Dispense(sdk.PluginName)
	if err != nil {
		return err
	}
	p.assessor = raw.(core.Assessor)
	sheet, _, err := p.assessor.Describe(context.Background(), nil) // ended by the watchdog
	if err != nil {
		return err
	}
	if sheet.Subsystem != s.Name {
		return wrongName(sheet.Subsystem)
	}
	return nil
}

// wrongName is the error of a plugin that says it is another.
type wrongName string

// Error names the other.
func (w wrongName) Error() string {
	return fmt.Sprintf("the plugin says it is %q", printable(string(w), 40))
}

// setRun notes the run before it starts; false if nobody waits for it any more.
func (p *process) setRun(r *runner) bool {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.run = r
	return !p.late
}

// runner gives the run, or nil.
func (p *process) runner() *runner {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.run
}

// giveUp ends a plugin that did not start in time.
func (p *process) giveUp() {
	p.mu.Lock()
	p.late = true
	p.mu.Unlock()
	p.kill()
}

func (p *process) wasLate() bool {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.late
}

func (p *process) kill() {
	if r := p.runner(); r != nil {
		_ = r.Kill(context.Background())
	}
}

// ended says how the process ended, "" while it runs. It waits up to the time given for the end.
func (p *process) ended(wait time.Duration) string {
	r := p.runner()
	if r == nil {
		return ""
	}
	select {
	case <-r.done:
	case <-time.After(wait):
	}
	return r.ended()
}

// stop ends the process and cleans up after it. A plugin keeps nothing, so it is not asked first.
func (p *process) stop() {
	p.kill()
	cleaned := make(chan struct{})
	go func() {
		defer close(cleaned)
		p.client.Kill()
	}()
	select {
	case <-cleaned:
	case <-time.After(stopGrace):
	}
}
