package main

import (
	"cmp"
	"context"
	"errors"
	"io/fs"
	"log/slog"
	"maps"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"sync/atomic"

	"github.com/fettle-tools/fettle/configs"
	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/budget"
	"github.com/fettle-tools/fettle/core/config"
	"github.com/fettle-tools/fettle/core/decide"
	"github.com/fettle-tools/fettle/core/host"
	"github.com/fettle-tools/fettle/core/store"
)

// shop is an open shop folder: what its settings said, its book, its plugins.
type shop struct {
	c       *command
	dir     string
	said    atomic.Pointer[heldSettings]
	book    *store.Book
	plugins *host.Host
	names   []string          // of the subsystems served, built-in ones first
	kinds   map[string]string // of unit, by the subsystems that it is known of before they are asked
	log     *os.File
	logger  *slog.Logger
}

// openShop opens the shop folder. Plugins start at their first call.
func (c *command) openShop(ctx context.Context) (*shop, error) {
	dir, err := filepath.Abs(c.dir())
	if err != nil {
		return nil, err
	}
	book, err := store.Open(ctx, dir, c.clock)
	if err != nil {
		return nil, err
	}
	s := &shop{c: c, dir: dir, book: book, kinds: map[string]string{}}
	if err = s.settle(); err != nil {
		s.close()
		return nil, err
	}
	s.logger = s.openLog()
	sum, err := c.builtInSum()
	if err != nil {
		s.close()
		return nil, err
	}
	specs, err := c.specs(s, sum)
	if err != nil {
		s.close()
		return nil, err
	}
	for _, spec := range specs {
		s.names = append(s.names, spec.Name)
		if spec.Origin == host.OriginBuiltIn {
			s.kinds[spec.Name] = builtInKind(spec.Name)
		}
	}
	if s.plugins, err = host.New(host.Config{Plugins: specs, Log: s.logger, Confiner: &host.Confiner{Path: c.builtInPath(), SHA256: sum}}); err != nil {
		s.close()
		return nil, err
	}
	return s, nil
}

func (s *shop) close() {
	if s.plugins != nil {
		s.plugins.Close()
	}
	if err := s.book.Close(); err != nil {
		slog.Error("closing the book", "error", err)
	}
	if s.log != nil {
		_ = s.log.Close()
	}
}

// logFile takes the structured log, plugins' output included; it starts afresh when it has grown past logCap.
const (
	logFile = "fettle.log"
	logCap  = 4 << 20
)

func (s *shop) openLog() *slog.Logger {
	name := filepath.Join(s.dir, logFile)
	if st, err := os.Stat(name); err == nil && st.Size() > logCap {
		_ = os.Rename(name, name+".1")
	}
	f, err := os.OpenFile(name, os.O_CREATE|os.O_APPEND|os.O_WRONLY, 0o644)
	if err != nil {
		return slog.New(slog.DiscardHandler) // a shop folder that may only be read can still be planned from
	}
	s.log = f
	level := slog.LevelWarn
	if s.c.flags.GetBool("debug") {
		level = slog.LevelDebug
	}
	return slog.New(slog.NewJSONHandler(f, &slog.HandlerOptions{Level: level}))
}

// job gives a job by its number, or the only one.
func (s *shop) job(ctx context.Context, number string) (core.Job, error) {
	if number != "" {
		return s.book.Job(ctx, number)
	}
	jobs, err := s.book.Jobs(ctx)
	if err != nil {
		return core.Job{}, err
	}
	switch len(jobs) {
	case 0:
		return core.Job{}, core.Errorf(core.NotFound, `fettle new job "What it is" --owner "Whose it is"`, "the shop has no job yet")
	case 1:
		return jobs[0], nil
	}
	var numbers []string
	for _, j := range jobs {
		numbers = append(numbers, j.Number)
	}
	return core.Job{}, core.Errorf(core.Invalid, "name one of: "+strings.Join(numbers, ", "), "which job?")
}

// data reads a file that a shop may edit: its own, or the embedded one of the same name.
func (s *shop) data(name string) ([]byte, string, error) {
	own := filepath.Join(s.dir, filepath.FromSlash(name))
	b, err := os.ReadFile(own)
	if err == nil {
		return b, own, nil
	}
	if !errors.Is(err, fs.ErrNotExist) {
		return nil, own, &core.Error{Code: core.Unavailable, What: "the file cannot be read", Where: own, Next: "check who may read it", Err: err}
	}
	b, err = configs.Files.ReadFile(name)
	return b, name, err
}

func (s *shop) instruments() ([]core.Instrument, error) {
	b, name, err := s.data("instruments.yaml")
	if err != nil {
		return nil, err
	}
	return config.ReadInstruments(b, name)
}

// stripPlan reads how a vehicle comes apart.
func (s *shop) stripPlan() (core.StripPlan, error) {
	b, name, err := s.data("strip/generic.yaml")
	if err != nil {
		return core.StripPlan{}, err
	}
	return config.ReadStripPlan(b, name)
}

// packs reads every pack, the shop's own winning over the embedded ones of the same file name.
func (s *shop) packs() ([]core.Pack, error) {
	names := map[string]bool{}
	embedded, err := configs.Files.ReadDir("packs")
	if err != nil {
		return nil, err
	}
	for _, e := range embedded {
		names[e.Name()] = true
	}
	own, err := os.ReadDir(filepath.Join(s.dir, "packs"))
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, err
	}
	for _, e := range own {
		if strings.HasSuffix(e.Name(), ".yaml") {
			names[e.Name()] = true
		}
	}
	var packs []core.Pack
	for _, n := range slices.Sorted(maps.Keys(names)) {
		b, where, err := s.data(path.Join("packs", n))
		if err != nil {
			return nil, err
		}
		p, err := config.ReadPack(b, where)
		if err != nil {
			return nil, err
		}
		packs = append(packs, p)
	}
	return packs, nil
}

// request gathers what a plan of a job is made from.
func (s *shop) request(ctx context.Context, job core.Job) (core.PlanRequest, error) {
	req := core.PlanRequest{Job: job, People: s.settings().People, Trials: s.settings().Trials}
	var story core.Story
	var storyErr, closedErr error
	var wg sync.WaitGroup // the story, and what closed jobs taught, are read beside the rest: all take their time
	var closed []core.Closed
	wg.Go(func() { closed, closedErr = s.book.Closed(ctx) })
	if job.Number != "" {
		wg.Go(func() { story, storyErr = s.book.Story(ctx, job.Number) })
	}
	defer wg.Wait()
	var err error
	if req.Findings, err = s.book.Findings(ctx, job.Number); err != nil {
		return req, err
	}
	if err := s.addPacks(&req); err != nil {
		return req, err
	}
	if req.Strip, err = s.stripPlan(); err != nil {
		return req, err
	}
	if req.VehiclePack != nil {
		if req.Strip, err = config.MergeStrip(req.Strip, req.VehiclePack.Steps); err != nil {
			return req, err
		}
	}
	prices, err := s.book.Prices(ctx)
	if err != nil {
		return req, err
	}
	req.Terms = core.Terms{Currency: s.settings().Currency, Rates: s.settings().Rates, Taxes: s.settings().Taxes, Prices: prices, Today: s.c.clock().UTC()}
	wg.Wait()
	if err := cmp.Or(storyErr, closedErr); err != nil {
		return req, err
	}
	req.Learned = core.Learn(closed, job.Number)
	if job.Number == "" { // not opened yet
		return req, nil
	}
	return req.Underway(story), nil
}

func (s *shop) addPacks(req *core.PlanRequest) error {
	packs, err := s.packs()
	if err != nil {
		return err
	}
	find := func(id string) (*core.Pack, error) {
		for i := range packs {
			if packs[i].ID == id {
				return &packs[i], nil
			}
		}
		return nil, core.Errorf(core.NotFound, "put it into the shop's packs folder, or take it off the job", "the job names the pack %q, and there is none", id)
	}
	if v := req.Job.Vehicle; v != nil && v.Pack != "" {
		if req.VehiclePack, err = find(v.Pack); err != nil {
			return err
		}
	}
	for _, u := range req.Job.Units {
		if u.Pack == "" {
			continue
		}
		p, err := find(u.Pack)
		if err != nil {
			return err
		}
		req.UnitPacks = append(req.UnitPacks, *p)
	}
	return nil
}

// planner holds the interfaces; only here are they wired.
func (s *shop) planner() *core.Planner {
	p := &core.Planner{Decider: decide.Solver{}, Budgeter: budget.Simulator{}, Looker: budget.Simulator{}}
	for _, n := range s.names {
		p.Assessors = append(p.Assessors, core.Named{Subsystem: n, UnitKind: s.kinds[n], Assessor: s.plugins.Assessor(n)})
	}
	return p
}

func (s *shop) plan(ctx context.Context, job core.Job) (core.Plan, error) {
	req, err := s.request(ctx, job)
	if err != nil {
		return core.Plan{}, err
	}
	return s.planner().Plan(ctx, req)
}

// sheet describes a subsystem with the facts of a job's first unit of its kind; an empty job has no facts.
func (s *shop) sheet(ctx context.Context, job core.Job, name string) (core.Sheet, []core.Fact, error) {
	if !slices.Contains(s.names, name) {
		next := "use one of: " + strings.Join(s.names, ", ")
		return core.Sheet{}, nil, core.Errorf(core.NotFound, next, "no subsystem %q is served", name)
	}
	sheets, err := s.describe(ctx, job, []string{name})
	if err != nil {
		return core.Sheet{}, nil, err
	}
	return sheets[0].Sheet, sheets[0].Facts, nil
}

// describe gives the sheets of subsystems for a job's units. One that cannot answer is an error.
func (s *shop) describe(ctx context.Context, job core.Job, names []string) ([]core.UnitSheet, error) {
	req := core.PlanRequest{Job: job}
	if job.Number != "" {
		if err := s.addPacks(&req); err != nil {
			return nil, err
		}
	}
	return s.describeFor(ctx, req, names...)
}

// describeFor is describe where the job's packs have been read.
func (s *shop) describeFor(ctx context.Context, req core.PlanRequest, names ...string) ([]core.UnitSheet, error) {
	p := &core.Planner{}
	for _, n := range names {
		p.Assessors = append(p.Assessors, core.Named{Subsystem: n, Assessor: s.plugins.Assessor(n)})
	}
	return p.Describe(ctx, req)
}

// mentioned are the subsystems served whose names stand among the words; all, if none does.
func (s *shop) mentioned(words []string) []string {
	var names []string
	for _, n := range s.names {
		if slices.ContainsFunc(words, func(w string) bool { name, _, _ := strings.Cut(w, "@"); return name == n }) {
			names = append(names, n)
		}
	}
	if len(names) == 0 {
		return s.names
	}
	return names
}

// recorder looks findings up against the sheets of the job's subsystems. A subsystem that cannot answer is an error only if no other can:
// its findings are refused with its name, the others are taken. Only the subsystems mentioned are started, or all if none is.
func (s *shop) recorder(ctx context.Context, job core.Job, mentioned ...string) (core.Recorder, error) {
	instruments, err := s.instruments()
	if err != nil {
		return core.Recorder{}, err
	}
	req := core.PlanRequest{Job: job}
	if err := s.addPacks(&req); err != nil {
		return core.Recorder{}, err
	}
	names := s.mentioned(mentioned)
	_ = s.plugins.Start(ctx, names...) // side by side; what does not start says so when it is asked
	r := core.Recorder{Instruments: instruments, Served: s.names, Silent: map[string]error{}}
	var silent faults
	for _, n := range names {
		sheets, err := s.describeFor(ctx, req, n)
		if err != nil {
			silent = append(silent, err)
			r.Silent[n] = err
			continue
		}
		r.Sheets = append(r.Sheets, sheets...)
	}
	if len(r.Sheets) == 0 && len(silent) > 0 {
		return r, silent
	}
	return r, nil
}
