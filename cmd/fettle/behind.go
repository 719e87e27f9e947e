package main

import (
	"context"
	"slices"
	"strings"
	"sync"

	"golang.org/x/sync/singleflight"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/web"
)

// behind is the shop as its pages see it. Plans and what the subsystems say are kept while the book does not change.
type behind struct {
	s        *shop
	life     context.Context // of the server: what is done beside the pages ends with it
	mu       sync.Mutex
	flights  singleflight.Group
	wants    map[string]wanted
	plans    map[string]kept[core.Plan]
	stories  map[string]kept[core.Story]
	found    map[string]kept[[]core.Finding]
	yard     map[string]kept[[]core.Story]
	lists    map[string]kept[[]web.Subsystem]
	seen     map[string]kept[core.UnitSheet]
	stands   map[string]kept[[]core.UnitSheet]
	prices   map[string]kept[[]core.PriceEntry]
	arrivals map[string]kept[web.AsFound]
	sheets   []core.UnitSheet // of every subsystem, as they are without a job
	looks    map[string]kept[[]core.Look]
	whatIfs  map[string]kept[web.Supposed]
	desk     desk
	strip    map[string]kept[core.Stripdown]
	parts    map[string]kept[[]web.Named]
	off      map[string]kept[[]string]
	tags     sync.Mutex // of whoever writes a tag anew from what it was
	figures  sync.Mutex // of whoever writes the settings anew

	begun  map[string]kept[bool] // plans that the yard had begun, by job: whether they are under way
	beside sync.Mutex            // of whoever plans what nobody waits for

	weighings slowly[core.Weighing]
	days      slowly[[]core.BudgetDay]
}

// Stories are those of all jobs. They are shared: nobody writes into them.
func (b *behind) Stories(ctx context.Context) ([]core.Story, error) {
	return keep(ctx, b, &b.yard, "", func() ([]core.Story, error) { return b.s.book.Stories(ctx) })
}

// Story is what happened to a job. It is shared: nobody writes into it.
func (b *behind) Story(ctx context.Context, job string) (core.Story, error) {
	return keep(ctx, b, &b.stories, job, func() (core.Story, error) { return b.s.book.Story(ctx, job) })
}

// Changed is a number of its own for each state of the book and the settings.
func (b *behind) Changed(ctx context.Context) (int64, error) {
	entries, err := b.s.book.Changed(ctx)
	b.s.resettle()
	return entries<<16 | b.s.said.Load().read&(1<<16-1), err
}

// Plan plans a job, or gives the plan that still holds. It is shared: nobody writes into it.
func (b *behind) Plan(ctx context.Context, job string) (core.Plan, error) {
	b.want("plan "+job, func(ctx context.Context) error { _, err := b.plan(ctx, job); return err })
	return b.plan(ctx, job)
}

func (b *behind) plan(ctx context.Context, job string) (core.Plan, error) {
	return keep(ctx, b, &b.plans, job, func() (core.Plan, error) {
		j, err := b.s.book.Job(ctx, job)
		if err != nil {
			return core.Plan{}, err
		}
		return b.s.planFinish(ctx, j)
	})
}

// Subsystems lists those of a job, units of one kind beside one another.
func (b *behind) Subsystems(ctx context.Context, number string) ([]web.Subsystem, error) {
	return keep(ctx, b, &b.lists, number, func() ([]web.Subsystem, error) { return b.subsystems(ctx, number) })
}

func (b *behind) subsystems(ctx context.Context, number string) ([]web.Subsystem, error) {
	job, err := b.s.book.Job(ctx, number)
	if err != nil {
		return nil, err
	}
	found, err := b.findings(ctx, number)
	if err != nil {
		return nil, err
	}
	sheets, err := b.described(ctx, job)
	if err != nil {
		return nil, err
	}
	var list []web.Subsystem
	for _, us := range sheets {
		if us.Failed {
			list = append(list, web.Subsystem{Name: benchName(us), Title: web.TitleOf(us), Silent: true})
			continue
		}
		if !liesIn(job, us) {
			continue
		}
		x := web.Subsystem{Name: benchName(us), Title: us.Title()}
		x.Read, x.Asked = web.Questions(us, findingsOn(us, found))
		list = append(list, x)
	}
	return list, nil
}

// liesIn reports whether a sheet is of what a job works on, or of a spare unit, which is looked at too.
func liesIn(job core.Job, us core.UnitSheet) bool {
	return len(core.InExtent(job, []core.UnitSheet{us})) > 0 || slices.ContainsFunc(job.Units, func(u core.Unit) bool { return u.ID == us.Unit && u.Role == core.UnitSpare })
}

// findings are the live ones of a job.
func (b *behind) findings(ctx context.Context, job string) ([]core.Finding, error) {
	return keep(ctx, b, &b.found, job, func() ([]core.Finding, error) { return b.s.book.Findings(ctx, job) })
}

// findingsOn are those on one subsystem of one unit.
func findingsOn(us core.UnitSheet, all []core.Finding) []core.Finding {
	var out []core.Finding
	for _, f := range all {
		if f.Subsystem == us.Subsystem && (f.Unit == us.Unit || f.Unit == "") {
			out = append(out, f)
		}
	}
	return out
}

// benchName is a subsystem as it is addressed.
func benchName(s core.UnitSheet) string {
	return core.Place{Subsystem: s.Subsystem, Unit: s.Unit}.Bench()
}

// Bench assesses one subsystem of a job.
func (b *behind) Bench(ctx context.Context, number, subsystem string) (core.UnitSheet, []core.Finding, error) {
	job, err := b.s.book.Job(ctx, number)
	if err != nil {
		return core.UnitSheet{}, nil, err
	}
	all, err := b.findings(ctx, number)
	if err != nil {
		return core.UnitSheet{}, nil, err
	}
	sheet, err := keep(ctx, b, &b.seen, number+" "+subsystem, func() (core.UnitSheet, error) { return b.s.assess(ctx, job, subsystem) })
	if err != nil {
		return sheet, nil, err
	}
	return sheet, findingsOn(sheet, all), nil
}

// assess asks one subsystem alone.
func (s *shop) assess(ctx context.Context, job core.Job, subsystem string) (core.UnitSheet, error) {
	name, unit, _ := strings.Cut(subsystem, "@")
	if i := slices.IndexFunc(job.Units, func(u core.Unit) bool { return u.ID == unit && u.Role == core.UnitSpare }); i >= 0 {
		job.Units = slices.Clone(job.Units)
		job.Units[i].Role = "" // a spare one is looked at like the others
	}
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
		if benchName(us) == subsystem || us.Subsystem == subsystem && len(sheets) == 1 || us.Failed && us.Unit == "" {
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
	if err != nil && len(r.Silent) == 0 { // what is said to a silent one is refused by itself
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
	if len(fs) == 0 {
		return errs, nil
	}
	_, err = b.s.book.AddFindings(ctx, number, fs)
	return errs, err
}

// TakeBack takes one finding back.
func (b *behind) TakeBack(ctx context.Context, job, by, reading string) error {
	_, err := b.s.book.TakeBack(ctx, job, by, reading)
	return err
}
