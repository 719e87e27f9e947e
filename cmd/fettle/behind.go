package main

import (
	"context"
	"slices"
	"strings"
	"sync"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/store"
)

// behind is the shop as its pages see it. Plans and what the subsystems say are kept while the book does not change.
type behind struct {
	s     *shop
	mu    sync.Mutex
	plans map[string]kept[core.Plan]
	seen  map[string]kept[core.UnitSheet]
	strip map[string]kept[core.Stripdown]
	parts map[string]kept[[]string]
	off   map[string]kept[[]string]
	tags  sync.Mutex // of whoever writes a tag anew from what it was
}

// kept is what was worked out at a state of the book.
type kept[T any] struct {
	at    int64
	value T
}

func (b *behind) Stories(ctx context.Context) ([]core.Story, error) { return b.s.book.Stories(ctx) }

func (b *behind) Story(ctx context.Context, job string) (core.Story, error) {
	return b.s.book.Story(ctx, job)
}

func (b *behind) Changed(ctx context.Context) (int64, error) { return b.s.book.Changed(ctx) }

func (b *behind) Instruments() ([]core.Instrument, error) { return b.s.instruments() }

// Plan plans a job, or gives the plan that still holds.
func (b *behind) Plan(ctx context.Context, job string) (core.Plan, error) {
	return keep(ctx, b, &b.plans, job, func() (core.Plan, error) {
		j, err := b.s.book.Job(ctx, job)
		if err != nil {
			return core.Plan{}, err
		}
		return b.s.plan(ctx, j)
	})
}

// keep gives what holds at the book's present state, worked out if it is not there yet.
func keep[T any](ctx context.Context, b *behind, in *map[string]kept[T], key string, work func() (T, error)) (T, error) {
	now, err := b.s.book.Changed(ctx)
	if err != nil {
		var none T
		return none, err
	}
	b.mu.Lock()
	k, ok := (*in)[key]
	b.mu.Unlock()
	if ok && k.at == now {
		return k.value, nil
	}
	v, err := work()
	if err != nil {
		return v, err
	}
	b.mu.Lock()
	defer b.mu.Unlock()
	if *in == nil {
		*in = map[string]kept[T]{}
	}
	(*in)[key] = kept[T]{now, v}
	return v, nil
}

// Subsystems lists those of a job, units of one kind beside one another.
func (b *behind) Subsystems(ctx context.Context, number string) ([]string, error) {
	job, err := b.s.book.Job(ctx, number)
	if err != nil {
		return nil, err
	}
	sheets, err := b.s.describe(ctx, job, b.s.names)
	if err != nil {
		return nil, err
	}
	var names []string
	for _, s := range sheets {
		names = append(names, benchName(s))
	}
	return names, nil
}

// benchName is a subsystem as it is addressed.
func benchName(s core.UnitSheet) string {
	if s.Unit == "" || s.Unit == s.Subsystem {
		return s.Subsystem
	}
	return s.Subsystem + "@" + s.Unit
}

// Bench assesses one subsystem of a job.
func (b *behind) Bench(ctx context.Context, number, subsystem string) (core.UnitSheet, []core.Finding, error) {
	job, err := b.s.book.Job(ctx, number)
	if err != nil {
		return core.UnitSheet{}, nil, err
	}
	findings, err := b.s.book.Findings(ctx, number)
	if err != nil {
		return core.UnitSheet{}, nil, err
	}
	sheet, err := keep(ctx, b, &b.seen, number+" "+subsystem, func() (core.UnitSheet, error) { return b.s.assess(ctx, job, subsystem) })
	if err != nil {
		return sheet, nil, err
	}
	findings = slices.DeleteFunc(findings, func(f core.Finding) bool {
		return f.Subsystem != sheet.Subsystem || f.Unit != sheet.Unit && f.Unit != ""
	})
	return sheet, findings, nil
}

// assess asks one subsystem alone.
func (s *shop) assess(ctx context.Context, job core.Job, subsystem string) (core.UnitSheet, error) {
	name, _, _ := strings.Cut(subsystem, "@")
	if !slices.Contains(s.names, name) {
		return core.UnitSheet{}, core.Errorf(core.NotFound, "see the bench for what lies in this job", "no subsystem %q is served", name)
	}
	req, err := s.request(ctx, job)
	if err != nil {
		return core.UnitSheet{}, err
	}
	p := &core.Planner{Assessors: []core.Named{{Subsystem: name, Assessor: s.plugins.Assessor(name)}}}
	sheets := p.Assess(ctx, req)
	for _, us := range sheets {
		if benchName(us) == subsystem || us.Subsystem == subsystem && len(sheets) == 1 {
			return us, nil
		}
	}
	return core.UnitSheet{}, core.Errorf(core.NotFound, "see the bench for what lies in this job", "%s is no subsystem of %s", subsystem, job.Number)
}

// Record writes findings down; each stands or falls by itself.
func (b *behind) Record(ctx context.Context, number string, typed []core.Typed) ([]error, error) {
	job, err := b.s.book.Job(ctx, number)
	if err != nil {
		return nil, err
	}
	var mentioned []string
	for _, t := range typed {
		mentioned = append(mentioned, t.Subsystem)
	}
	r, err := b.s.recorder(ctx, job, mentioned...)
	if err != nil {
		return nil, err
	}
	errs := make([]error, len(typed))
	var fs []core.Finding
	for i, t := range typed {
		f, err := r.Finding(t)
		if err != nil {
			errs[i] = err
			continue
		}
		fs = append(fs, f)
	}
	if len(fs) > 0 {
		_, err = b.s.book.AddFindings(ctx, number, fs)
	}
	return errs, err
}

// Undo takes back the last finding.
func (b *behind) Undo(ctx context.Context, job, by string) (string, error) {
	u, err := b.s.book.Undo(ctx, job, by, store.KindFinding)
	if err != nil {
		return "", err
	}
	return u.Words(), nil
}
