package host_test

import (
	"context"
	"fmt"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

// fake is a subsystem of a shaft with two journals and a gear. Its fields replace what it would say.
type fake struct {
	name     string
	describe func(*core.Sheet)
	assess   func(core.AssessRequest, *core.Assessment)
}

// fakeSheet has a safety-critical part at two positions, an ordinary one, and one of everything they may name.
func fakeSheet(name string) core.Sheet {
	const source = "common practice, no source"
	return core.Sheet{
		Subsystem: name, Title: "Fake " + name, Version: "1", UnitKind: "gearbox",
		Parts: []core.Part{
			{ID: "journal", Name: "Journal", Positions: []string{"A", "B"}, Count: 1, SafetyCritical: true, Reach: []string{name + ":open"},
				Checks: []core.Check{
					{ID: "diameter", Name: "Diameter", Kind: core.Measured, Unit: "mm", NeededForReuse: true, How: "Measure.", Instrument: "micrometer",
						Limit: core.Limit{NewLow: new(49.99), NewHigh: new(50.0), WearLow: new(49.9), Unit: "mm", Source: source, Origin: "sheet"}},
					{ID: "crack", Name: "Crack", Kind: core.GoNoGo, Unit: "pass/fail", NeededForReuse: true, How: "Dye.", Instrument: "dye",
						Limit: core.Limit{Source: source, Origin: "sheet"}},
				},
				Outlook: []core.State{{Chance: .7, Grade: core.WornFit, Remedies: []string{"reuse", "grind", "replace"}},
					{Chance: .3, Grade: core.PastLimit, Remedies: []string{"grind", "replace"}}}},
			{ID: "gear", Name: "Gear", Count: 1,
				Checks: []core.Check{{ID: "teeth", Name: "Teeth", Kind: core.Judged, Unit: "class 0-3", How: "Look.", Instrument: "eye",
					Limit: core.Limit{WorstClass: new(1), Unit: "class 0-3", Source: source, Origin: "sheet"}}},
				Outlook: []core.State{{Chance: 1, Grade: core.WornFit, Remedies: []string{"reuse", "replace"}, RegisterID: "H1"}}},
		},
		Steps:   []core.Step{{ID: name + ":open", Name: "Open", StripHours: core.Range3{Low: .5, Likely: 1, High: 2}}},
		Sets:    []core.Set{{ID: "S1", Name: "Journals", Members: []core.Target{{Part: "journal", Position: "A"}, {Part: "journal", Position: "B"}}, SameKind: true}},
		NoReuse: []core.NoReuse{{ID: "N1", Part: "journal", Check: "crack", Trigger: core.Value{Kind: core.ValuePass}, Allowed: []core.RemedyKind{core.Replace}, Source: source}},
		Hidden:  []core.Hidden{{ID: "H1", Name: "Pitted gear", Chance: .1, Parts: []core.Target{{Part: "gear"}}}},
		Operations: []core.Operation{
			{ID: "grind", Name: "Grind", Skill: "machinist", Hours: core.Range3{Low: 1, Likely: 2, High: 3}, ServedPer: "job"},
			{ID: "renew", Name: "Renew", Skill: "mechanic", ServedPer: "piece",
				Items: []core.Item{{Key: "shaft", Name: "Shaft", Count: 1, TypicalEach: core.Money3{Low: "80", Likely: "100", High: "150", Currency: "USD"}}}},
		},
	}
}

// Describe gives the sheet.
func (f fake) Describe(context.Context, []core.Fact) (core.Sheet, []core.Problem, error) {
	s := fakeSheet(f.name)
	if f.describe != nil {
		f.describe(&s)
	}
	return s, nil, nil
}

// Assess judges by the sheet.
func (f fake) Assess(_ context.Context, req core.AssessRequest) (core.Assessment, error) {
	sheet := fakeSheet(f.name)
	a := core.Assessment{Operations: sheet.Operations}
	for i := range sheet.Parts {
		for _, t := range sheet.Parts[i].Targets() {
			d := fakeCondition(&sheet.Parts[i], t, req)
			a.Conditions = append(a.Conditions, d)
			closed := d.Grade.ClosesReuse(sheet.Parts[i].SafetyCritical)
			a.Remedies = append(a.Remedies, core.Remedy{ID: "reuse", Target: t, Kind: core.Reuse, Name: "Reuse", Feasible: !closed})
			if t.Part == "journal" {
				a.Remedies = append(a.Remedies, core.Remedy{ID: "grind", Target: t, Kind: core.Rebuild, Name: "Grind", Operations: []string{"grind"},
					Steps: []string{f.name + ":open"}, Feasible: d.Grade != core.Failed})
			}
			a.Remedies = append(a.Remedies, core.Remedy{ID: "replace", Target: t, Kind: core.Replace, Name: "Replace", Operations: []string{"renew"}, Feasible: true})
		}
	}
	if f.assess != nil {
		f.assess(req, &a)
	}
	return a, nil
}

// fakeCondition grades a part by its worst reading; without one it is not seen.
func fakeCondition(part *core.Part, t core.Target, req core.AssessRequest) core.Condition {
	d := core.Condition{Target: t, Grade: core.NotSeen, ReadingsNeeded: len(part.Checks), States: part.Outlook}
	worst := core.GradeNone
	for _, f := range req.Findings {
		if f.Target != t {
			continue
		}
		check := part.Check(f.Check)
		x, _ := f.Value.Number()
		if f.Value.Pass {
			x = 1
		}
		j := sdk.Judge(x, 0, check.Limit, check.Kind, check.TwoSided)
		d.Reasons = append(d.Reasons, core.Reason{Text: j.Words, FindingIDs: []string{f.ID}, Check: f.Check})
		d.ReadingsTaken++
		if j.Grade > worst {
			worst, d.GoverningCheck, d.Wear = j.Grade, f.Check, j.Wear
		}
	}
	if worst == core.GradeNone || d.ReadingsTaken < d.ReadingsNeeded && worst < core.NotSeen {
		return d
	}
	d.Grade = worst
	state := core.State{Chance: 1, Grade: worst, Remedies: []string{"replace"}}
	if worst != core.Failed && part.ID == "journal" {
		state.Remedies = append(state.Remedies, "grind")
	}
	if !worst.ClosesReuse(part.SafetyCritical) {
		state.Remedies = append(state.Remedies, "reuse")
	}
	d.States = []core.State{state}
	return d
}

// fakeRequest is one good journal, one past its limit, and a gear with light damage.
func fakeRequest() core.AssessRequest {
	reading := func(id int, part, position, check string, v core.Value) core.Finding {
		return core.Finding{ID: fmt.Sprintf("f%d", id), Target: core.Target{Part: part, Position: position}, Check: check, Value: v}
	}
	mm := func(x float64) core.Value {
		return core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: x, Unit: "mm"}}
	}
	pass := core.Value{Kind: core.ValuePass, Pass: true}
	return core.AssessRequest{Unit: "gearbox", Findings: []core.Finding{
		reading(1, "journal", "A", "diameter", mm(49.98)), reading(2, "journal", "A", "crack", pass),
		reading(3, "journal", "B", "diameter", mm(49.8)), reading(4, "journal", "B", "crack", pass),
		reading(5, "gear", "", "teeth", core.Value{Kind: core.ValueClass, Class: 1}),
	}}
}
