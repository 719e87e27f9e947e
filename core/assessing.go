package core

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"sync"
)

// Assess asks the subsystems alone: what was found, without what it costs. A subsystem that failed stands there as such, with why as the first of its problems;
// one that did not even say what it is part of has no unit and an empty sheet.
func (p *Planner) Assess(ctx context.Context, req PlanRequest) []UnitSheet {
	sheets, problems := p.assess(ctx, req)
	for _, n := range p.Assessors {
		why := slices.IndexFunc(problems, func(q Problem) bool { return q.Subsystem == n.Subsystem && q.Unit == "" && q.NotAssessed() })
		if why >= 0 && !slices.ContainsFunc(sheets, func(us UnitSheet) bool { return us.Subsystem == n.Subsystem }) {
			sheets = append(sheets, UnitSheet{Subsystem: n.Subsystem, Failed: true})
		}
	}
	for i, us := range sheets {
		why := slices.IndexFunc(problems, func(q Problem) bool { return q.Subsystem == us.Subsystem && q.Unit == us.Unit && q.NotAssessed() })
		if us.Failed && why >= 0 {
			q := problems[why]
			q.Target = Target{}
			sheets[i].Assessment.Problems = []Problem{q}
		}
	}
	return sheets
}

// assess asks every subsystem of the extent about every unit of its kind, side by side, and keeps the order.
func (p *Planner) assess(ctx context.Context, req PlanRequest) ([]UnitSheet, []Problem) {
	answers := make([][]UnitSheet, len(p.Assessors))
	problems := make([][]Problem, len(p.Assessors))
	var wg sync.WaitGroup
	for i, n := range p.Assessors {
		if p.mayLieIn(req.Job, n) {
			wg.Go(func() { answers[i], problems[i] = assessSubsystem(ctx, n, req) })
		}
	}
	wg.Wait()
	var sheets []UnitSheet
	var ps []Problem
	for i := range answers {
		sheets = append(sheets, answers[i]...)
		ps = append(ps, problems[i]...)
	}
	return sheets, append(ps, strayFindings(req, sheets, ps)...)
}

// assessSubsystem describes and assesses each unit of one subsystem's kind.
func assessSubsystem(ctx context.Context, n Named, req PlanRequest) ([]UnitSheet, []Problem) {
	if n.Assessor == nil {
		return nil, nil
	}
	base := described{facts: factsFor(req, n.Subsystem, Unit{})}
	var err error
	base.sheet, base.problems, err = n.Assessor.Describe(ctx, base.facts)
	if err != nil {
		return nil, notAssessed(n.Subsystem, "", findingTargets(req, n.Subsystem, ""), err)
	}
	var sheets []UnitSheet
	var ps []Problem
	for _, u := range unitsOf(req.Job, base.sheet.UnitKind) {
		if !req.Job.Extent.includes(n.Subsystem, u) {
			continue
		}
		s, more := assessUnit(ctx, n, req, u, base)
		sheets, ps = append(sheets, s), append(ps, more...)
	}
	return sheets, ps
}

// described is a sheet as described for some facts.
type described struct {
	facts    []Fact
	sheet    Sheet
	problems []Problem
}

// describe gives the sheet for other facts; the same facts are not asked about twice.
func (d described) describe(ctx context.Context, a Assessor, facts []Fact) (Sheet, []Problem, error) {
	if slices.Equal(d.facts, facts) {
		return d.sheet, d.problems, nil
	}
	return a.Describe(ctx, facts)
}

func assessUnit(ctx context.Context, n Named, req PlanRequest, u Unit, base described) (UnitSheet, []Problem) {
	s := UnitSheet{Subsystem: n.Subsystem, Unit: u.ID, Facts: factsFor(req, n.Subsystem, u), Overrides: overridesFor(req, n.Subsystem, u)}
	sheet, ps, err := base.describe(ctx, n.Assessor, s.Facts)
	if err != nil {
		s.Failed = true
		return s, notAssessed(n.Subsystem, u.ID, findingTargets(req, n.Subsystem, u.ID), err)
	}
	s.Sheet = sheet
	s.Assessment, err = n.Assessor.Assess(ctx, AssessRequest{Unit: u.ID, Facts: s.Facts, Brief: req.Job.Brief.Of(n.Subsystem),
		Overrides: s.Overrides, Findings: findingsOf(req, n.Subsystem, u.ID, first(req.Job, sheet.UnitKind) == u.ID)})
	if err != nil {
		s.Failed, s.Assessment = true, Assessment{}
		var targets []Target
		for _, p := range sheet.Parts {
			targets = append(targets, p.Targets()...)
		}
		return s, append(stamped(ps, n.Subsystem, u.ID), notAssessed(n.Subsystem, u.ID, targets, err)...)
	}
	seen := map[string]bool{}
	for _, q := range ps {
		seen[q.Summary+q.Target.String()] = true
	}
	for _, q := range s.Assessment.Problems { // Assess repeats what Describe said of the same facts.
		if !seen[q.Summary+q.Target.String()] {
			ps = append(ps, q)
		}
	}
	return s, stamped(ps, n.Subsystem, u.ID)
}

func stamped(ps []Problem, subsystem, unit string) []Problem {
	out := slices.Clone(ps)
	for i := range out {
		out[i].Subsystem, out[i].Unit = subsystem, unit
	}
	return out
}

// unassessed begins the summary of a problem that is the subsystem's failure, and no finding's.
const unassessed = "not assessed: "

// NotAssessed reports that the problem is the subsystem's own: it failed, and judged nothing.
func (p Problem) NotAssessed() bool {
	return p.Severity == SeverityError && strings.HasPrefix(p.Summary, unassessed)
}

// notAssessed is one problem for each part that the subsystem should have judged.
func notAssessed(subsystem, unit string, targets []Target, err error) []Problem {
	if len(targets) == 0 {
		targets = []Target{{}}
	}
	ps := make([]Problem, len(targets))
	next := ErrorNext(err)
	if next == "" {
		next = "run it again; if it stays, see the log in the shop folder"
	}
	for i, t := range targets {
		ps[i] = Problem{Severity: SeverityError, Subsystem: subsystem, Unit: unit, Target: t,
			Summary: unassessed + strings.TrimPrefix(plainCause(err), subsystem+": not assessed: "), Detail: err.Error(), Next: next}
	}
	return ps
}

func plainCause(err error) string {
	if e, ok := err.(*Error); ok {
		return e.What
	}
	return err.Error()
}

// unitsOf lists the units of a kind that the job works on; a vehicle has one of each kind without being told. Spare units are looked at, and
// lend their parts; those taken out are not there.
func unitsOf(j Job, kind string) []Unit {
	var us []Unit
	for _, u := range j.Units {
		if u.Kind == kind && u.Role == "" {
			us = append(us, u)
		}
	}
	if len(us) == 0 && j.Vehicle != nil {
		us = append(us, Unit{ID: kind, Kind: kind, Title: kind})
	}
	return us
}

func first(j Job, kind string) string {
	for _, u := range unitsOf(j, kind) {
		return u.ID
	}
	return ""
}

// mayLieIn reports whether a subsystem can lie in a job, as far as that can be said without asking it: where its kind of unit is known, none but those of the
// job's units are started; else, where the extent names subsystems alone, none but those. A name may also be a unit or a kind of unit.
func (p *Planner) mayLieIn(j Job, n Named) bool {
	e := j.Extent
	if n.UnitKind != "" {
		return slices.ContainsFunc(unitsOf(j, n.UnitKind), func(u Unit) bool { return e.includes(n.Subsystem, u) })
	}
	if e.Kind != ExtentNamed || slices.Contains(e.Names, n.Subsystem) {
		return true
	}
	return slices.ContainsFunc(e.Names, func(name string) bool {
		return !slices.ContainsFunc(p.Assessors, func(n Named) bool { return n.Subsystem == name })
	})
}

func (e Extent) includes(subsystem string, u Unit) bool {
	if e.Kind != ExtentNamed {
		return true
	}
	return slices.Contains(e.Names, subsystem) || slices.Contains(e.Names, u.ID) || slices.Contains(e.Names, u.Kind)
}

// factsFor gives the facts of a unit: read off it, then its pack's, then the vehicle's where the unit has no pack of its own.
func factsFor(req PlanRequest, subsystem string, u Unit) []Fact {
	var fs []Fact
	add := func(more []Fact) {
		for _, f := range more {
			if !slices.ContainsFunc(fs, func(g Fact) bool { return g.Name == f.Name }) {
				fs = append(fs, f)
			}
		}
	}
	add(u.Facts)
	if p := unitPack(req, u); p != nil {
		add(p.FactsFor(subsystem))
	} else {
		add(req.VehiclePack.FactsFor(subsystem))
	}
	slices.SortStableFunc(fs, func(a, b Fact) int { return strings.Compare(a.Name, b.Name) })
	return fs
}

func unitPack(req PlanRequest, u Unit) *Pack {
	for i := range req.UnitPacks {
		if u.Pack != "" && req.UnitPacks[i].ID == u.Pack {
			return &req.UnitPacks[i]
		}
	}
	return nil
}

// overridesFor lists limits that win over the sheet's: the job's, then the unit pack's, then the vehicle pack's.
func overridesFor(req PlanRequest, subsystem string, u Unit) []Override {
	var os []Override
	add := func(more []SubsystemOverride, origin string) {
		for _, o := range more {
			dup := slices.ContainsFunc(os, func(x Override) bool { return x.Check == o.Check && x.Target == o.Target })
			if o.Subsystem == subsystem && !dup {
				o.Limit.Origin = origin
				os = append(os, o.Override)
			}
		}
	}
	add(req.Job.Overrides, "job")
	if p := unitPack(req, u); p != nil {
		add(p.Overrides, "unit")
	}
	if req.VehiclePack != nil && (unitPack(req, u) == nil) {
		add(req.VehiclePack.Overrides, "vehicle")
	}
	return os
}

// findingsOf lists the findings of one unit of a subsystem, in order of id; those without a unit belong to the first.
func findingsOf(req PlanRequest, subsystem, unit string, isFirst bool) []Finding {
	var fs []Finding
	for _, f := range req.Findings {
		if f.Subsystem == subsystem && (f.Unit == unit || f.Unit == "" && isFirst) {
			f.Unit = unit
			fs = append(fs, f)
		}
	}
	slices.SortStableFunc(fs, func(a, b Finding) int { return strings.Compare(a.ID, b.ID) })
	return fs
}

func findingTargets(req PlanRequest, subsystem, unit string) []Target {
	var ts []Target
	for _, f := range req.Findings {
		if f.Subsystem == subsystem && (unit == "" || f.Unit == unit || f.Unit == "") && !slices.Contains(ts, f.Target) {
			ts = append(ts, f.Target)
		}
	}
	return ts
}

// strayFindings names findings that no assessed unit took: nothing recorded is dropped in silence.
func strayFindings(req PlanRequest, sheets []UnitSheet, told []Problem) []Problem {
	var ps []Problem
	for _, f := range req.Findings {
		taken := slices.ContainsFunc(sheets, func(s UnitSheet) bool {
			return s.Subsystem == f.Subsystem && (f.Unit == "" || s.Unit == f.Unit)
		}) || slices.ContainsFunc(req.Job.Units, func(u Unit) bool { return u.ID == f.Unit && u.Role != "" }) || slices.ContainsFunc(told, func(p Problem) bool { return p.Subsystem == f.Subsystem && p.Severity == SeverityError })
		if !taken {
			ps = append(ps, Problem{Severity: SeverityWarning, Subsystem: f.Subsystem, Unit: f.Unit, Target: f.Target, Check: f.Check, FindingID: f.ID,
				Summary: fmt.Sprintf("kept but not used: %s lies outside this job's extent, or no plugin serves it", f.Place()),
				Next:    "widen the job's extent, or see: fettle plugin list"})
		}
	}
	return ps
}

// Describe gives the sheet of every subsystem for each of the job's units of its kind, with their facts, whatever the extent; for a job
// without such a unit, once without facts. The error is the first plugin's that could not answer.
func (p *Planner) Describe(ctx context.Context, req PlanRequest) ([]UnitSheet, error) {
	var out []UnitSheet
	for _, n := range p.Assessors {
		base := req.VehiclePack.FactsFor(n.Subsystem)
		sheet, _, err := n.Assessor.Describe(ctx, base)
		if err != nil {
			return nil, err
		}
		units := unitsOf(req.Job, sheet.UnitKind)
		for _, u := range req.Job.Units {
			if u.Kind == sheet.UnitKind && u.Role == UnitSpare {
				units = append(units, u)
			}
		}
		if len(units) == 0 {
			out = append(out, UnitSheet{Subsystem: n.Subsystem, Facts: base, Sheet: sheet})
		}
		for _, u := range units {
			facts := factsFor(req, n.Subsystem, u)
			if sheet, _, err = n.Assessor.Describe(ctx, facts); err != nil {
				return nil, err
			}
			out = append(out, UnitSheet{Subsystem: n.Subsystem, Unit: u.ID, Facts: facts, Overrides: overridesFor(req, n.Subsystem, u), Sheet: sheet})
		}
	}
	return out, nil
}
