package host

import (
	"reflect"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// checkAnswer refuses an answer that contradicts itself, the sheet for the same facts or the findings, and closes what
// the rules close (check_close.go). The answer may be changed by that.
func checkAnswer(x *index, req core.AssessRequest, a *core.Assessment) error {
	c := newAnswerCheck(x, req, a)
	c.finite("answer", reflect.ValueOf(*a))
	c.operations()
	c.remedies()
	c.conditions()
	c.problems()
	c.everyFinding()
	if len(c.faults) > 0 { // what follows relies on all of it
		return c.err("answer")
	}
	for i := range a.Conditions {
		c.regrade(a.Conditions[i])
	}
	c.close()
	return c.err("answer")
}

// remedyKey names a remedy within an answer.
type remedyKey struct {
	target core.Target
	id     string
}

// answerCheck is one answer under check.
type answerCheck struct {
	faults
	sheet    *index
	req      core.AssessRequest
	answer   *core.Assessment
	findings map[string]*core.Finding // by id
	used     map[string]bool          // findings named somewhere
	remedy   map[remedyKey]*core.Remedy
	ops      map[string]bool
}

func newAnswerCheck(x *index, req core.AssessRequest, a *core.Assessment) *answerCheck {
	c := &answerCheck{
		sheet: x, req: req, answer: a, findings: map[string]*core.Finding{}, used: map[string]bool{},
		remedy: map[remedyKey]*core.Remedy{}, ops: map[string]bool{},
	}
	for i := range req.Findings {
		c.findings[req.Findings[i].ID] = &req.Findings[i]
	}
	for i := range a.Remedies {
		r := &a.Remedies[i]
		c.remedy[remedyKey{r.Target, r.ID}] = r
	}
	for id := range x.ops {
		c.ops[id] = true
	}
	for _, o := range a.Operations {
		c.ops[o.ID] = true
	}
	return c
}

func (c *answerCheck) operations() {
	seen := map[string]bool{}
	for _, o := range c.answer.Operations {
		c.once(seen, "operation "+o.ID)
		c.operation(o, c.ops)
	}
}

func (c *answerCheck) remedies() {
	seen := map[string]bool{}
	open := map[core.Target]bool{}
	for _, r := range c.answer.Remedies {
		place := r.Target.String() + "#" + r.ID
		c.once(seen, "remedy "+place)
		c.own(place, r.Target)
		if r.Kind == "" {
			c.add("remedy %s has no kind", place)
		}
		c.chance("remedy "+place+": residual_chance", r.ResidualChance)
		if r.WearAfter != nil && *r.WearAfter < 0 {
			c.add("remedy %s leaves negative wear", place)
		}
		if r.OriginalityMin < 0 || r.OriginalityMax > 4 || r.OriginalityMax < 0 {
			c.add("remedy %s is for originality %d to %d", place, r.OriginalityMin, r.OriginalityMax)
		}
		c.known(place, "operation", c.ops, r.Operations)
		c.known(place, "operation", c.ops, r.CollateralOperations)
		for _, s := range r.Steps {
			if strings.HasPrefix(s, c.sheet.name+":") && !c.sheet.steps[s] {
				c.add("remedy %s: no step %q in its sheet", place, s)
			}
		}
		c.references(place, r)
		c.reasons(place, r.Why)
		open[r.Target] = open[r.Target] || r.Feasible && !r.PinOnly
	}
	for _, t := range c.sheet.targets {
		if !open[t] {
			c.add("%s has no remedy that is open", t)
		}
	}
}

// references wants what a remedy requires and excludes to exist, and not to be itself or its own part's other remedy.
func (c *answerCheck) references(place string, r core.Remedy) {
	for _, list := range [][]core.RemedyRef{r.Requires, r.Excludes} {
		for _, ref := range list {
			if c.remedy[remedyKey{ref.Target, ref.Remedy}] == nil {
				c.add("remedy %s names %s#%s, which does not exist", place, ref.Target, ref.Remedy)
			}
			if ref.Target == r.Target && ref.Remedy == r.ID {
				c.add("remedy %s requires or excludes itself", place)
			}
		}
	}
	for _, ref := range r.Requires {
		if ref.Target == r.Target && ref.Remedy != r.ID {
			c.add("remedy %s requires another remedy of the same part", place)
		}
	}
}

func (c *answerCheck) conditions() {
	seen := map[core.Target]bool{}
	for _, d := range c.answer.Conditions {
		place := d.Target.String()
		c.own("condition "+place, d.Target)
		if seen[d.Target] {
			c.add("%s has two conditions", place)
		}
		seen[d.Target] = true
		if d.Grade == core.GradeNone {
			c.add("%s has no grade", place)
		}
		if d.WearU != nil && *d.WearU < 0 {
			c.add("%s: wear_u is negative", place)
		}
		if d.PPast != nil {
			c.chance(place+": p_past", *d.PPast)
		}
		if d.ReadingsTaken < 0 || d.ReadingsNeeded < 0 {
			c.add("%s: a negative number of readings", place)
		}
		c.ownCheck(place, d.Target.Part, d.GoverningCheck)
		for _, id := range d.ChecksNotRead {
			c.ownCheck(place, d.Target.Part, id)
		}
		c.reasons(place, d.Reasons)
		c.conditionStates(place, d)
		for _, fact := range d.Facts {
			c.useIn(fact.Source)
		}
	}
	for _, t := range c.sheet.targets {
		if !seen[t] {
			c.add("%s has no condition", t)
		}
	}
}

// conditionStates wants states that sum to 1, each with a remedy that exists.
func (c *answerCheck) conditionStates(place string, d core.Condition) {
	if len(d.States) == 0 {
		c.add("%s has no states", place)
		return
	}
	c.states(place, d.States)
	for _, s := range d.States {
		if s.RegisterID != "" && !c.sheet.hidden[s.RegisterID] {
			c.add("%s: no register row %q", place, s.RegisterID)
		}
		if len(s.Remedies) == 0 {
			c.add("%s has no remedy if it is %s", place, s.Grade)
		}
		for _, id := range s.Remedies {
			if c.remedy[remedyKey{d.Target, id}] == nil {
				c.add("%s: no remedy %q", place, id)
			}
		}
	}
}

func (c *answerCheck) problems() {
	for _, p := range c.answer.Problems {
		c.problem(p)
		if p.FindingID != "" {
			if c.findings[p.FindingID] == nil {
				c.add("a problem names finding %q, which is not of this request", printable(p.FindingID, 60))
			}
			c.used[p.FindingID] = true
		}
		if p.Target != (core.Target{}) && !c.sheet.has(p.Target) && !c.recorded(p.Target) {
			c.add("a problem names %s, which is not in its sheet", p.Target)
		}
	}
}

// recorded reports whether a target was handed in with a finding: it need not exist, the problem may be that.
func (c *answerCheck) recorded(t core.Target) bool {
	for _, f := range c.req.Findings {
		if f.Target == t || f.Target.Part == t.Part {
			return true
		}
	}
	return false
}

// everyFinding wants every finding named by a reason, a fact or a problem.
func (c *answerCheck) everyFinding() {
	for _, f := range c.req.Findings {
		if !c.used[f.ID] {
			c.add("finding %s (%s %s) is neither used nor named in a problem", f.ID, f.Target, f.Check)
		}
	}
}

func (c *answerCheck) reasons(place string, reasons []core.Reason) {
	for _, r := range reasons {
		for _, id := range r.FindingIDs {
			if c.findings[id] == nil {
				c.add("%s: a reason names finding %q, which is not of this request", place, printable(id, 60))
			}
			c.used[id] = true
		}
	}
}

// useIn notes the findings that a text names.
func (c *answerCheck) useIn(text string) {
	if text == "" {
		return
	}
	for id := range c.findings {
		if strings.Contains(text, id) {
			c.used[id] = true
		}
	}
}

// own wants a target of the plugin's own sheet.
func (c *answerCheck) own(place string, t core.Target) {
	if !c.sheet.has(t) {
		c.add("%s: %s is no part of its sheet", place, t)
	}
}

func (c *answerCheck) ownCheck(place, part, check string) {
	if check != "" && c.sheet.check(part, check) == nil {
		c.add("%s: no check %q", place, check)
	}
}

func (c *answerCheck) known(place, what string, known map[string]bool, ids []string) {
	for _, id := range ids {
		if !known[id] {
			c.add("remedy %s: no %s %q", place, what, id)
		}
	}
}
