package sdk

import (
	"fmt"
	"math"

	"github.com/fettle-tools/fettle/core"
)

// Prepare is a rule's look before grading: it sees the request, the sheet and the readings, and may change limits and
// give derived values. A crank marked and measured at a standard undersize, say, is graded against that step's nominal.
type Prepare struct {
	Request core.AssessRequest
	Sheet   *core.Sheet // for these facts; not to be changed
	r       *described
	looks   []*look
	err     error
}

// find gives a look; nil if there is no such target.
func find(ls []*look, t core.Target) *look {
	for _, l := range ls {
		if l.target == t {
			return l
		}
	}
	return nil
}

// Fact gives a fact as given, or the sheet's default of a count.
func (p *Prepare) Fact(name string) (core.Value, bool) {
	v, ok := p.r.values[name]
	return v, ok
}

// Reading gives the governing live reading of a check at a station ("" for none), in the check's unit.
func (p *Prepare) Reading(t core.Target, check, station string) (q core.Quantity, findingID string, ok bool) {
	return readingAt(p.looks, t, check, station)
}

// Limit gives the limit a check will be graded against, in the check's unit; the bounds are copies.
func (p *Prepare) Limit(t core.Target, check string) (core.Limit, bool) {
	l := find(p.looks, t)
	if l == nil || l.index(check) < 0 {
		return core.Limit{}, false
	}
	return copyLimit(l.limits[l.index(check)]), true
}

// SetLimit changes the limit that one target's check is graded against. A limit without an Origin keeps the one it had.
// An unknown target or check, or a limit that does not fit, fails the call: it is a fault of the rule.
func (p *Prepare) SetLimit(t core.Target, check string, limit core.Limit) {
	l := find(p.looks, t)
	if l == nil || l.index(check) < 0 {
		p.fail("there is no check %s of %s", check, t)
		return
	}
	i := l.index(check)
	fitted, why := limitIn(limit, &l.part.Checks[i])
	if why != "" {
		p.fail("the limit of %s %s: %s", t, check, why)
		return
	}
	if fitted.Source == "" {
		p.fail("the limit of %s %s names no source", t, check)
		return
	}
	if fitted.Origin == "" {
		fitted.Origin = l.limits[i].Origin
	}
	l.limits[i] = fitted
}

// Supply gives a value that the sheet's formulas cannot reach, such as the clearance of two mates, with the findings it was
// worked out from. It is graded in place of the check's formula or readings.
func (p *Prepare) Supply(t core.Target, check string, q core.Quantity, findingIDs ...string) {
	l := find(p.looks, t)
	if l == nil || l.index(check) < 0 {
		p.fail("there is no check %s of %s", check, t)
		return
	}
	q, err := q.In(l.part.Checks[l.index(check)].Unit)
	if err != nil || math.IsNaN(q.Value+q.Bound) || math.IsInf(q.Value+q.Bound, 0) {
		p.fail("the value given for %s %s is no size: %v", t, check, err)
		return
	}
	l.supplied[l.index(check)] = supply{q, sortedIDs(findingIDs)}
}

// Problem adds a problem to the answer.
func (p *Prepare) Problem(x core.Problem) { p.r.problem(x) }

func (p *Prepare) fail(format string, args ...any) {
	if p.err == nil {
		p.err = core.Errorf(core.Internal, "report it to whoever keeps the subsystem", "a rule of %s: %s", p.r.doc.subsystem.text, fmt.Sprintf(format, args...))
	}
}

// readingAt gives the reading that governs at a slot: the one whose judgement is the worst.
func readingAt(ls []*look, t core.Target, check, station string) (core.Quantity, string, bool) {
	l := find(ls, t)
	if l == nil {
		return core.Quantity{}, "", false
	}
	c := l.index(check)
	if c < 0 {
		return core.Quantity{}, "", false
	}
	s := l.direct(c)
	for i, name := range l.part.Checks[c].Stations {
		if name == station {
			s = i
		}
	}
	if station != "" && s == l.direct(c) {
		return core.Quantity{}, "", false
	}
	rs := l.numbers(c, s)
	if len(rs) == 0 {
		return core.Quantity{}, "", false
	}
	worst := 0
	for i := range rs {
		if i > 0 && l.judge(c, rs[i].q, "", nil).worseThan(l.judge(c, rs[worst].q, "", nil)) {
			worst = i
		}
	}
	return rs[worst].q, rs[worst].finding.ID, true
}

// copyLimit gives a limit with bounds of its own.
func copyLimit(l core.Limit) core.Limit {
	for _, b := range []**float64{&l.NewLow, &l.NewHigh, &l.WearLow, &l.WearHigh} {
		if *b != nil {
			v := **b
			*b = &v
		}
	}
	if l.WorstClass != nil {
		v := *l.WorstClass
		l.WorstClass = &v
	}
	return l
}
