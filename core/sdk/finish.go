package sdk

import (
	"cmp"
	"fmt"
	"slices"

	"github.com/fettle-tools/fettle/core"
)

// finish puts the answer in order, adds the operations that its remedies name, and names every finding not used.
func (r *described) finish(a *core.Assessment, req *core.AssessRequest) error {
	rank := map[core.Target]int{}
	for i := range a.Conditions {
		rank[a.Conditions[i].Target] = i
	}
	slices.SortStableFunc(a.Remedies, func(x, y core.Remedy) int {
		return cmp.Or(cmp.Compare(rank[x.Target], rank[y.Target]), cmp.Compare(x.Kind.Rank(), y.Kind.Rank()))
	})
	if err := r.kept(a); err != nil {
		return err
	}
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

// kept wants of the rules what they may not do undone: a state without a remedy, reuse where the grade has closed it. It
// puts the remedies of each state into the order reuse, rebuild, replace.
func (r *described) kept(a *core.Assessment) error {
	kinds := map[core.RemedyRef]core.RemedyKind{}
	for _, m := range a.Remedies {
		kinds[core.RemedyRef{Target: m.Target, Remedy: m.ID}] = m.Kind
		i := slices.IndexFunc(a.Conditions, func(c core.Condition) bool { return c.Target == m.Target })
		if i < 0 {
			return r.ruleFault("give a remedy to %s, which is not there", m.Target)
		}
		c := &a.Conditions[i]
		if m.Kind == core.Reuse && m.Feasible && c.Grade.ClosesReuse(r.sheet.Part(m.Target.Part).SafetyCritical) {
			return r.ruleFault("open reuse of %s, which is %s", m.Target, c.Grade)
		}
	}
	for i := range a.Conditions {
		c := &a.Conditions[i]
		for j := range c.States {
			s := &c.States[j]
			if len(s.Remedies) == 0 {
				return r.ruleFault("leave no remedy for %s when it is %s", c.Target, s.Grade)
			}
			slices.SortStableFunc(s.Remedies, func(x, y string) int {
				return cmp.Compare(kinds[core.RemedyRef{Target: c.Target, Remedy: x}].Rank(), kinds[core.RemedyRef{Target: c.Target, Remedy: y}].Rank())
			})
		}
	}
	return nil
}

func (r *described) ruleFault(format string, args ...any) error {
	return core.Errorf(core.Internal, "report it to whoever keeps the subsystem", "the rules of %s %s", r.doc.subsystem.text, fmt.Sprintf(format, args...))
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
