package sdktest

import (
	"errors"
	"math"

	"github.com/fettle-tools/fettle/core"
)

func (f *fake) gear() *core.Part { return &f.sheet.Parts[1] }

// unsoundSheets lack a source, a check or a name, or do not answer.
func unsoundSheets() []unsound {
	return []unsound{
		{"every call fails", Answers, func(f *fake) { f.fail = errors.New("gone") }},
		{"fails where a fact is wanting", Answers, func(f *fake) { f.needsFacts = true }},
		{"counts its calls aloud", Deterministic, func(f *fake) {
			f.spoil = func(f *fake, a *core.Assessment) {
				a.Problems = append(a.Problems, core.Problem{Summary: core.FormatNumber(float64(f.calls))})
			}
		}},
		{"a limit without a source", Sourced, func(f *fake) { f.gear().Checks[0].Limit.Source = "" }},
		{"a limit without a confidence", Sourced, func(f *fake) { f.gear().Checks[0].Limit.Confidence = "" }},
		{"a rule without a source", Sourced, func(f *fake) { f.sheet.NoReuse[0].Source = "" }},
		{"a life without a source", Sourced, func(f *fake) { f.sheet.Parts[0].Life.Source = "" }},
		{"a caution without a source", Sourced, func(f *fake) { f.sheet.Cautions[0].Source = "" }},
		{"a part without a check", Checked, func(f *fake) { f.sheet.Parts[2].Checks = nil }},
		{"no part at all", Checked, func(f *fake) { f.sheet.Parts = nil }},

		{"two parts of one id", Resolves, func(f *fake) { f.sheet.Parts = append(f.sheet.Parts, f.sheet.Parts[2]) }},
		{"a set of what is not there", Resolves, func(f *fake) { f.sheet.Sets[0].Members[0].Position = "C" }},
		{"a rule on no check", Resolves, func(f *fake) { f.sheet.NoReuse[0].Check = "polish" }},
		{"a bench step nowhere", Resolves, func(f *fake) { f.sheet.Steps = nil }},
		{"an operation that comes after none", Resolves, func(f *fake) { f.sheet.Operations[1].After = []string{"polish"} }},
		{"an included operation nowhere", Resolves, func(f *fake) { f.sheet.Operations[1].Includes = []string{"polish"} }},
		{"a unit of its own", Resolves, func(f *fake) { f.gear().Checks[0].Unit = "cubit" }},
		{"a limit in another unit", Resolves, func(f *fake) { f.gear().Checks[0].Limit.Unit = "mm" }},
	}
}

// unsoundAnswers name what is not there, or carry figures that cannot be.
func unsoundAnswers() []unsound {
	return []unsound{
		{"no condition for a part", Resolves, spoiled(func(a *core.Assessment) { a.Conditions = a.Conditions[1:] })},
		{"a condition of a stranger", Resolves, spoiled(func(a *core.Assessment) {
			a.Conditions = append(a.Conditions, core.Condition{Target: core.Target{Part: "wheel"}})
		})},
		{"a remedy of a stranger", Resolves, spoiled(func(a *core.Assessment) { a.Remedies[0].Target.Part = "wheel" })},
		{"a remedy that takes nothing known", Resolves, spoiled(func(a *core.Assessment) { a.Remedies[1].Operations = []string{"polish"} })},
		{"a remedy that requires nothing known", Resolves, spoiled(func(a *core.Assessment) {
			a.Remedies[1].Requires = []core.RemedyRef{{Target: core.Target{Part: "gear"}, Remedy: "polish"}}
		})},
		{"a state with an unknown remedy", Resolves, spoiled(func(a *core.Assessment) { a.Conditions[0].States[0].Remedies = []string{"polish"} })},
		{"an unknown check governs", Resolves, spoiled(func(a *core.Assessment) { a.Conditions[0].GoverningCheck = "polish" })},
		{"a finding of its own", Resolves, spoiled(func(a *core.Assessment) { a.Problems = append(a.Problems, core.Problem{FindingID: "mine"}) })},

		{"chances of more than one", Chances, spoiled(func(a *core.Assessment) { a.Conditions[0].States[0].Chance = 1.2 })},
		{"a chance that is no number", Chances, spoiled(func(a *core.Assessment) { a.Conditions[0].States[0].Chance = math.NaN() })},
		{"a part that was seen is drawn", StatesFit, spoiled(func(a *core.Assessment) {
			s := a.Conditions[0].States[0]
			s.Chance = .5
			a.Conditions[0].States = []core.State{s, s}
		})},
		{"a straddling part is tossed for", StatesFit, spoiled(func(a *core.Assessment) {
			for i, c := range a.Conditions {
				if c.Grade == core.MeasureAgain && len(c.States) == 2 {
					a.Conditions[i].States[0].Chance, a.Conditions[i].States[1].Chance = .2, .8
				}
			}
		})},
		{"a register chance over one", Chances, func(f *fake) { f.sheet.Hidden[0].Chance = 1.1 }},
		{"wear that is no number", Sane, spoiled(func(a *core.Assessment) { a.Conditions[0].Wear = new(math.NaN()) })},
		{"hours less than none", Sane, func(f *fake) { f.sheet.Operations[0].Hours.Low = -1 }},
		{"hours out of order", Sane, func(f *fake) { f.sheet.Operations[0].Hours.Low = 9 }},
		{"money less than none", Sane, func(f *fake) { f.sheet.Operations[1].Items[0].TypicalEach.Low = "-1" }},
		{"limits out of order", Sane, func(f *fake) { f.gear().Checks[0].Limit.WearHigh = new(.007) }},
		{"a remedy of no kind", Sane, spoiled(func(a *core.Assessment) { a.Remedies[1].Kind = "polish" })},
		{"a remedy that requires itself", Sane, spoiled(func(a *core.Assessment) {
			a.Remedies[1].Requires = []core.RemedyRef{{Target: a.Remedies[1].Target, Remedy: a.Remedies[1].ID}}
		})},
	}
}
