package config

import (
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// stepFile is a step as written.
type stepFile struct {
	Mark      mark
	ID        text          `key:"id,need"`
	Name      text          `key:"name,need"`
	Positions []text        `key:"positions"`
	Hours     three         `key:"hours,need"`
	Refit     three         `key:"refit"`
	People    number        `key:"people"`
	Skill     text          `key:"skill"`
	AllOf     []text        `key:"all_of"`
	AnyOf     [][]text      `key:"any_of"`
	Destroys  []text        `key:"destroys"`
	OneUse    []itemFile    `key:"one_use"`
	Cautions  []cautionFile `key:"cautions"`
	Scope     text          `key:"scope"`
	BareFrame yes           `key:"bare_frame"`
	Load      text          `key:"load"`
	Confirm   text          `key:"confirm"`
	Before    yes           `key:"before_agreement"`
}

// itemFile is an item that is new each time.
type itemFile struct {
	Mark  mark
	Key   text   `key:"key,need"`
	Name  text   `key:"name,need"`
	Count number `key:"count"`
	Each  three  `key:"each"`
	Tax   text   `key:"tax"`
}

// planFile is a strip plan as written.
type planFile struct {
	ID       text       `key:"id,need"`
	Title    text       `key:"title,need"`
	Currency text       `key:"currency"`
	Steps    []stepFile `key:"steps,need"`
}

// ReadStripPlan reads how a vehicle comes apart:
//
//	id: generic
//	title: Separate-frame four-wheel-drive vehicle
//	currency: USD                   # of the prices below; needed if there are any
//	steps:
//	  - id: hub-off                 # its public name
//	    positions: [LF, RF, LR, RR] # written once, becomes hub-off/LF, hub-off/RF ...; {position} in any text of the step
//	                                # stands for the position
//	    name: Hub and drum off, {position}
//	    hours: [.5, .8, 1.5]        # man-hours of stripping: low, likely, high
//	    refit: [.6, 1, 2]           # of putting back; left out: strip x 1.2 / 1.35 / 1.5; [0, 0, 0]: nothing goes back
//	    people: 1                   # hands needed; 1 if left out
//	    skill: mechanic             # whose rate it is; mechanic if left out
//	    all_of: [wheels-off]        # each must be done before; "hub-off/*" is that step at every position
//	    any_of: [[a, b], [c, d]]    # of each list at least one
//	    destroys: [bottom-end/crankshaft/end-float]   # readings that cannot be taken afterwards: subsystem/part/check
//	    one_use: [{key: hub-gasket, name: Hub gasket, count: 1, each: [2, 3, 6], tax: parts}]
//	    cautions: ["The nut may have a left-hand thread."]   # or {text, source}; without a source it is common practice
//	    scope: engine               # the kind of unit whose bench work it is; left out: the vehicle's
//	    bare_frame: true            # part of going to the bare frame
//	    load: engine                # what is lifted: its weight stands in the vehicle's pack
//	    confirm: The stands are under the frame, not under the axle.   # what must be said yes to before it is offered
//	    before_agreement: true      # takes nothing apart: may be done before anybody agreed to the strip-down
//
// A step may be written again with other positions. Faults, all told at once: unknown keys, a step or position twice, a
// predecessor that does not exist, steps that wait for each other in a circle.
func ReadStripPlan(data []byte, file string) (core.StripPlan, error) {
	d := &document{file: file}
	var p planFile
	d.read(data, "the strip plan", &p)
	plan := core.StripPlan{ID: d.id(p.ID), Title: p.Title.s}
	var steps placedSteps
	plan.Steps, steps = d.steps(p.Steps, p.Currency)
	for i := range p.Steps {
		plan.BeforeAgreement = append(plan.BeforeAgreement, p.Steps[i].free()...)
	}
	if plan.Steps != nil {
		plan.Steps = resolve(plan.Steps, func(id, ref, next, format string, args ...any) { d.add(steps[id].of(ref), next, format, args...) })
	}
	if err := d.err(); err != nil {
		return core.StripPlan{}, err
	}
	return plan, nil
}

// placedSteps says where each instanced step is written, and each of its references.
type placedSteps map[string]stepPlace

type stepPlace struct {
	mark
	refs map[string]mark
}

// of is the place of a reference, or of the step.
func (p stepPlace) of(ref string) mark {
	if m, ok := p.refs[ref]; ok {
		return m
	}
	return p.mark
}

// steps makes steps of what was written, one for each position. References are not looked up yet.
func (d *document) steps(files []stepFile, currency text) ([]core.Step, placedSteps) {
	d.currency(currency)
	var steps []core.Step
	placed := placedSteps{}
	for i := range files {
		f := &files[i]
		id := d.id(f.ID)
		if id == "" {
			continue
		}
		positions := f.Positions
		if len(positions) == 0 {
			positions = []text{{}}
		}
		d.checkStep(f, currency)
		for _, p := range positions {
			if p.s != "" {
				d.id(p)
			}
			s := f.step(id, p.s, currency.s)
			if _, twice := placed[s.ID]; twice {
				d.add(f.ID.mark, "take one out", "the step %s stands here twice", s.ID)
				continue
			}
			placed[s.ID] = f.place(p.s)
			steps = append(steps, s)
		}
	}
	return steps, placed
}

func (d *document) currency(t text) {
	if t.s != "" && !core.ValidCurrency(t.s) {
		d.add(t.mark, "write its three letters, like USD", "%q is no currency", t.s)
	}
}

// checkStep tells what is wrong in a step by itself.
func (d *document) checkStep(f *stepFile, currency text) {
	d.whole(f.People, 1, 20)
	if len(f.Positions) == 0 {
		for _, t := range f.texts() {
			if strings.Contains(t.s, "{position}") {
				d.add(t.mark, "give the step positions: [...]", "{position} in a step without positions")
			}
		}
	}
	for _, t := range f.Destroys {
		if t.s != "" && strings.Count(t.s, "/") != 2 {
			d.add(t.mark, "write subsystem/part/check", "%q is no check", t.s)
		}
	}
	for _, i := range f.OneUse {
		d.within(i.Count, 0, 10000)
		if i.Each.set && currency.s == "" {
			d.add(i.Each.mark, "write currency: at the top of the file", "a price without a currency")
		}
	}
}

func (f *stepFile) texts() []text {
	ts := slices.Concat([]text{f.Name, f.Load, f.Confirm}, f.AllOf, f.Destroys)
	for _, c := range f.AnyOf {
		ts = append(ts, c...)
	}
	for _, c := range f.Cautions {
		ts = append(ts, c.Text)
	}
	for _, i := range f.OneUse {
		ts = append(ts, i.Key, i.Name)
	}
	return ts
}

// free lists the step's instances if it may be done before anybody agreed to the strip-down.
func (f *stepFile) free() (ids []string) {
	if !f.Before {
		return nil
	}
	if len(f.Positions) == 0 {
		return []string{f.ID.s}
	}
	for _, p := range f.Positions {
		ids = append(ids, f.ID.s+"/"+p.s)
	}
	return ids
}

// place says where the step and its references stand, as they read at one position.
func (f *stepFile) place(position string) stepPlace {
	p := stepPlace{f.ID.mark, map[string]mark{}}
	for _, t := range append(slices.Clone(f.AllOf), slices.Concat(f.AnyOf...)...) {
		p.refs[strings.ReplaceAll(t.s, "{position}", position)] = t.mark
	}
	return p
}

// step is the step at one position; "" if it has none.
func (f *stepFile) step(id, position, currency string) core.Step {
	at := func(t text) string { return strings.ReplaceAll(t.s, "{position}", position) }
	each := func(ts []text) (ss []string) {
		for _, t := range ts {
			ss = append(ss, at(t))
		}
		return ss
	}
	s := core.Step{ID: id, Name: at(f.Name), StripHours: f.Hours.v, RefitHours: f.Refit.v, NoRefit: f.Refit.set && f.Refit.v == core.Range3{},
		People: 1, Skill: f.Skill.or("mechanic"), AllOf: each(f.AllOf), Destroys: each(f.Destroys), Scope: f.Scope.s,
		BareFrame: bool(f.BareFrame), ConfirmHelp: at(f.Confirm), Load: at(f.Load)}
	if position != "" {
		s.ID += "/" + position
		if len(f.Positions) > 1 && !strings.Contains(f.Name.s, "{position}") {
			s.Name += ", " + position
		}
	}
	if f.People.set {
		s.People = int(f.People.v)
	}
	for _, c := range f.AnyOf {
		s.AnyOf = append(s.AnyOf, each(c))
	}
	for _, i := range f.OneUse {
		item := core.Item{Key: at(i.Key), Name: at(i.Name), Count: 1, TypicalEach: i.Each.money(currency), OneUse: true, TaxClass: i.Tax.or("parts")}
		if i.Count.set {
			item.Count = i.Count.v
		}
		s.OneUse = append(s.OneUse, item)
	}
	for _, c := range f.Cautions {
		s.Cautions = append(s.Cautions, core.Caution{Text: at(c.Text), Step: s.ID, Source: c.Source.or(commonPractice)})
	}
	return s
}
