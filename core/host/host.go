package host

import (
	"context"
	"errors"
	"log/slog"
	"sync"
	"time"

	"github.com/fettle-tools/fettle/core"
)

// Config says which plugins there are and how they are treated. Zero values take the defaults beside them.
type Config struct {
	Plugins      []Spec
	Log          *slog.Logger     // nil: nothing is logged
	TempDir      string           // where the private socket folder goes; "": the system's, if its path is short enough
	StartTimeout time.Duration    // from start to the first answer; 8 s
	CallTimeout  time.Duration    // of each call; 10 s
	Backoff      time.Duration    // wait after the second failure in a row, doubled at each further one; 250 ms
	Tries        int              // failures in a row after which it rests; 3
	Rest         time.Duration    // how long it rests then; 1 min
	OutputCap    int              // bytes of one run's output that reach the log; 64 KiB
	Confiner     *Confiner        // nil: plugins run unconfined
	Now          func() time.Time // nil: time.Now
}

func (c Config) withDefaults() Config {
	if c.Log == nil {
		c.Log = slog.New(slog.DiscardHandler)
	}
	setDefault(&c.StartTimeout, 8*time.Second)
	setDefault(&c.CallTimeout, 10*time.Second)
	setDefault(&c.Backoff, 250*time.Millisecond)
	setDefault(&c.Tries, 3)
	setDefault(&c.Rest, time.Minute)
	setDefault(&c.OutputCap, 64<<10)
	if c.Now == nil {
		c.Now = time.Now
	}
	return c
}

func setDefault[T comparable](v *T, otherwise T) {
	var zero T
	if *v == zero {
		*v = otherwise
	}
}

// Host holds the plugins of a shop. It is safe for concurrent use.
type Host struct {
	config   Config
	folder   *folder
	launcher *launcher
	hashes   hashes
	plugins  []*hosted
	closing  sync.Once
}

// New makes a host; no process is started before it is needed. Close it, or plugins and their folder stay until the
// process ends.
func New(c Config) (*Host, error) {
	c = c.withDefaults()
	dir, err := makeFolder(c.TempDir)
	if err != nil {
		return nil, &core.Error{Code: core.Unavailable, What: "no private folder for the plugins' sockets",
			Next: "check that the system's folder for temporary files exists and can be written", Err: err}
	}
	if c.Confiner != nil {
		c.Confiner = &Confiner{Path: full(c.Confiner.Path), SHA256: c.Confiner.SHA256}
	}
	h := &Host{config: c, folder: dir, launcher: newLauncher()}
	for _, s := range c.Plugins {
		s.Path = full(s.Path)
		h.plugins = append(h.plugins, &hosted{host: h, spec: s})
	}
	return h, nil
}

func (h *Host) plugin(name string) *hosted {
	for _, p := range h.plugins {
		if p.spec.Name == name {
			return p
		}
	}
	return nil
}

// Assessor gives the subsystem of that name. Its process starts at the first call; several may start at the same
// time. Every answer has passed the checks. An error is a *core.Error: NotFound if there is no such plugin,
// Unavailable if it could not answer, Invalid if its answer, its file or its sheet is not to be trusted, and the
// plugin's own code if it answered with an error.
func (h *Host) Assessor(name string) core.Assessor {
	if p := h.plugin(name); p != nil {
		return p
	}
	return noPlugin(name)
}

// noPlugin stands for a subsystem that no plugin serves.
type noPlugin string

func (n noPlugin) err() error {
	return core.Errorf(core.NotFound, "see what there is with: fettle plugin list", "%s: not assessed: no plugin of that name", string(n))
}

// Describe fails.
func (n noPlugin) Describe(context.Context, []core.Fact) (core.Sheet, []core.Problem, error) {
	return core.Sheet{}, nil, n.err()
}

// Assess fails.
func (n noPlugin) Assess(context.Context, core.AssessRequest) (core.Assessment, error) {
	return core.Assessment{}, n.err()
}

// Start starts plugins ahead of their first call, in parallel; no name means all. It returns what failed, joined.
func (h *Host) Start(ctx context.Context, names ...string) error {
	if len(names) == 0 {
		for _, p := range h.plugins {
			names = append(names, p.spec.Name)
		}
	}
	errs := make([]error, len(names))
	var wg sync.WaitGroup
	for i, name := range names {
		p := h.plugin(name)
		if p == nil {
			errs[i] = noPlugin(name).err()
			continue
		}
		wg.Go(func() { _, errs[i] = p.running(ctx) })
	}
	wg.Wait()
	return errors.Join(errs...)
}

// Again lets a plugin that failed be tried at its next call, whatever it did before: somebody has put right what was wrong with it.
func (h *Host) Again(name string) {
	if p := h.plugin(name); p != nil {
		p.again()
	}
}

// Info is what a list of plugins shows.
type Info struct {
	Spec
	State string `json:"state"`         // one of the State constants
	PID   int    `json:"pid,omitempty"` // 0: not running
	Fault string `json:"fault,omitempty"`
}

// The states of a plugin.
const (
	StateNotStarted = "not started"
	StateRunning    = "running"
	StateStopped    = "stopped" // by a failure; the next call starts it again
	StateResting    = "resting" // after several failures; later calls start it again
)

// List shows every plugin, in the order of the configuration.
func (h *Host) List() []Info {
	list := make([]Info, len(h.plugins))
	for i, p := range h.plugins {
		list[i] = p.info()
	}
	return list
}

// Close stops every plugin and removes the private folder. Calls under way fail.
func (h *Host) Close() {
	h.closing.Do(func() {
		var wg sync.WaitGroup
		for _, p := range h.plugins {
			wg.Go(p.close)
		}
		wg.Wait()
		h.launcher.close()
		h.folder.remove()
	})
}
