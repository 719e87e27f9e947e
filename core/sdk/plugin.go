package sdk

import (
	"context"

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
	r.ask(nil)
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
	r.ask(ls)
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
