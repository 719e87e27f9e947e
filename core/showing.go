package core

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// conditions puts every unit's conditions in one list, with names and gauges.
func conditions(sheets []UnitSheet) []UnitCondition {
	out := []UnitCondition{}
	for _, s := range sheets {
		for _, c := range s.Assessment.Conditions {
			part := s.Sheet.Part(c.Target.Part)
			if part == nil {
				continue
			}
			out = append(out, UnitCondition{Place: Place{s.Subsystem, s.Unit, c.Target}, PartName: part.Name, SafetyCritical: part.SafetyCritical,
				Condition: c, Gauge: GaugeOf(s, part, c)})
		}
	}
	return out
}

// GaugeOf rebuilds the bar from the governing check's limit and the condition's wear; nil where there is no wear to show.
func GaugeOf(s UnitSheet, part *Part, c Condition) *Gauge {
	check := part.Check(c.GoverningCheck)
	if check == nil || c.Wear == nil {
		return nil
	}
	l := LimitFor(*check, c.Target, s.Overrides)
	g := Gauge{Check: check.ID, Name: check.Name, Unit: check.Unit, Source: l.Source}
	switch {
	case l.WearHigh != nil && l.NewHigh != nil && (l.WearLow == nil || *c.Wear >= 0):
		g.New, g.Limit = *l.NewHigh, *l.WearHigh
	case l.WearLow != nil && l.NewLow != nil:
		g.New, g.Limit = *l.NewLow, *l.WearLow
	default:
		return nil
	}
	g.Reading = g.New + *c.Wear*(g.Limit-g.New)
	if c.WearU != nil {
		// Back from a standard uncertainty to what the instrument's own +/- would be (rectangular, GUM 4.3.7).
		g.Bound = math.Sqrt(3) * *c.WearU * max(g.Limit-g.New, g.New-g.Limit)
	}
	return &g
}

// notSeen lists the parts with a needed reading missing, each with its share of the reserves.
func (b *bench) notSeen(d *due, w WorkOrder) []NotSeenItem {
	reserve := make([]int64, len(b.parts))
	for _, l := range w.Lines {
		if l.Kind != LineReserve || len(l.Places) == 0 {
			continue
		}
		var unseen []int
		for i := range b.parts {
			if b.unseen(i) && slices.Contains(l.Places, b.parts[i].place) {
				unseen = append(unseen, i)
			}
		}
		rest := Minor(l.Amount)
		for k, i := range unseen {
			share := rest / int64(len(unseen)-k)
			reserve[i] += share
			rest -= share
		}
	}
	out := []NotSeenItem{}
	for i, p := range b.parts {
		if b.unseen(i) {
			out = append(out, NotSeenItem{Place: p.place, PartName: p.part.Name, Taken: p.cond.ReadingsTaken, Needed: p.cond.ReadingsNeeded,
				Checks: checkNames(p), Reserve: b.money(reserve[i])})
		}
	}
	return out
}

func (b *bench) unseen(i int) bool { return b.parts[i].cond.Grade == NotSeen }

func checkNames(p benchPart) []string {
	var names []string
	for _, id := range p.cond.ChecksNotRead {
		if c := p.part.Check(id); c != nil {
			names = append(names, c.Name)
		} else {
			names = append(names, id)
		}
	}
	return names
}

// secondPerson is printed on every job that opens what a life hangs on (common practice, no source).
const secondPerson = "Brakes, steering, hubs, wheels or springs are opened: a second, competent person checks the finished work before the vehicle moves. No price and no pin removes this."

// cautions gathers the warnings of the work: the sheets', the steps' and the operations', each once.
func (b *bench) cautions(d *due) []Caution {
	out := []Caution{}
	add := func(cs []Caution) {
		for _, c := range cs {
			if !slices.ContainsFunc(out, func(x Caution) bool { return x.Text == c.Text }) {
				out = append(out, c)
			}
		}
	}
	for _, s := range b.sheets {
		if slices.Contains(secondPersonSubsystems, s.Subsystem) {
			add([]Caution{{Text: secondPerson, Source: "common practice, no source"}})
		}
	}
	for n, s := range b.access.steps {
		if d.stepDue[n] > 0 && !s.absent {
			add(s.step.Cautions)
		}
	}
	for n, o := range b.ops {
		if d.opDue[n] > 0 {
			add(o.op.Cautions)
		}
	}
	for _, s := range b.sheets {
		add(s.Sheet.Cautions)
	}
	return out
}

var secondPersonSubsystems = []string{"brakes", "steering", "hubs-wheels", "springs", "front-axle", "rear-axle"}

// markProblems tells what the identity marks do to the job: one that looks altered stops orders until the owner is told in writing; a unit
// of another type is judged by its own pack, or asks for one.
func markProblems(req PlanRequest) []Problem {
	var ps []Problem
	tell := func(u Unit, ms []Mark) {
		for _, m := range ms {
			switch m.Says {
			case MarkAltered:
				if !blank(m.Told) {
					ps = append(ps, Problem{Severity: SeverityWarning, Unit: u.ID, Summary: fmt.Sprintf("the mark at %s looks altered; the owner was told in writing: %s", m.Where, m.Told)})
					break
				}
				ps = append(ps, Problem{Severity: SeverityError, Unit: u.ID, Summary: fmt.Sprintf("the mark at %s looks altered: nothing is ordered and no scope is issued", m.Where),
					Next: "stop work on this unit and tell the owner in writing; then write down how: fettle job mark ... --says \"looks altered\" --told WORDS"})
			case MarkOtherType, MarkOtherModel:
				p := Problem{Severity: SeverityNote, Unit: u.ID, Summary: fmt.Sprintf("%s %q is %s", m.Where, m.Text, m.Says), Next: "agree with the owner: keep as it is, correct, or keep and note it"}
				if unitPack(req, u) == nil && u.ID != "" {
					p.Severity = SeverityWarning
					p.Detail = "this unit has no pack of its own, so the vehicle's sizes and limits are used for it: are they right?"
				}
				ps = append(ps, p)
			}
		}
	}
	if v := req.Job.Vehicle; v != nil {
		tell(Unit{}, v.Marks)
	}
	for _, u := range req.Job.Units {
		tell(u, u.Marks)
	}
	return ps
}

// tooFewHands tells of the steps that need more people than are present: they wait until help is there.
func (b *bench) tooFewHands(d *due) []Problem {
	var names []string
	for n, s := range b.access.steps {
		if b.req.People > 0 && s.step.People > b.req.People && d.stepDue[n] > 0 && !s.absent && !s.apart {
			names = append(names, fmt.Sprintf("%s (%d)", s.step.Name, s.step.People))
		}
	}
	if len(names) == 0 {
		return nil
	}
	have := "one who is here"
	if b.req.People > 1 {
		have = fmt.Sprintf("%d who are here", b.req.People)
	}
	return []Problem{{Severity: SeverityWarning, Summary: fmt.Sprintf("more hands are needed than the %s: %s", have, strings.Join(names, "; ")),
		Next: "get help for the day, or do not start it"}}
}

func oldPrices(w WorkOrder) []string {
	out := []string{}
	for _, l := range w.Lines {
		for _, it := range l.Items {
			if it.Old {
				out = appendNew(out, it.Name)
			}
		}
	}
	return out
}
