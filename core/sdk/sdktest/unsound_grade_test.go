package sdktest

import (
	"slices"

	"github.com/fettle-tools/fettle/core"
)

// unsoundGrades come from blanks that pass and from limits of their own.
func unsoundGrades() []unsound {
	return []unsound{
		{"what is not read passes", BlankNoPass, func(f *fake) { f.blankPass = true }},
		{"a value of another kind passes", BlankNoPass, func(f *fake) { f.anyKind = true }},
		{"a crack test that is not needed", BlankNoPass, func(f *fake) { f.sheet.Parts[0].Checks[2].NeededForReuse = false }},
		{"nothing is good enough", NewIsFit, judging("backlash", func(x float64) core.Grade { return core.PastLimit })},

		{"far past the limit is fit again", OnlyWorsens, judging("backlash", func(x float64) core.Grade {
			switch {
			case x > .018:
				return core.WornFit
			case x > .014:
				return core.PastLimit
			}
			return core.WithinNew
		})},
		{"a limit of its own", Crosses, judging("diameter", func(x float64) core.Grade {
			if x < 1.2470 {
				return core.PastLimit
			}
			return core.WithinNew
		})},
		{"a stricter limit than it says", Crosses, judging("diameter", func(x float64) core.Grade {
			if x < 1.2480 {
				return core.PastLimit
			}
			return core.WithinNew
		})},
		{"every instrument is perfect", Crosses, func(f *fake) { f.ignoreBounds = true }},
		{"too tight is as new", Crosses, judging("backlash", func(x float64) core.Grade {
			if x > .014 {
				return core.PastLimit
			}
			return core.WithinNew
		})},
		{"one class more than it says", Crosses, withoutRules(judging("teeth", func(x float64) core.Grade {
			if x > 2 {
				return core.Failed
			}
			return core.WithinNew
		}))},

		{"every class is allowed", CanFail, func(f *fake) { f.gear().Checks[1].Limit.WorstClass = new(3) }},
		{"what would fail is not plausible", CanFail, func(f *fake) { f.gear().Checks[0].TwoSided, f.gear().Checks[0].PlausibleHigh = false, new(.012) }},
		{"a check that is not looked at", CanFail, withoutRules(judging("chips", func(float64) core.Grade { return core.WithinNew }))},
	}
}

// unsoundReuse leave no way out, or one that should be closed; or findings are dropped or depend on their order.
func unsoundReuse() []unsound {
	return []unsound{
		{"nothing can be done", Answered, spoiled(func(a *core.Assessment) {
			for i, r := range a.Remedies {
				a.Remedies[i].Feasible = r.Kind == core.Reuse && r.Feasible
			}
		})},
		{"only an identity can be changed", Answered, spoiled(func(a *core.Assessment) {
			for i, r := range a.Remedies {
				a.Remedies[i].PinOnly = r.Kind != core.Reuse
			}
		})},
		{"a state with no way out", Answered, spoiled(func(a *core.Assessment) { a.Conditions[0].States[0].Remedies = nil })},
		{"reuse is always open", GradeCloses, spoiled(func(a *core.Assessment) {
			for i := range a.Remedies {
				a.Remedies[i].Feasible = true
			}
		})},
		{"a grade better than its chance", GradeCloses, spoiled(func(a *core.Assessment) { a.Conditions[0].Grade, a.Conditions[0].PPast = core.WornFit, new(.97) })},

		{"a state that is past its limit keeps reuse", GradeCloses, spoiled(func(a *core.Assessment) {
			for i, c := range a.Conditions {
				if c.Grade == core.NotSeen {
					a.Conditions[i].States[1].Remedies = []string{"reuse", "replace"}
				}
			}
		})},
		{"a grade without a reason", Explained, spoiled(func(a *core.Assessment) { a.Conditions[2].Reasons = nil })},
		{"a reason without its source", Explained, spoiled(func(a *core.Assessment) {
			for i := range a.Conditions[2].Reasons {
				a.Conditions[2].Reasons[i].Source = ""
			}
		})},
		{"a remedy closed in silence", Explained, spoiled(func(a *core.Assessment) {
			for i := range a.Remedies {
				a.Remedies[i].Why = nil
			}
		})},
		{"a one-use part is rebuilt", OneUseIsNew, spoiled(func(a *core.Assessment) { a.Remedies[len(a.Remedies)-2].Feasible = true })},
		{"its rules are for show", NoReuse, func(f *fake) { f.noRules = true }},
		{"a rule that allows reuse", NoReuse, func(f *fake) { f.sheet.NoReuse[0].Allowed = []core.RemedyKind{core.Reuse} }},
		{"a rule of a one-use part that nothing fires", NoReuse, func(f *fake) { f.sheet.NoReuse[5].Trigger = class(1) }},
		{"a rule of a one-use part that is not obeyed", NoReuse, spoiled(func(a *core.Assessment) {
			a.Remedies[len(a.Remedies)-2].Feasible = true
		})},
		{"a state keeps reuse", NoReuse, spoiled(func(a *core.Assessment) {
			for i, c := range a.Conditions {
				if c.Grade == core.Failed {
					a.Conditions[i].States[0].Remedies = []string{"reuse", "replace"}
				}
			}
		})},
		{"a missing part can be rebuilt", MissingIsNew, spoiled(func(a *core.Assessment) {
			for i, r := range a.Remedies {
				if r.ID == "rebuild" && !a.Remedies[i].Feasible {
					a.Remedies[i].Feasible = true
				}
			}
		})},
		{"what it cannot use is dropped", UsedOrNamed, func(f *fake) { f.silent = true }},
		{"reasons without their findings", UsedOrNamed, spoiled(func(a *core.Assessment) { a.Conditions[0].Reasons = nil })},
		{"the better reading governs", WorseGoverns, func(f *fake) { f.bestWins = true }},
		{"the first reading governs", WorseGoverns, func(f *fake) { f.firstWins = true }},
		{"knows its limits better", Overridden, func(f *fake) { f.deaf = true }},
		{"tells findings in their order", OrderIsNought, func(f *fake) { f.firstWins = true }},
		{"millimetres are inches", UnitIsNought, func(f *fake) { f.ignoreUnits = true }},
		{"every unit but one is converted", UnitIsNought, typedIn("ft", func(a *core.Assessment) { a.Conditions[0].Grade = core.GradeNone })},
		{"an operation hangs on the unit", UnitIsNought, typedIn("cm", func(a *core.Assessment) { a.Operations = nil })},
		{"a problem hangs on the unit", UnitIsNought, typedIn("thou", func(a *core.Assessment) {
			a.Problems = append(a.Problems, core.Problem{Severity: core.SeverityWarning, Summary: "an odd unit"})
		})},
	}
}

// typedIn changes every answer to a request in which something is typed in a unit.
func typedIn(unit string, change func(*core.Assessment)) func(*fake) {
	return func(f *fake) {
		f.spoil = func(f *fake, a *core.Assessment) {
			if slices.ContainsFunc(f.asked, func(x core.Finding) bool { return x.Value.Quantity.Unit == unit }) {
				change(a)
			}
		}
	}
}
