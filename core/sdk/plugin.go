package sdk

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"github.com/fettle-tools/fettle/core"
)

// Subsystem is what an author writes: a sheet, and rules in Go where a sheet is not enough. Prepare runs before grading
// and may change limits; Rules run after it. Both may be nil.
type Subsystem struct {
	Sheet   []byte
	Prepare func(p *Prepare)
	Rules   Rules
}

// Plugin is a subsystem ready to be asked. It implements core.Assessor and may be used by several at once.
type Plugin struct {
	doc       *document
	subsystem Subsystem
}

var _ core.Assessor = (*Plugin)(nil)

// New loads and checks a sheet. The error, of code invalid, lists every fault with its line and column.
func New(s Subsystem) (*Plugin, error) {
	doc, fs := load(s.Sheet, s.Rules != nil || s.Prepare != nil)
	if len(fs) > 0 {
		return nil, faultError(fs)
	}
	s.Sheet = nil // read; not kept
	return &Plugin{doc, s}, nil
}

// Name is the subsystem's name.
func (p *Plugin) Name() string { return p.doc.subsystem.text }

// Describe gives the sheet for these facts. A fact that is wanting is a problem, never a made-up figure.
func (p *Plugin) Describe(ctx context.Context, facts []core.Fact) (core.Sheet, []core.Problem, error) {
	if err := ctx.Err(); err != nil {
		return core.Sheet{}, nil, err
	}
	r := p.doc.describe(facts)
	return r.sheet, r.problems, nil
}

// Assess judges one unit. The order of the findings changes nothing.
func (p *Plugin) Assess(ctx context.Context, req core.AssessRequest) (core.Assessment, error) {
	if err := ctx.Err(); err != nil {
		return core.Assessment{}, err
	}
	r := p.doc.describe(req.Facts)
	req.Findings = sortFindings(req.Findings)
	ls := r.looks()
	r.override(ls, req.Overrides)
	for i := range req.Findings {
		r.place(ls, &req.Findings[i])
	}
	if p.subsystem.Prepare != nil {
		pre := &Prepare{Request: req, Sheet: &r.sheet, r: r, looks: ls}
		if p.subsystem.Prepare(pre); pre.err != nil {
			return core.Assessment{}, pre.err
		}
	}
	a := core.Assessment{Conditions: []core.Condition{}, Remedies: []core.Remedy{}, Operations: []core.Operation{}, Problems: []core.Problem{}}
	for _, l := range ls {
		if err := ctx.Err(); err != nil {
			return core.Assessment{}, err
		}
		l.disagreements()
		v := l.verdict()
		c := v.condition()
		a.Conditions = append(a.Conditions, c)
		a.Remedies = append(a.Remedies, v.remedies(&c)...)
	}
	if p.subsystem.Rules != nil {
		b := &Bench{Request: req, Sheet: &r.sheet, Result: &a, r: r, looks: ls}
		if p.subsystem.Rules(b); b.err != nil {
			return core.Assessment{}, b.err
		}
	}
	return a, r.finish(&a, &req)
}

// finish puts the answer in order, adds the operations that its remedies name, and names every finding not used.
func (r *described) finish(a *core.Assessment, req *core.AssessRequest) error {
	rank := map[core.Target]int{}
	for i := range a.Conditions {
		c := &a.Conditions[i]
		rank[c.Target] = i
		for j := range c.States {
			if len(c.States[j].Remedies) == 0 {
				return core.Errorf(core.Internal, "report it to whoever keeps the subsystem", "the rules of %s leave no remedy for %s when it is %s",
					r.doc.subsystem.text, c.Target, c.States[j].Grade)
			}
		}
	}
	slices.SortStableFunc(a.Remedies, func(x, y core.Remedy) int {
		return cmp.Or(cmp.Compare(rank[x.Target], rank[y.Target]), cmp.Compare(x.Kind.Rank(), y.Kind.Rank()))
	})
	if err := r.operations(a); err != nil {
		return err
	}
	r.unused(a, req)
	for i := range r.problems {
		r.problems[i].Unit = req.Unit
	}
	a.Problems = append(a.Problems, r.problems...)
	slices.SortStableFunc(a.Problems, func(x, y core.Problem) int {
		return cmp.Or(cmp.Compare(severityRank(x.Severity), severityRank(y.Severity)), cmp.Compare(x.Target.String(), y.Target.String()),
			cmp.Compare(x.Check, y.Check), cmp.Compare(x.Summary, y.Summary), cmp.Compare(x.FindingID, y.FindingID))
	})
	return nil
}

func severityRank(s core.Severity) int {
	return slices.Index([]core.Severity{core.SeverityError, core.SeverityWarning, core.SeverityNote}, s)
}

// operations adds every concrete operation that a remedy, a register entry or another operation names.
func (r *described) operations(a *core.Assessment) error {
	own := a.Operations
	a.Operations = []core.Operation{}
	have := map[string]bool{}
	var add func(id, why string) error
	add = func(id, why string) error {
		if have[id] {
			return nil
		}
		o, ok := r.instances.operation(id)
		if i := slices.IndexFunc(own, func(x core.Operation) bool { return x.ID == id }); i >= 0 {
			o, ok = own[i], true
		}
		if !ok {
			return core.Errorf(core.Internal, "report it to whoever keeps the subsystem", "%s of %s names the operation %s, which does not exist", why, r.doc.subsystem.text, id)
		}
		have[id] = true
		a.Operations = append(a.Operations, o)
		for _, inc := range o.Includes {
			if err := add(inc, "the operation "+id); err != nil {
				return err
			}
		}
		return nil
	}
	for _, m := range a.Remedies {
		for _, id := range slices.Concat(m.Operations, m.CollateralOperations) {
			if err := add(id, fmt.Sprintf("the remedy %s of %s", m.ID, m.Target)); err != nil {
				return err
			}
		}
	}
	for _, h := range r.sheet.Hidden {
		for _, id := range h.Operations {
			if err := add(id, "the register entry "+h.ID); err != nil {
				return err
			}
		}
	}
	for _, o := range own {
		if err := add(o.ID, "a rule"); err != nil {
			return err
		}
	}
	return nil
}

// unused names every finding that stands in no reason and no problem.
func (r *described) unused(a *core.Assessment, req *core.AssessRequest) {
	named := map[string]bool{}
	for _, c := range a.Conditions {
		for _, why := range c.Reasons {
			for _, id := range why.FindingIDs {
				named[id] = true
			}
		}
	}
	for _, p := range r.problems {
		named[p.FindingID] = true
	}
	for _, f := range req.Findings {
		if !named[f.ID] {
			r.problem(core.Problem{Severity: core.SeverityNote, FindingID: f.ID, Target: f.Target, Check: f.Check,
				Summary: fmt.Sprintf("%s %s: nothing hangs on this finding", f.Target, f.Check), Next: "nothing needs to be done"})
		}
	}
}
