package sdktest

import (
	"context"
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

var facts = []core.Fact{{Name: "teeth", Value: core.Value{Kind: core.ValueCount, Count: 24}, Source: "counted"}}

func TestSoundSubsystemPasses(t *testing.T) {
	f := newFake()
	require.Empty(t, Check(context.Background(), f, facts))
	require.Greater(t, f.calls, 100, "it was really tried")
}

// Each way of being unsound is caught under its own promise.
func TestUnsoundSubsystems(t *testing.T) {
	gear := func(f *fake) *core.Part { return &f.sheet.Parts[1] }
	for _, c := range []struct {
		name    string
		promise Promise
		spoil   func(*fake)
	}{
		{"every call fails", Answers, func(f *fake) { f.fail = errors.New("gone") }},
		{"fails where a fact is wanting", Answers, func(f *fake) { f.needsFacts = true }},
		{"counts its calls aloud", Deterministic, func(f *fake) {
			f.spoil = func(f *fake, a *core.Assessment) {
				a.Problems = append(a.Problems, core.Problem{Summary: core.FormatNumber(float64(f.calls))})
			}
		}},
		{"a limit without a source", Sourced, func(f *fake) { gear(f).Checks[0].Limit.Source = "" }},
		{"a limit without a confidence", Sourced, func(f *fake) { gear(f).Checks[0].Limit.Confidence = "" }},
		{"a rule without a source", Sourced, func(f *fake) { f.sheet.NoReuse[0].Source = "" }},
		{"a life without a source", Sourced, func(f *fake) { f.sheet.Parts[0].Life.Source = "" }},
		{"a caution without a source", Sourced, func(f *fake) { f.sheet.Cautions[0].Source = "" }},
		{"a part without a check", Checked, func(f *fake) { f.sheet.Parts[2].Checks = nil }},
		{"no part at all", Checked, func(f *fake) { f.sheet.Parts = nil }},

		{"two parts of one id", Resolves, func(f *fake) { f.sheet.Parts = append(f.sheet.Parts, f.sheet.Parts[2]) }},
		{"a set of what is not there", Resolves, func(f *fake) { f.sheet.Sets[0].Members[0].Position = "C" }},
		{"a rule on no check", Resolves, func(f *fake) { f.sheet.NoReuse[0].Check = "polish" }},
		{"a bench step nowhere", Resolves, func(f *fake) { f.sheet.Steps = nil }},
		{"an included operation nowhere", Resolves, func(f *fake) { f.sheet.Operations[1].Includes = []string{"polish"} }},
		{"a unit of its own", Resolves, func(f *fake) { gear(f).Checks[0].Unit = "cubit" }},
		{"a limit in another unit", Resolves, func(f *fake) { gear(f).Checks[0].Limit.Unit = "mm" }},
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
		{"limits out of order", Sane, func(f *fake) { gear(f).Checks[0].Limit.WearHigh = new(.007) }},
		{"a remedy of no kind", Sane, spoiled(func(a *core.Assessment) { a.Remedies[1].Kind = "polish" })},
		{"a remedy that requires itself", Sane, spoiled(func(a *core.Assessment) {
			a.Remedies[1].Requires = []core.RemedyRef{{Target: a.Remedies[1].Target, Remedy: a.Remedies[1].ID}}
		})},

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

		{"every class is allowed", CanFail, func(f *fake) { gear(f).Checks[1].Limit.WorstClass = new(3) }},
		{"what would fail is not plausible", CanFail, func(f *fake) { gear(f).Checks[0].TwoSided, gear(f).Checks[0].PlausibleHigh = false, new(.012) }},
		{"a check that is not looked at", CanFail, withoutRules(judging("chips", func(float64) core.Grade { return core.WithinNew }))},
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
	} {
		t.Run(c.name, func(t *testing.T) {
			f := newFake()
			c.spoil(f)
			faults := Check(context.Background(), f, facts)
			var promises []Promise
			for _, x := range faults {
				promises = append(promises, x.Promise)
				require.NotEmpty(t, x.What)
			}
			require.Contains(t, promises, c.promise, "%v", faults)
			require.LessOrEqual(t, len(faults), maxFaults)
		})
	}
}

// spoiled changes every finished answer.
func spoiled(change func(*core.Assessment)) func(*fake) {
	return func(f *fake) { f.spoil = func(_ *fake, a *core.Assessment) { change(a) } }
}

// judging overrules the grade of one check's readings.
func judging(check string, grade func(x float64) core.Grade) func(*fake) {
	return func(f *fake) {
		f.judge = func(c core.Check, x float64) *core.Grade {
			if c.ID != check {
				return nil
			}
			return new(grade(x))
		}
	}
}

// withoutRules leaves a check to its grade alone.
func withoutRules(spoil func(*fake)) func(*fake) {
	return func(f *fake) {
		f.sheet.NoReuse = nil
		spoil(f)
	}
}

func TestCancelledRun(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	faults := Check(ctx, newFake(), facts)
	require.Len(t, faults, 1)
	require.Equal(t, Answers, faults[0].Promise)
	require.ErrorContains(t, errors.New(faults[0].String()), "context canceled")
}

func TestFaultTellsItsPlace(t *testing.T) {
	f := Fault{Crosses, core.Target{Part: "shaft", Position: "A"}, "diameter", "graded worn, fit at 1.24 in"}
	require.Equal(t, "shaft/A diameter: graded worn, fit at 1.24 in (promise: "+string(Crosses)+")", f.String())
}
