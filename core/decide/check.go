package decide

import (
	"fmt"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// mostOptions is how many remedies, and how many states, one part may have: each is a bit of a word.
const mostOptions = 64

// mostThings is how many parts, steps, operations, sets and bonds a Selection may hold together.
const mostThings = 60_000

// checker gathers what is wrong with a Selection.
type checker struct {
	sel    *core.Selection
	faults []string
	sum    int64
}

// check reports every fault of a Selection at once, as an *core.Error of code Invalid; nil if it is well formed.
func check(sel *core.Selection) error {
	c := checker{sel: sel}
	if n := len(sel.Parts) + len(sel.Operations) + len(sel.Steps) + len(sel.Sets) + len(sel.Bonds); n > mostThings {
		c.fault("%d parts, operations, steps, sets and bonds together; at most %d", n, mostThings)
	}
	for i := range sel.Parts {
		c.part(&sel.Parts[i])
	}
	for _, o := range sel.Operations {
		c.money(o.Cost, "operation ", o.ID)
		c.indices("operation", o.Includes, len(sel.Operations), "operation ", o.ID)
	}
	for _, s := range sel.Steps {
		c.step(s)
	}
	for _, s := range sel.Sets {
		c.indices("part", s.Members, len(sel.Parts), "set ", s.ID)
	}
	for i, b := range sel.Bonds {
		c.bond(fmt.Sprintf("bond %d", i), b.Part, b.Option)
		c.bond(fmt.Sprintf("bond %d", i), b.OtherPart, b.OtherOption)
	}
	if len(c.faults) == 0 {
		c.loops()
	}
	if c.sum < 0 || c.sum >= never {
		c.fault("the costs together come to more than can be added up exactly (%d minor units)", never)
	}
	if len(c.faults) == 0 {
		return nil
	}
	return core.Errorf(core.Invalid, "mend the assessment, the strip plan or the prices named", "the choice cannot be put: %s", strings.Join(c.faults, "; "))
}

func (c *checker) fault(format string, args ...any) {
	c.faults = append(c.faults, fmt.Sprintf(format, args...))
}

// money takes a cost into the sum of all, which must stay exact. what names its place, in pieces.
func (c *checker) money(cost int64, what ...string) {
	if cost < 0 {
		c.fault("%s costs %d, less than nothing", strings.Join(what, ""), cost)
		return
	}
	c.sum = min(c.sum+min(cost, never), never)
}

// indices wants every index of a list to be one of n things of a kind.
func (c *checker) indices(kind string, list []int, n int, what ...string) {
	for _, x := range list {
		if x < 0 || x >= n {
			c.fault("%s names %s %d of %d", strings.Join(what, ""), kind, x, n)
		}
	}
}

func (c *checker) part(p *core.SelectPart) {
	if len(p.Options) > mostOptions {
		c.fault("part %s has %d remedies; at most %d", p.ID, len(p.Options), mostOptions)
	}
	if len(p.States) > mostOptions {
		c.fault("part %s has %d states; at most %d", p.ID, len(p.States), mostOptions)
	}
	if len(p.States) == 0 {
		c.fault("part %s has no state", p.ID)
	}
	for _, s := range p.States {
		if len(s.Options) == 0 {
			c.fault("part %s has no remedy when it is %q", p.ID, s.Grade)
		}
		c.indices("remedy", s.Options, len(p.Options), "part ", p.ID)
		if s.Event < -1 || s.Event >= len(c.sel.Events) {
			c.fault("part %s names event %d of %d", p.ID, s.Event, len(c.sel.Events))
		}
	}
	for _, o := range p.Options {
		c.money(o.Risk, "remedy ", o.ID, " of ", p.ID)
		c.indices("operation", o.Operations, len(c.sel.Operations), "remedy ", o.ID, " of ", p.ID)
		c.indices("step", o.Steps, len(c.sel.Steps), "remedy ", o.ID, " of ", p.ID)
	}
}

func (c *checker) step(s core.SelectStep) {
	c.money(s.Cost, "step ", s.ID)
	c.indices("step", s.AllOf, len(c.sel.Steps), "step ", s.ID)
	for _, clause := range s.AnyOf {
		if len(clause) == 0 {
			c.fault("step %s needs one of no steps at all", s.ID)
		}
		c.indices("step", clause, len(c.sel.Steps), "step ", s.ID)
	}
}

func (c *checker) bond(what string, part, option int) {
	if part < 0 || part >= len(c.sel.Parts) {
		c.fault("%s names part %d of %d", what, part, len(c.sel.Parts))
		return
	}
	if p := &c.sel.Parts[part]; option < 0 || option >= len(p.Options) {
		c.fault("%s names remedy %d of the %d of part %s", what, option, len(p.Options), p.ID)
	}
}

// loops finds steps that come before themselves and operations that include themselves.
func (c *checker) loops() {
	for _, i := range looped(len(c.sel.Steps), func(x int) []int { return c.sel.Steps[x].AllOf }) {
		c.fault("step %s comes before itself", c.sel.Steps[i].ID)
	}
	for _, i := range looped(len(c.sel.Operations), func(x int) []int { return c.sel.Operations[x].Includes }) {
		c.fault("operation %s includes itself", c.sel.Operations[i].ID)
	}
}

// looped gives those of n things that following next leads back to.
func looped(n int, next func(int) []int) []int {
	// What nothing leads to is taken away until nothing changes; loops, and what they lead to, are left.
	in := make([]int, n)
	for x := range n {
		for _, y := range next(x) {
			in[y]++
		}
	}
	var free []int
	for x, k := range in {
		if k == 0 {
			free = append(free, x)
		}
	}
	for i := 0; i < len(free); i++ {
		for _, y := range next(free[i]) {
			if in[y]--; in[y] == 0 {
				free = append(free, y)
			}
		}
	}
	var list []int
	for x, k := range in {
		if k > 0 && reaches(x, next) {
			list = append(list, x)
		}
	}
	return list
}

// reaches reports that following next from x leads back to x.
func reaches(x int, next func(int) []int) bool {
	seen := map[int]bool{}
	queue := append([]int(nil), next(x)...)
	for len(queue) > 0 {
		y := queue[0]
		queue = queue[1:]
		if y == x {
			return true
		}
		if !seen[y] {
			seen[y] = true
			queue = append(queue, next(y)...)
		}
	}
	return false
}
