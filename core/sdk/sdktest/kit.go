package sdktest

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"slices"

	"github.com/fettle-tools/fettle/core"
)

// kit is one run: the assessor, its sheet for the facts, and what was found wrong so far.
type kit struct {
	ctx    context.Context
	a      core.Assessor
	facts  []core.Fact
	sheet  core.Sheet
	every  int // one walk in so many is gone
	faults []Fault
	told   map[Fault]bool
}

// unit is the unit id of every request.
const unit = "unit-1"

// maxFaults ends a run that would only go on repeating itself.
const maxFaults = 200

// Check puts a through every promise for a unit of these facts, which must be all that its sheet asks for. It returns the
// faults in the order found, none for a sound subsystem, at most 200. The assessor is called some thousands of times, one call after
// another; a cancelled ctx ends the run with the faults so far and the context's error among them.
func Check(ctx context.Context, a core.Assessor, facts []core.Fact) []Fault {
	return check(ctx, a, facts, 1)
}

// CheckShort is Check, but of the walks of single readings over their limits, which ask the most, it goes one in eight: for the same code behind a wire,
// where Check has been passed before the wire.
func CheckShort(ctx context.Context, a core.Assessor, facts []core.Fact) []Fault {
	return check(ctx, a, facts, 8)
}

func check(ctx context.Context, a core.Assessor, facts []core.Fact, every int) []Fault {
	k := &kit{ctx: ctx, a: a, facts: facts, every: every, told: map[Fault]bool{}}
	if !k.describe() {
		return k.faults
	}
	for _, try := range []func(){k.checkSheet, k.checkFacts, k.checkSame, k.checkBlank, k.checkNew, k.checkWalks, k.checkNoReuse, k.checkMissing,
		k.checkOverrides, k.checkStray, k.checkOrder, k.checkUnits} {
		if ctx.Err() != nil || len(k.faults) >= maxFaults {
			break
		}
		try()
	}
	if err := ctx.Err(); err != nil {
		k.fault(Answers, core.Target{}, "", "the run was ended: %v", err)
	}
	return k.faults
}

// fault notes a broken promise once.
func (k *kit) fault(p Promise, t core.Target, check, format string, args ...any) {
	f := Fault{p, t, check, fmt.Sprintf(format, args...)}
	if !k.told[f] && len(k.faults) < maxFaults {
		k.told[f] = true
		k.faults = append(k.faults, f)
	}
}

// describe asks for the sheet, twice.
func (k *kit) describe() bool {
	sheet, problems, err := k.a.Describe(k.ctx, slices.Clone(k.facts))
	if err != nil {
		k.fault(Answers, core.Target{}, "", "Describe failed: %v", err)
		return false
	}
	for _, p := range problems {
		if p.Severity != core.SeverityNote {
			k.fault(Answers, p.Target, p.Check, "with the facts given: %s", p.Summary)
		}
	}
	again, _, err := k.a.Describe(k.ctx, slices.Clone(k.facts))
	if err != nil || !same(sheet, again) {
		k.fault(Deterministic, core.Target{}, "", "Describe, asked twice, gave two sheets")
	}
	k.sheet = sheet
	return true
}

// checkFacts asks without facts and with facts of the wrong sort: a Go error is for a call that failed, not for bad data.
func (k *kit) checkFacts() {
	wrong := slices.Clone(k.facts)
	for i := range wrong {
		wrong[i].Value = core.Value{Kind: core.ValueWord, Word: "no figure"}
	}
	for _, try := range []struct {
		facts []core.Fact
		what  string
	}{{nil, "without facts"}, {wrong, "with words for figures"}} {
		if _, _, err := k.a.Describe(k.ctx, try.facts); err != nil && k.ctx.Err() == nil {
			k.fault(Answers, core.Target{}, "", "Describe failed %s: %v", try.what, err)
		}
		req := k.request(k.asNew())
		req.Facts = try.facts
		if _, err := k.a.Assess(k.ctx, req); err != nil && k.ctx.Err() == nil {
			k.fault(Answers, core.Target{}, "", "Assess failed %s: %v", try.what, err)
		}
	}
}

// assess asks for an assessment and holds it to what every answer must keep. ok is false if the call failed.
func (k *kit) assess(findings []core.Finding, overrides ...core.Override) (a core.Assessment, ok bool) {
	if k.ctx.Err() != nil {
		return a, false
	}
	req := k.request(findings)
	req.Overrides = overrides
	a, err := k.a.Assess(k.ctx, req)
	if err != nil {
		if k.ctx.Err() == nil {
			k.fault(Answers, core.Target{}, "", "Assess failed: %v", err)
		}
		return a, false
	}
	k.checkAnswer(findings, a)
	return a, true
}

func (k *kit) request(findings []core.Finding) core.AssessRequest {
	brief := core.Brief{Use: "light use, every-day roads", HorizonKM: 20000, HorizonYears: 5}
	return core.AssessRequest{Unit: unit, Facts: slices.Clone(k.facts), Brief: brief, Findings: slices.Clone(findings)}
}

// checkSame asks twice for a unit with findings of every sort.
func (k *kit) checkSame() {
	mixed := k.mixed()
	one, ok := k.assess(mixed)
	two, ok2 := k.assess(mixed)
	if ok && ok2 && !same(one, two) {
		k.fault(Deterministic, core.Target{}, "", "Assess, asked twice, gave two answers")
	}
}

// same compares what is written of two values, byte for byte. What cannot be written is like nothing.
func same(a, b any) bool {
	x, errX := json.Marshal(a)
	y, errY := json.Marshal(b)
	return errX == nil && errY == nil && bytes.Equal(x, y)
}

// ends gives the first and the last of a part's targets: positions of one part are judged by one sheet.
func ends(p core.Part) []core.Target {
	ts := p.Targets()
	if len(ts) > 2 {
		return []core.Target{ts[0], ts[len(ts)-1]}
	}
	return ts
}

// conditionOf finds a target's condition.
func conditionOf(a core.Assessment, t core.Target) *core.Condition {
	for i := range a.Conditions {
		if a.Conditions[i].Target == t {
			return &a.Conditions[i]
		}
	}
	return nil
}

// gradeOf is the grade of a target; ok is false if it was given none.
func gradeOf(a core.Assessment, t core.Target) (g core.Grade, ok bool) {
	if c := conditionOf(a, t); c != nil {
		return c.Grade, true
	}
	return core.GradeNone, false
}

// feasible lists the feasible remedies of a target.
func feasible(a core.Assessment, t core.Target) []core.Remedy {
	var rs []core.Remedy
	for _, r := range a.Remedies {
		if r.Target == t && r.Feasible {
			rs = append(rs, r)
		}
	}
	return rs
}

// reuseOpen reports whether reuse of a target is open.
func reuseOpen(a core.Assessment, t core.Target) bool {
	return slices.ContainsFunc(feasible(a, t), func(r core.Remedy) bool { return r.Kind == core.Reuse })
}
