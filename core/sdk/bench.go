package sdk

import (
	"fmt"
	"slices"

	"github.com/fettle-tools/fettle/core"
)

// Rules are what a subsystem does beyond its sheet, after grading.
type Rules func(b *Bench)

// Bench is a rule's look at the result. Rules may close remedies, add remedies, operations, facts and problems; they never
// make a grade better.
type Bench struct {
	Request core.AssessRequest
	Sheet   *core.Sheet      // for these facts; not to be changed
	Result  *core.Assessment // what has been said so far
	r       *described
	looks   []*look
	err     error
}

// Reading gives the governing live reading of a check at a station ("" for none), in the check's unit.
func (b *Bench) Reading(t core.Target, check, station string) (q core.Quantity, findingID string, ok bool) {
	return readingAt(b.looks, t, check, station)
}

// Derived gives a value worked out on the way, in the check's unit; its bound is what the instruments leave open.
func (b *Bench) Derived(t core.Target, check string) (core.Quantity, bool) {
	if c := b.Condition(t); c != nil {
		for _, f := range c.Facts {
			if f.Name == check && f.Value.Kind == core.ValueQuantity {
				return f.Value.Quantity, true
			}
		}
	}
	q, _, ok := b.Reading(t, check, "")
	return q, ok
}

// Limit gives the limit that a target's check was graded against.
func (b *Bench) Limit(t core.Target, check string) (core.Limit, bool) {
	l := find(b.looks, t)
	if l == nil || l.index(check) < 0 {
		return core.Limit{}, false
	}
	return copyLimit(l.limits[l.index(check)]), true
}

// Fact gives a fact as given, or the sheet's default of a count.
func (b *Bench) Fact(name string) (core.Value, bool) {
	v, ok := b.r.values[name]
	return v, ok
}

// Condition gives a target's condition; nil if there is no such target.
func (b *Bench) Condition(t core.Target) *core.Condition {
	for i := range b.Result.Conditions {
		if b.Result.Conditions[i].Target == t {
			return &b.Result.Conditions[i]
		}
	}
	return nil
}

// Remedy gives a target's remedy; nil if there is none. It may be changed in place; AddRemedy makes such pointers stale.
func (b *Bench) Remedy(t core.Target, id string) *core.Remedy {
	for i := range b.Result.Remedies {
		if r := &b.Result.Remedies[i]; r.Target == t && r.ID == id {
			return r
		}
	}
	return nil
}

// Close makes a remedy infeasible, for a reason, and takes it out of the states of its part.
func (b *Bench) Close(t core.Target, remedyID string, why core.Reason) {
	r, c := b.Remedy(t, remedyID), b.Condition(t)
	if r == nil || c == nil {
		b.fail("there is no remedy %s of %s to close", remedyID, t)
		return
	}
	r.Feasible = false
	r.Why = append(slices.Clone(r.Why), why)
	for i := range c.States {
		c.States[i].Remedies = slices.DeleteFunc(slices.Clone(c.States[i].Remedies), func(id string) bool { return id == remedyID })
	}
}

// AddRemedy adds a remedy, or puts it in place of one with the same id. A feasible one is open in the states given, by
// their index, or in all where none is given. Its operations are concrete ones of the sheet or of AddOperation.
func (b *Bench) AddRemedy(r core.Remedy, states ...int) {
	c := b.Condition(r.Target)
	if c == nil {
		b.fail("there is no %s for the remedy %s", r.Target, r.ID)
		return
	}
	if r.Kind == core.Reuse && c.Grade.ClosesReuse(b.Sheet.Part(r.Target.Part).SafetyCritical) {
		b.fail("the rules would reopen reuse of %s, which is %s", r.Target, c.Grade)
		return
	}
	if old := b.Remedy(r.Target, r.ID); old != nil {
		*old = r
	} else {
		b.Result.Remedies = append(b.Result.Remedies, r)
	}
	for i := range c.States {
		in := r.Feasible && (len(states) == 0 || slices.Contains(states, i))
		ids := slices.DeleteFunc(slices.Clone(c.States[i].Remedies), func(id string) bool { return id == r.ID })
		if in {
			ids = append(ids, r.ID)
		}
		c.States[i].Remedies = ids
	}
}

// Operation makes a concrete operation of the sheet serve one position: its id is put into remedies.
func (b *Bench) Operation(id, position string) string { return b.r.instances.serving(id, position) }

// AddOperation adds an operation of the rule's own.
func (b *Bench) AddOperation(o core.Operation) { b.Result.Operations = append(b.Result.Operations, o) }

// AddFact adds something worked out to a target's condition.
func (b *Bench) AddFact(t core.Target, f core.Fact) {
	c := b.Condition(t)
	if c == nil {
		b.fail("there is no %s for the fact %s", t, f.Name)
		return
	}
	c.Facts = append(c.Facts, f)
}

// Problem adds a problem to the answer.
func (b *Bench) Problem(p core.Problem) { b.r.problem(p) }

func (b *Bench) fail(format string, args ...any) {
	if b.err == nil {
		b.err = core.Errorf(core.Internal, "report it to whoever keeps the subsystem", "a rule of %s: %s", b.r.doc.subsystem.text, fmt.Sprintf(format, args...))
	}
}
