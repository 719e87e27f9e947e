package core

import (
	"fmt"
	"slices"
	"strings"
)

// bench is the working table of one plan: what was assessed, with prices, and the indices that join it to the Selection.
type bench struct {
	req      PlanRequest
	sheets   []UnitSheet
	access   *access
	outlooks []outlook // by sheet
	parts    []benchPart
	ops      []benchOp
	opIndex  map[string]int // by key; never ranged over
	events   []SelectEvent
	eventOf  map[string]int // by sheet index and row id
	sel      Selection
	follow   []benchPart      // one-use parts that go with the opening of their reach, and decide nothing
	oneUse   [][]oneUse       // by sheet
	anew     map[string][]int // operations of a sheet's one-use parts that opening some steps makes new, by sheet and steps; looked up only
	problems []Problem
}

// benchPart joins a part of the Selection to its sheet and condition.
type benchPart struct {
	sheet   int
	place   Place
	part    *Part
	cond    *Condition
	options []Remedy // by option index; a left option has Kind LeftAsIs
	reach   []int
	pin     *Pin
	left    *Left
	redo    int64
	kept    bool // originality closes some of its remedies
}

// oneUse is a one-use part: what opens it, and the operations that fit a new one.
type oneUse struct{ reach, operations []int }

// benchOp is an operation with its price.
type benchOp struct {
	key   string
	sheet int
	op    Operation
	cost  Cost
}

func opKey(s UnitSheet, id string) string {
	if s.Unit == "" {
		return s.Subsystem + ":" + id
	}
	return s.Subsystem + "@" + s.Unit + ":" + id
}

// unitKey is the key of work that is the whole unit's, whichever of its sheets asks for it; "" for other work.
func unitKey(s UnitSheet, o Operation) string {
	if o.ServedPer != "unit" {
		return ""
	}
	return "@" + s.Unit + ":" + o.ID
}

// newBench prices operations and steps and lays out the Selection.
func newBench(req PlanRequest, sheets []UnitSheet) *bench {
	b := &bench{req: req, sheets: sheets, opIndex: map[string]int{}, eventOf: map[string]int{}}
	b.access = newAccess(req, sheets)
	b.problems = append(b.problems, b.access.price(req.Terms)...)
	b.access.openExtent(sheets)
	for i, s := range sheets {
		b.outlooks = append(b.outlooks, newOutlook(req.Job.Brief, req.Learned.over(s)))
		for j, h := range s.Sheet.Hidden {
			if len(h.Parts) > 0 {
				b.eventOf[fmt.Sprint(i, "/", h.ID)] = len(b.events)
				b.events = append(b.events, SelectEvent{ID: h.ID, Chance: b.outlooks[i].rowChance(j)})
			}
		}
	}
	b.addOperations()
	b.addParts()
	b.problems = append(b.problems, b.access.unknown...)
	b.addSets()
	b.sel.Events = b.events
	for _, s := range b.access.steps {
		b.sel.Steps = append(b.sel.Steps, SelectStep{ID: s.key, Cost: s.due(), AllOf: s.allOf, AnyOf: s.anyOf, Open: s.open || s.absent})
	}
	return b
}

func (b *bench) addOperations() {
	told := map[string]bool{}
	for i, s := range b.sheets {
		for _, o := range s.Assessment.Operations {
			cost, ps := b.req.Terms.charged(b.req.Job.Labour, s.Subsystem).PriceOperation(o)
			for _, p := range ps {
				if !told[p.Summary] {
					told[p.Summary] = true
					p.Subsystem, p.Unit = s.Subsystem, s.Unit
					b.problems = append(b.problems, p)
				}
			}
			key := opKey(s, o.ID)
			if n, same := b.opIndex[unitKey(s, o)]; same {
				b.opIndex[key] = n
				continue
			}
			b.opIndex[key] = len(b.ops)
			if k := unitKey(s, o); k != "" {
				b.opIndex[k] = len(b.ops)
			}
			b.ops = append(b.ops, benchOp{key: key, sheet: i, op: o, cost: cost})
		}
	}
	for i := range b.ops {
		b.sel.Operations = append(b.sel.Operations, SelectOperation{ID: b.ops[i].key, Cost: b.ops[i].cost.Expected, Includes: b.included(i)})
	}
}

// included closes includes transitively; an instanced operation covers the instance of the same position, else the plain one.
func (b *bench) included(i int) []int {
	var out []int
	var walk func(n, depth int)
	walk = func(n, depth int) {
		o := b.ops[n]
		s := b.sheets[o.sheet]
		_, instance, _ := strings.Cut(o.op.ID, "/")
		for _, id := range o.op.Includes {
			m, ok := b.opIndex[opKey(s, id+"/"+instance)]
			if !ok || instance == "" {
				m, ok = b.opIndex[opKey(s, id)]
			}
			if ok && m != i && !slices.Contains(out, m) && depth < maxDepth {
				out = append(out, m)
				walk(m, depth+1)
			}
		}
	}
	walk(i, 0)
	slices.Sort(out)
	return out
}

func (b *bench) operations(s UnitSheet, ids []string) []int {
	var ns []int
	for _, id := range ids {
		if n, ok := b.opIndex[opKey(s, id)]; ok && !slices.Contains(ns, n) {
			ns = append(ns, n)
		}
	}
	slices.Sort(ns)
	return ns
}

func (b *bench) addParts() {
	b.addOneUse()
	for i := range b.sheets {
		s := &b.sheets[i]
		byTarget := map[Target][]Remedy{}
		for _, r := range s.Assessment.Remedies {
			byTarget[r.Target] = append(byTarget[r.Target], r)
		}
		for j := range s.Assessment.Conditions {
			c := &s.Assessment.Conditions[j]
			part := s.Sheet.Part(c.Target.Part)
			if part == nil {
				continue
			}
			p := benchPart{sheet: i, place: Place{s.Subsystem, s.Unit, c.Target}, part: part, cond: c}
			p.reach = b.access.reach(*part, c.Target, s.Unit)
			if part.OneUse && !b.opened(p.reach) {
				p.options, _ = b.usable(p, byTarget[c.Target])
				b.follow = append(b.follow, p)
				continue
			}
			b.addPart(p, byTarget[c.Target])
		}
	}
	b.lead()
}

// addOneUse lists the one-use parts.
func (b *bench) addOneUse() {
	b.oneUse, b.anew = make([][]oneUse, len(b.sheets)), map[string][]int{}
	for i, s := range b.sheets {
		listed := map[Target]bool{}
		for _, r := range s.Assessment.Remedies {
			part := s.Sheet.Part(r.Target.Part)
			if part == nil || !part.OneUse || r.PinOnly || listed[r.Target] {
				continue
			}
			listed[r.Target] = true
			if reach := b.access.reach(*part, r.Target, s.Unit); len(reach) > 0 {
				b.oneUse[i] = append(b.oneUse[i], oneUse{reach, b.operations(s, r.Operations)})
			}
		}
	}
}

// renewed gives the operations of a sheet's one-use parts that opening some steps on the assembled vehicle makes new. Those of other sheets that lie
// open on the way count for nothing: a restoration makes them new, and who opens one part again leaves them.
func (b *bench) renewed(sheet int, steps []int) []int {
	key := fmt.Sprint(sheet, steps)
	ops, known := b.anew[key]
	if known {
		return ops
	}
	opens := b.access.closureClosed(steps)
	for _, u := range b.oneUse[sheet] {
		if !slices.ContainsFunc(u.reach, func(n int) bool { return !slices.Contains(opens, n) }) {
			ops = append(ops, u.operations...)
		}
	}
	b.anew[key] = ops
	return ops
}

// once is what some operations come to, each paid once, and none that another includes.
func (b *bench) once(ops []int) int64 {
	sum := int64(0)
	for i, n := range ops {
		included := slices.ContainsFunc(ops, func(m int) bool { return slices.Contains(b.sel.Operations[m].Includes, n) })
		if !included && !slices.Contains(ops[:i], n) {
			sum += b.ops[n].cost.Expected
		}
	}
	return sum
}

// opened reports whether the extent opens all the steps.
func (b *bench) opened(steps []int) bool {
	return !slices.ContainsFunc(steps, func(n int) bool { return !b.access.steps[n].open && !b.access.steps[n].absent })
}

// lead makes every option that opens the reach of a one-use part pay for it: whoever opens it fits a new one.
func (b *bench) lead() {
	for i := range b.sel.Parts {
		for k := range b.sel.Parts[i].Options {
			o := &b.sel.Parts[i].Options[k]
			if len(o.Steps) == 0 {
				continue
			}
			opens := b.access.closure(o.Steps, nil)
			for _, f := range b.follow {
				if len(f.options) == 0 || slices.ContainsFunc(f.reach, func(n int) bool { return !slices.Contains(opens, n) && !b.opened([]int{n}) }) {
					continue
				}
				for _, n := range b.operations(b.sheets[f.sheet], f.options[0].Operations) {
					if !slices.Contains(o.Operations, n) {
						o.Operations = append(o.Operations, n)
					}
				}
			}
			slices.Sort(o.Operations)
		}
	}
}

// addPart makes the options of one part: feasible in some state, allowed by originality, by pins and by the owner's word.
func (b *bench) addPart(p benchPart, remedies []Remedy) {
	s := b.sheets[p.sheet]
	p.redo = b.redo(p, remedies)
	p.left = find(b.req.Job.Left, func(l Left) bool { return l.Place == p.place })
	p.pin = find(b.req.Job.Pins, func(x Pin) bool { return x.Place == p.place })
	sp := SelectPart{ID: p.place.String(), Name: strings.TrimSpace(p.part.Name + " " + p.place.Position)}
	if p.left != nil {
		p.options = []Remedy{leftRemedy(p)}
		sp.Options = []SelectOption{leftOption(p)}
		sp.States = []SelectState{{Chance: 1, Options: []int{0}, Event: -1, Grade: p.cond.Grade}}
		b.parts, b.sel.Parts = append(b.parts, p), append(b.sel.Parts, sp)
		return
	}
	usable, kept := b.usable(p, remedies)
	p.kept = kept
	optionOf := map[string]int{}
	for _, r := range usable {
		optionOf[r.ID] = len(p.options)
		p.options = append(p.options, r)
		sp.Options = append(sp.Options, b.option(p, s, r))
	}
	mayLeave := b.req.leaving && len(usable) > 0 && !p.part.SafetyCritical && !p.part.OneUse && p.pin == nil && len(p.cond.States) == 1
	if mayLeave {
		optionOf[leftID] = len(p.options)
		p.options = append(p.options, leftRemedy(p))
		sp.Options = append(sp.Options, leftOption(p))
	}
	sp.States = b.states(p, optionOf)
	if len(sp.States) == 0 {
		b.problems = append(b.problems, Problem{Severity: SeverityError, Subsystem: s.Subsystem, Unit: s.Unit, Target: p.cond.Target,
			Summary: p.part.Name + ": no remedy is open", Next: "pin one that needs the owner's word, record the part again, or add a remedy to the sheet"})
		return
	}
	b.parts, b.sel.Parts = append(b.parts, p), append(b.sel.Parts, sp)
}

// leftID is the option of a part that is left as it is: nothing is done, and it will have to be opened again.
const leftID = "left"

func leftRemedy(p benchPart) Remedy {
	return Remedy{ID: leftID, Target: p.cond.Target, Kind: LeftAsIs, Name: "Left: not done"}
}

func leftOption(p benchPart) SelectOption {
	return SelectOption{ID: leftID, Name: leftRemedy(p).Name, Kind: LeftAsIs, Risk: p.redo}
}

func (b *bench) option(p benchPart, s UnitSheet, r Remedy) SelectOption {
	o := SelectOption{ID: r.ID, Name: r.Name, Kind: r.Kind, Operations: b.operations(s, r.Operations), Yields: r.Yields}
	o.Steps = b.access.resolve(r.Steps, r.Target, s.Unit, p.part.Name)
	if r.Kind != Reuse {
		for _, n := range p.reach {
			if !slices.Contains(o.Steps, n) {
				o.Steps = append(o.Steps, n)
			}
		}
		slices.Sort(o.Steps)
	}
	o.Risk = round(remedyChance(b.req.Job.Brief, p.part.Life, onceSeen(p, r), r) * float64(p.redo))
	return o
}

// Middle of the wear of a part that will turn out "worn, fit": half of the band from 0 to .5 (common practice, no source).
const middleWear = .25

// onceSeen is the condition that a part would be reused in: that of the state which allows it. A part that is not seen has no wear
// yet: it counts as half worn, or as new where all that is unread either passes or fails.
func onceSeen(p benchPart, r Remedy) Condition {
	c := *p.cond
	if c.Grade != NotSeen && c.Grade != MeasureAgain {
		return c
	}
	i := slices.IndexFunc(c.States, func(st State) bool { return slices.Contains(st.Remedies, r.ID) })
	if i < 0 {
		return c
	}
	unseen := c.Grade == NotSeen
	c.Grade = c.States[i].Grade
	if !unseen || c.Wear != nil {
		return c
	}
	wear := middleWear
	if !slices.ContainsFunc(c.ChecksNotRead, func(id string) bool {
		check := p.part.Check(id)
		return check == nil || check.Kind == Measured || check.Kind == Derived
	}) {
		c.Grade, wear = WithinNew, 0
	}
	c.Wear = &wear
	return c
}

// usable filters the remedies that a plan may choose, and tells when a pin cannot hold; kept is that originality closes some.
func (b *bench) usable(p benchPart, remedies []Remedy) (open []Remedy, kept bool) {
	s := b.sheets[p.sheet]
	inSomeState := func(r Remedy) bool {
		return slices.ContainsFunc(p.cond.States, func(st State) bool { return slices.Contains(st.Remedies, r.ID) })
	}
	var all []Remedy
	offered := slices.Contains(b.req.offered, p.place)
	level := b.req.Job.Brief.Of(s.Subsystem).Originality
	for _, r := range remedies {
		if !inSomeState(r) {
			continue
		}
		pinned := p.pin != nil && p.pin.Remedy == r.ID
		if r.PinOnly && !pinned {
			continue
		}
		all = append(all, r)
		if pinned || offered || level == 0 || (r.OriginalityMin == 0 || level >= r.OriginalityMin) && (r.OriginalityMax == 0 || level <= r.OriginalityMax) {
			open = append(open, r)
		}
	}
	covers := func(rs []Remedy) bool {
		return !slices.ContainsFunc(p.cond.States, func(st State) bool {
			return !slices.ContainsFunc(rs, func(r Remedy) bool { return slices.Contains(st.Remedies, r.ID) })
		})
	}
	if !covers(open) && covers(all) {
		open = all
		b.problems = append(b.problems, Problem{Severity: SeverityWarning, Subsystem: s.Subsystem, Unit: s.Unit, Target: p.cond.Target,
			Summary: p.part.Name + ": no remedy keeps the originality asked for, so the others are offered", Next: "agree it with the owner in writing"})
	}
	if offered {
		b.problems = append(b.problems, Problem{Severity: SeverityWarning, Subsystem: s.Subsystem, Unit: s.Unit, Target: p.cond.Target,
			Summary: p.part.Name + ": no remedy that keeps the originality asked for goes with what is open for the parts bound to it, so the others are offered", Next: "agree it with the owner in writing"})
	}
	kept = len(open) < len(all)
	if p.pin == nil {
		return open, kept
	}
	pinned := slices.DeleteFunc(slices.Clone(open), func(r Remedy) bool { return r.ID != p.pin.Remedy })
	if len(pinned) == 1 && covers(pinned) {
		return pinned, false
	}
	b.problems = append(b.problems, Problem{Severity: SeverityError, Subsystem: s.Subsystem, Unit: s.Unit, Target: p.cond.Target,
		Summary: fmt.Sprintf("%s: the pin %q does not hold: it is not open in every state the part may be in", p.part.Name, p.pin.Remedy),
		Next:    "no pin reopens what safety closed; see: fettle why " + p.place.String()})
	return open, kept
}

// states turns a condition's states into those of the Selection, with the chances as they stand now.
func (b *bench) states(p benchPart, optionOf map[string]int) []SelectState {
	o := b.outlooks[p.sheet]
	unseen := p.cond.Grade == NotSeen || p.cond.ReadingsTaken == 0
	var out []SelectState
	bad := 0.0
	for _, st := range p.cond.States {
		ss := SelectState{Chance: st.Chance, Event: -1, Grade: st.Grade}
		for _, id := range st.Remedies {
			if n, ok := optionOf[id]; ok {
				ss.Options = append(ss.Options, n)
			}
		}
		if n, ok := optionOf[leftID]; ok {
			ss.Options = append(ss.Options, n)
		}
		if len(ss.Options) == 0 {
			return nil
		}
		slices.Sort(ss.Options)
		if n, ok := b.eventOf[fmt.Sprint(p.sheet, "/", st.RegisterID)]; ok && len(p.cond.States) > 1 {
			ss.Event, ss.Chance = n, b.events[n].Chance
		} else if unseen && len(p.cond.States) > 1 && st.Grade.ClosesReuse(false) {
			ss.Chance, ss.Prior = o.now(st.Chance), st.Chance
		}
		if st.Grade.ClosesReuse(false) {
			bad += ss.Chance
		}
		out = append(out, ss)
	}
	return rescale(out, bad)
}

// rescale gives what the bad states leave to the others, in proportion, and hangs them on the same event.
func rescale(states []SelectState, bad float64) []SelectState {
	good, event := 0.0, -1
	for _, s := range states {
		if !s.Grade.ClosesReuse(false) {
			good += s.Chance
		}
		if s.Event >= 0 {
			event = s.Event
		}
	}
	for i := range states {
		s := &states[i]
		if s.Grade.ClosesReuse(false) || good == 0 {
			continue
		}
		s.Chance = s.Chance / good * max(0, 1-bad)
		if event >= 0 && len(states) == 2 {
			s.Event, s.NotEvent = event, true
		}
	}
	return states
}

// redo is what it costs to open the part again on the assembled vehicle, with the one-use parts that this makes new, and to replace it, at today's
// prices.
func (b *bench) redo(p benchPart, remedies []Remedy) int64 {
	s := b.sheets[p.sheet]
	best := int64(-1)
	for _, r := range remedies {
		if r.Kind == Reuse || r.PinOnly {
			continue
		}
		steps := append(slices.Clone(p.reach), b.access.resolve(r.Steps, r.Target, s.Unit, p.part.Name)...)
		ops := b.operations(s, append(slices.Clone(r.Operations), r.CollateralOperations...))
		sum := b.once(append(ops, b.renewed(p.sheet, steps)...)) + b.access.fullCost(steps)
		if best < 0 || sum < best {
			best = sum
		}
	}
	return max(best, 0)
}

func find[T any](xs []T, ok func(T) bool) *T {
	if i := slices.IndexFunc(xs, ok); i >= 0 {
		return &xs[i]
	}
	return nil
}
