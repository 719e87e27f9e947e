package core

import (
	"fmt"
	"slices"
	"strings"
)

// access is the graph of steps of one job: the strip plan's, and each unit's bench steps, with their prices.
type access struct {
	steps   []accessStep
	index   map[string]int // by key; never ranged over
	job     Job
	unknown []Problem
	told    map[string]bool
	closed  *access          // the same with everything closed; made when first asked for
	costs   map[string]int64 // of opening steps on the assembled vehicle, by the steps
}

// accessStep is a step of the graph. Its key is the id, with "@unit" where several units have the step.
type accessStep struct {
	key    string
	step   Step
	unit   string // for the bench work of a unit
	allOf  []int
	anyOf  [][]int
	open   bool // of the extent
	apart  bool // arrived apart: refit only
	absent bool // does not exist in this job (the vehicle's steps when there is no vehicle): open, free
	strip  Cost
	refit  Cost
}

// due is what opening and closing the step still costs, in minor units.
func (s accessStep) due() int64 {
	if s.absent {
		return 0
	}
	if s.apart {
		return s.refit.Expected
	}
	return s.strip.Expected + s.refit.Expected
}

// newAccess instances the plan's steps for the job's units and resolves their predecessors.
func newAccess(req PlanRequest, sheets []UnitSheet) *access {
	a := &access{index: map[string]int{}, job: req.Job, told: map[string]bool{}}
	for _, s := range req.Strip.Steps {
		kind := s.Scope
		if kind == "" || kind == "vehicle" {
			a.add(s.ID, s, "", req.Job.Vehicle == nil)
			continue
		}
		for i, u := range unitsOf(req.Job, kind) {
			a.add(stepKey(s.ID, u.ID, i > 0), s, u.ID, false)
		}
	}
	for _, us := range sheets {
		for _, s := range us.Sheet.Steps {
			a.add(stepKey(s.ID, us.Unit, us.Unit != first(req.Job, us.Sheet.UnitKind)), s, us.Unit, false)
		}
	}
	for i := range a.steps {
		s := &a.steps[i]
		s.apart = slices.ContainsFunc(req.Job.Extent.Apart, func(k string) bool { return k == s.step.ID || k == s.key || k == s.step.ID+"@"+s.unit })
		s.open = req.Job.Extent.Kind == ExtentBareFrame && s.step.BareFrame
		for _, id := range s.step.AllOf {
			if n, ok := a.find(id, s.unit, "step "+s.key); ok {
				s.allOf = append(s.allOf, n)
			}
		}
		for _, clause := range s.step.AnyOf {
			var ns []int
			for _, id := range clause {
				if n, ok := a.find(id, s.unit, "step "+s.key); ok {
					ns = append(ns, n)
				}
			}
			if len(ns) > 0 {
				s.anyOf = append(s.anyOf, ns)
			}
		}
	}
	return a
}

func stepKey(id, unit string, further bool) string {
	if further {
		return id + "@" + unit
	}
	return id
}

func (a *access) add(key string, s Step, unit string, absent bool) {
	if _, dup := a.index[key]; dup {
		return
	}
	a.index[key] = len(a.steps)
	a.steps = append(a.steps, accessStep{key: key, step: s, unit: unit, absent: absent})
}

// find resolves a step id seen from a unit: its own instance first. An unknown one is a problem told once.
func (a *access) find(id, unit, where string) (int, bool) {
	if n, ok := a.index[id+"@"+unit]; ok && unit != "" {
		return n, true
	}
	if n, ok := a.index[id]; ok {
		return n, true
	}
	if !a.told[id] {
		a.told[id] = true
		a.unknown = append(a.unknown, Problem{Severity: SeverityWarning, Unit: unit, Summary: fmt.Sprintf("the strip plan has no step %q: %s is priced without it", id, where),
			Next: "add the step to the vehicle's pack, or correct the sheet's reach"})
	}
	return 0, false
}

// price prices every step once; rates that are missing are told once.
func (a *access) price(t Terms) []Problem {
	var ps []Problem
	told := map[string]bool{}
	for i := range a.steps {
		s := &a.steps[i]
		if s.absent {
			continue
		}
		strip, refit, more := t.PriceStep(s.step)
		s.strip, s.refit = strip, refit
		for _, p := range more {
			if !told[p.Next] {
				told[p.Next] = true
				ps = append(ps, p)
			}
		}
	}
	return ps
}

// openExtent opens the ways into named units, or the unit on the bench: to strip them is what was asked.
func (a *access) openExtent(sheets []UnitSheet) {
	if k := a.job.Extent.Kind; k != ExtentNamed && k != ExtentBench {
		a.closeOver()
		return
	}
	for _, us := range sheets {
		for _, p := range us.Sheet.Parts {
			for _, t := range p.Targets() {
				for _, n := range a.reach(p, t, us.Unit) {
					a.steps[n].open = true
				}
			}
		}
	}
	a.closeOver()
}

// closeOver opens what the open steps need, the cheapest way.
func (a *access) closeOver() {
	var open []int
	for i := range a.steps {
		if a.steps[i].open {
			open = append(open, i)
		}
	}
	for _, n := range a.closure(open, nil) {
		a.steps[n].open = true
	}
}

// reach lists the steps that must be open to get at a part, {position} replaced.
func (a *access) reach(p Part, t Target, unit string) []int {
	return a.resolve(p.Reach, t, unit, p.Name)
}

func (a *access) resolve(ids []string, t Target, unit, where string) []int {
	var ns []int
	for _, id := range ids {
		id = strings.ReplaceAll(id, "{position}", t.Position)
		if n, ok := a.find(id, unit, where); ok && !slices.Contains(ns, n) {
			ns = append(ns, n)
		}
	}
	slices.Sort(ns)
	return ns
}

// closure gives the steps and all they need, any-of clauses resolved cheapest, given what is free already. The result is
// sorted. Exact for one clause at a time; clauses that share predecessors are taken in turn.
func (a *access) closure(want []int, free func(int) bool) []int {
	in := make([]bool, len(a.steps))
	for _, n := range want {
		a.pull(n, in, free, 0)
	}
	ns := []int{}
	for n, pulled := range in {
		if pulled {
			ns = append(ns, n)
		}
	}
	return ns
}

const maxDepth = 64 // a strip plan is checked for cycles when it is read; this bounds a sheet's own steps

func (a *access) pull(n int, in []bool, free func(int) bool, depth int) {
	if in[n] || depth > maxDepth {
		return
	}
	in[n] = true
	s := &a.steps[n]
	for _, m := range s.allOf {
		a.pull(m, in, free, depth+1)
	}
	for _, clause := range s.anyOf {
		best, cost := -1, int64(0)
		for _, m := range clause {
			trial := slices.Clone(in)
			a.pull(m, trial, free, depth+1)
			c := int64(0)
			for k, pulled := range trial {
				if pulled && !in[k] && (free == nil || !free(k)) && !a.steps[k].open {
					c += a.steps[k].due()
				}
			}
			if best < 0 || c < cost {
				best, cost = m, c
			}
		}
		if best >= 0 {
			a.pull(best, in, free, depth+1)
		}
	}
}

// fullCost is what opening the steps costs on the assembled vehicle: everything closed, nothing free.
func (a *access) fullCost(want []int) int64 {
	key := fmt.Sprint(want)
	if sum, known := a.costs[key]; known {
		return sum
	}
	sum := int64(0)
	for _, n := range a.closureClosed(want) {
		if s := &a.steps[n]; !s.absent {
			sum += s.strip.Expected + s.refit.Expected
		}
	}
	if a.costs == nil {
		a.costs = map[string]int64{}
	}
	a.costs[key] = sum
	return sum
}

func (a *access) closureClosed(want []int) []int {
	if a.closed == nil {
		a.closed = a.allClosed()
		for i := range a.closed.steps {
			a.closed.steps[i].apart = false
		}
	}
	return a.closed.closure(want, nil)
}

// allClosed is the same graph with nothing open but what came apart.
func (a *access) allClosed() *access {
	closed := &access{steps: slices.Clone(a.steps), index: a.index, told: a.told}
	for i := range closed.steps {
		closed.steps[i].open = false
	}
	return closed
}
