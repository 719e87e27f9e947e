package host

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

const tradePractice = "common practice, no source"

// checkedSheet has a safety-critical pin with a size and a crack test, and an ordinary cover.
func checkedSheet() core.Sheet {
	return core.Sheet{
		Subsystem: "box", Title: "Box", UnitKind: "gearbox",
		Parts: []core.Part{
			{ID: "pin", Name: "Pin", Count: 1, SafetyCritical: true, Life: &core.Life{Typical: 1e5, Unit: "km", Sigma: .5}, Checks: []core.Check{
				{ID: "size", Kind: core.Measured, Unit: "mm", NeededForReuse: true, Limit: core.Limit{NewLow: new(9.98), NewHigh: new(10.0), WearLow: new(9.9), Unit: "mm", Source: tradePractice}},
				{ID: "crack", Kind: core.GoNoGo, Unit: "pass/fail", Limit: core.Limit{Source: tradePractice}},
				{ID: "pits", Kind: core.Judged, Unit: "class 0-3", Limit: core.Limit{WorstClass: new(1), Source: tradePractice}},
				{ID: "nicks", Kind: core.Counted, Unit: "count", Limit: core.Limit{NewHigh: new(0.0), WearHigh: new(2.0), Unit: "count", Source: tradePractice}},
			}},
			{ID: "cover", Name: "Cover", Count: 1, Checks: []core.Check{
				{ID: "warp", Kind: core.Measured, Unit: "mm", Limit: core.Limit{NewHigh: new(.05), WearHigh: new(.2), Unit: "mm", Source: tradePractice}}}},
		},
		NoReuse:    []core.NoReuse{{ID: "N1", Part: "pin", Check: "crack", Trigger: core.Value{Kind: core.ValuePass}, Allowed: []core.RemedyKind{core.Replace}, Source: tradePractice}},
		Hidden:     []core.Hidden{{ID: "H1", Chance: .1, Parts: []core.Target{{Part: "cover"}}, Operations: []string{"plane"}}},
		Steps:      []core.Step{{ID: "box:open"}},
		Sets:       []core.Set{{ID: "S1", Members: []core.Target{{Part: "pin"}}, SameKind: true}},
		Operations: []core.Operation{{ID: "plane", Hours: core.Range3{Low: 1, Likely: 2, High: 3}, ServedPer: "piece", Outwork: core.Money3{Likely: "40", Currency: "USD"}}},
	}
}

var (
	pin   = core.Target{Part: "pin"}
	cover = core.Target{Part: "cover"}
)

func checkedRequest() core.AssessRequest {
	return core.AssessRequest{Unit: "box", Findings: []core.Finding{
		{ID: "f1", Target: pin, Check: "size", Value: core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: 9.97, Unit: "mm"}}},
		{ID: "f2", Target: pin, Check: "crack", Value: core.Value{Kind: core.ValuePass, Pass: true}},
		{ID: "f3", Target: cover, Check: "warp", Value: core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: .1, Unit: "mm"}}},
	}}
}

func checkedAnswer() core.Assessment {
	return core.Assessment{
		Conditions: []core.Condition{
			{Target: pin, Grade: core.WornFit, Wear: new(.125), WearU: new(0.0), PPast: new(0.0), GoverningCheck: "size",
				Reasons: []core.Reason{{Text: "worn", FindingIDs: []string{"f1", "f2"}}},
				States:  []core.State{{Chance: 1, Grade: core.WornFit, Remedies: []string{"reuse", "grind", "replace"}}}},
			{Target: cover, Grade: core.WornFit, Reasons: []core.Reason{{Text: "flat enough", FindingIDs: []string{"f3"}}},
				States: []core.State{{Chance: .4, Grade: core.WornFit, Remedies: []string{"reuse", "plane"}}, {Chance: .6, Grade: core.NearLimit, Remedies: []string{"plane"}, RegisterID: "H1"}}},
		},
		Remedies: []core.Remedy{
			{ID: "reuse", Target: pin, Kind: core.Reuse, Feasible: true},
			{ID: "grind", Target: pin, Kind: core.Rebuild, Feasible: true, Operations: []string{"plane"}, Steps: []string{"box:open", "bonnet-off"}},
			{ID: "replace", Target: pin, Kind: core.Replace, Feasible: true, Requires: []core.RemedyRef{{Target: cover, Remedy: "plane"}}},
			{ID: "reuse", Target: cover, Kind: core.Reuse, Feasible: true},
			{ID: "plane", Target: cover, Kind: core.Rebuild, Feasible: true, Operations: []string{"plane/1"}, ResidualChance: .1},
		},
		Operations: []core.Operation{{ID: "plane/1", Hours: core.Range3{Low: 1, Likely: 1, High: 2}, ServedPer: "piece"}},
	}
}

func TestAGoodSheetAndAGoodAnswerPassUnchanged(t *testing.T) {
	require.NoError(t, checkSheet("box", checkedSheet(), nil))
	a := checkedAnswer()
	require.NoError(t, checkAnswer(newIndex(checkedSheet()), checkedRequest(), &a))
	require.Equal(t, checkedAnswer(), a)
}

// Each rule of the contract ("# Answers" of subsystem.proto), broken once.
func TestAnAnswerThatBreaksARuleIsRefused(t *testing.T) {
	for what, breaks := range map[string]func(*core.Assessment){
		"pin: the chances sum to 0.9":                                        func(a *core.Assessment) { a.Conditions[0].States[0].Chance = .9 },
		"cover: a chance is -0.4, which is no chance":                        func(a *core.Assessment) { a.Conditions[1].States[0].Chance = -.4 },
		"answer.conditions[1].states[0].chance is NaN":                       func(a *core.Assessment) { a.Conditions[1].States[0].Chance = math.NaN() },
		"answer.operations[0].hours.high is +Inf":                            func(a *core.Assessment) { a.Operations[0].Hours.High = math.Inf(1) },
		"operation plane/1: hours is negative":                               func(a *core.Assessment) { a.Operations[0].Hours.Low = -1 },
		"operation plane/1: hours falls from low to high":                    func(a *core.Assessment) { a.Operations[0].Hours.Likely = 5 },
		"operation plane/1: outwork: -5 is negative money":                   func(a *core.Assessment) { a.Operations[0].Outwork = core.Money3{Likely: "-5", Currency: "USD"} },
		"operation plane/1: outwork: \"dear\" is no amount":                  func(a *core.Assessment) { a.Operations[0].Outwork = core.Money3{Likely: "dear", Currency: "USD"} },
		"operation plane/1: outwork: no currency \"\"":                       func(a *core.Assessment) { a.Operations[0].Outwork = core.Money3{Likely: "5"} },
		"operation plane/1 includes \"paint\", which does not exist":         func(a *core.Assessment) { a.Operations[0].Includes = []string{"paint"} },
		"operation plane/1: a negative count of bolt":                        func(a *core.Assessment) { a.Operations[0].Items = []core.Item{{Key: "bolt", Count: -1}} },
		"operation plane/1 is paid per \"moon\"":                             func(a *core.Assessment) { a.Operations[0].ServedPer = "moon" },
		"condition drum: drum is no part of its sheet":                       func(a *core.Assessment) { a.Conditions[1].Target.Part = "drum" },
		"cover has no condition":                                             func(a *core.Assessment) { a.Conditions = a.Conditions[:1] },
		"pin has two conditions":                                             func(a *core.Assessment) { a.Conditions = append(a.Conditions, a.Conditions[0]) },
		"pin has no grade":                                                   func(a *core.Assessment) { a.Conditions[0].Grade = core.GradeNone },
		"pin has no states":                                                  func(a *core.Assessment) { a.Conditions[0].States = nil },
		"pin has no remedy if it is worn, fit":                               func(a *core.Assessment) { a.Conditions[0].States[0].Remedies = nil },
		"pin: no remedy \"polish\"":                                          func(a *core.Assessment) { a.Conditions[0].States[0].Remedies = []string{"polish"} },
		"pin: no check \"colour\"":                                           func(a *core.Assessment) { a.Conditions[0].GoverningCheck = "colour" },
		"cover: no register row \"H9\"":                                      func(a *core.Assessment) { a.Conditions[1].States[1].RegisterID = "H9" },
		"remedy pin#grind: no operation \"paint\"":                           func(a *core.Assessment) { a.Remedies[1].Operations = []string{"paint"} },
		"remedy pin#grind: no step \"box:close\" in its sheet":               func(a *core.Assessment) { a.Remedies[1].Steps = []string{"box:close"} },
		"remedy pin#grind has no kind":                                       func(a *core.Assessment) { a.Remedies[1].Kind = "" },
		"remedy pin#grind stands there twice":                                func(a *core.Assessment) { a.Remedies[0].ID = "grind" },
		"remedy cover#plane: residual_chance is 1.5, which is no chance":     func(a *core.Assessment) { a.Remedies[4].ResidualChance = 1.5 },
		"remedy pin#replace names cover#paint, which does not exist":         func(a *core.Assessment) { a.Remedies[2].Requires[0].Remedy = "paint" },
		"remedy pin#replace requires or excludes itself":                     func(a *core.Assessment) { a.Remedies[2].Requires[0] = core.RemedyRef{Target: pin, Remedy: "replace"} },
		"remedy pin#replace requires another remedy of the same part":        func(a *core.Assessment) { a.Remedies[2].Requires[0] = core.RemedyRef{Target: pin, Remedy: "reuse"} },
		"cover has no remedy that is open":                                   func(a *core.Assessment) { a.Remedies[3].Feasible, a.Remedies[4].PinOnly = false, true },
		"finding f3 (cover warp) is neither used nor named in a problem":     func(a *core.Assessment) { a.Conditions[1].Reasons = nil },
		"cover: a reason names finding \"f9\", which is not of this request": func(a *core.Assessment) { a.Conditions[1].Reasons[0].FindingIDs[0] = "f9" },
		"a problem names finding \"f9\", which is not of this request": func(a *core.Assessment) {
			a.Problems = []core.Problem{{Severity: "note", Summary: "x", FindingID: "f9"}}
		},
		"a problem without severity or words": func(a *core.Assessment) { a.Problems = []core.Problem{{Summary: "x"}} },
		"a problem names drum, which is not in its sheet": func(a *core.Assessment) {
			a.Problems = []core.Problem{{Severity: "note", Summary: "x", Target: core.Target{Part: "drum"}}}
		},
		"pin is graded within new, but size 9.97 mm (finding f1) is worn, fit": func(a *core.Assessment) { a.Conditions[0].Grade = core.WithinNew },
	} {
		a := checkedAnswer()
		breaks(&a)
		err := checkAnswer(newIndex(checkedSheet()), checkedRequest(), &a)
		require.ErrorContains(t, err, what)
		require.Equal(t, core.Invalid, core.ErrorCode(err))
	}
}

func TestASheetThatContradictsItselfIsRefused(t *testing.T) {
	for what, breaks := range map[string]func(*core.Sheet){
		"its sheet says it is \"bax\"":                         func(s *core.Sheet) { s.Subsystem = "bax" },
		"part pin stands there twice":                          func(s *core.Sheet) { s.Parts = append(s.Parts, s.Parts[0]) },
		"part pin: check size stands there twice":              func(s *core.Sheet) { s.Parts[0].Checks[1].ID = "size" },
		"part pin: check size has no kind":                     func(s *core.Sheet) { s.Parts[0].Checks[0].Kind = "" },
		"part pin: check size has a limit without a source":    func(s *core.Sheet) { s.Parts[0].Checks[0].Limit.Source = "" },
		"part pin: check size has a negative figure":           func(s *core.Sheet) { s.Parts[0].Checks[0].Minutes = -1 },
		"part pin: a life of -5 with a spread of 0.5":          func(s *core.Sheet) { s.Parts[0].Life.Typical = -5 },
		"part pin: outlook: the chances sum to 0.5":            func(s *core.Sheet) { s.Parts[0].Outlook = []core.State{{Chance: .5, Grade: core.WornFit}} },
		"sheet.parts[0].checks[0].limit.wear_low is NaN":       func(s *core.Sheet) { s.Parts[0].Checks[0].Limit.WearLow = new(math.NaN()) },
		"no-reuse rule N1: no part \"drum\"":                   func(s *core.Sheet) { s.NoReuse[0].Part = "drum" },
		"no-reuse rule N1: pin has no check \"colour\"":        func(s *core.Sheet) { s.NoReuse[0].Check = "colour" },
		"no-reuse rule N1 allows [\"reuse\"]":                  func(s *core.Sheet) { s.NoReuse[0].Allowed = []core.RemedyKind{core.Reuse} },
		"register row H1: the chance is 7, which is no chance": func(s *core.Sheet) { s.Hidden[0].Chance = 7 },
		"register row H1: no operation \"paint\"":              func(s *core.Sheet) { s.Hidden[0].Operations = []string{"paint"} },
		"set S1: no part drum in its sheet":                    func(s *core.Sheet) { s.Sets[0].Members[0].Part = "drum" },
		"set S1 has not exactly one rule":                      func(s *core.Sheet) { s.Sets[0].AgreeOn = "size" },
		"step open does not begin with box:":                   func(s *core.Sheet) { s.Steps[0].ID = "open" },
		"operation plane: outwork: -40 is negative money":      func(s *core.Sheet) { s.Operations[0].Outwork.Likely = "-40" },
		"step box:open: strip_hours is negative; ":             func(s *core.Sheet) { s.Steps[0].StripHours.Low = -1; s.OutlookWeight = -1 },
	} {
		s := checkedSheet()
		breaks(&s)
		require.ErrorContains(t, checkSheet("box", s, nil), what)
	}
}

func TestEachReadingOfASafetyCriticalPartBindsItsGrade(t *testing.T) {
	mm := func(x, bound float64) core.Value {
		return core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: x, Unit: "mm", Bound: bound}}
	}
	for _, c := range []struct {
		check string
		value core.Value
		what  string
	}{
		{"size", mm(9.8, 0), "size 9.8 mm (finding f4) is past limit"},
		{"size", core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: 9.8 / 25.4, Unit: "in"}}, "is past limit"},
		{"size", mm(9.905, .05), "is measure again"},
		{"size", mm(9.93, 0), "is near limit"},
		{"crack", core.Value{Kind: core.ValuePass}, "crack fails (finding f4) is failed"},
		{"pits", core.Value{Kind: core.ValueClass, Class: 2}, "pits class 2 (finding f4) is failed"},
		{"nicks", core.Value{Kind: core.ValueCount, Count: 3}, "nicks 3 (finding f4) is past limit"},
		{"size", core.Value{Kind: core.ValueNotRead, NotRead: core.PartMissing}, "size missing (finding f4) is missing"},
	} {
		req, a := checkedRequest(), checkedAnswer()
		req.Findings = append(req.Findings, core.Finding{ID: "f4", Target: pin, Check: c.check, Value: c.value})
		a.Conditions[0].Reasons[0].FindingIDs = append(a.Conditions[0].Reasons[0].FindingIDs, "f4")
		require.ErrorContains(t, checkAnswer(newIndex(checkedSheet()), req, &a), "pin is graded worn, fit, but "+c.check)
		require.ErrorContains(t, checkAnswer(newIndex(checkedSheet()), req, &a), c.what)
	}
}

func TestASafetyCriticalPartWithABlankIsNotSeen(t *testing.T) {
	for _, missing := range []string{"size", "crack"} {
		req, a := checkedRequest(), checkedAnswer()
		for i := range req.Findings {
			if req.Findings[i].Check == missing {
				req.Findings[i].Value = core.Value{Kind: core.ValueNotRead, NotRead: core.CouldNotReach}
			}
		}
		require.ErrorContains(t, checkAnswer(newIndex(checkedSheet()), req, &a), "pin is graded worn, fit, but "+missing+" was not read")
	}
}

// A size that the plugin judges by another size of the same part is read; by anything else it is not.
func TestASizeMayBeReadAsAnotherOfThePart(t *testing.T) {
	req, a := checkedRequest(), checkedAnswer()
	other := core.Finding{ID: "f9", Target: pin, Check: "wall", Value: core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: 9.97, Unit: "mm"}}}
	sheet := checkedSheet()
	sheet.Parts[0].Checks = append(sheet.Parts[0].Checks, core.Check{ID: "wall", Name: "wall", Kind: core.Measured, Unit: "mm"})
	for i := range req.Findings {
		if req.Findings[i].Check == "size" {
			req.Findings[i].Value = core.Value{Kind: core.ValueNotRead, NotRead: core.NotMeasured}
		}
	}
	req.Findings = append(req.Findings, other)
	a.Conditions[0].Reasons = append(a.Conditions[0].Reasons, core.Reason{Text: "wall 9.97 mm", Check: "wall", FindingIDs: []string{"f9"}})
	require.ErrorContains(t, checkAnswer(newIndex(sheet), req, &a), "but size was not read")
	a.Conditions[0].Reasons = append(a.Conditions[0].Reasons, core.Reason{Text: "size by its wall, 9.97 mm", Check: "size", FindingIDs: []string{"f9"}})
	require.NoError(t, checkAnswer(newIndex(sheet), req, &a))
}

func TestAnOverrideIsTheLimitThatBinds(t *testing.T) {
	req, a := checkedRequest(), checkedAnswer()
	req.Overrides = []core.Override{{Target: pin, Check: "size", Limit: core.Limit{NewLow: new(9.999), NewHigh: new(10.0), WearLow: new(9.99), Unit: "mm", Source: "manual"}}}
	require.ErrorContains(t, checkAnswer(newIndex(checkedSheet()), req, &a), "size 9.97 mm (finding f1) is past limit")
}

func TestAReadingNamedAsUnusableDoesNotBind(t *testing.T) {
	req, a := checkedRequest(), checkedAnswer()
	req.Findings = append(req.Findings, core.Finding{ID: "f4", Target: pin, Check: "size",
		Value: core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: 1, Unit: "mm"}}})
	a.Problems = []core.Problem{{Severity: core.SeverityError, Summary: "1 mm is not plausible", FindingID: "f4"}}
	require.NoError(t, checkAnswer(newIndex(checkedSheet()), req, &a))
}

// A crack closes everything but replacement, whatever the plugin says (rule N1 of the sheet above).
func TestTheHostClosesWhatANoReuseRuleCloses(t *testing.T) {
	req, a := checkedRequest(), checkedAnswer()
	req.Findings[1].Value.Pass = false
	a.Conditions[0].Grade = core.Failed
	a.Conditions[0].States[0].Grade = core.Failed
	require.NoError(t, checkAnswer(newIndex(checkedSheet()), req, &a))
	require.False(t, a.Remedies[0].Feasible)
	require.False(t, a.Remedies[1].Feasible)
	require.True(t, a.Remedies[2].Feasible)
	require.Equal(t, "N1", a.Remedies[1].Why[0].Rule)
	require.Equal(t, []string{"f2"}, a.Remedies[1].Why[0].FindingIDs)
	require.Equal(t, []string{"replace"}, a.Conditions[0].States[0].Remedies)
	require.Equal(t, "the host closed what the plugin had left open: rule N1: crack is fails", a.Problems[0].Summary)
	require.Len(t, a.Problems, 1)
	again := a
	require.NoError(t, checkAnswer(newIndex(checkedSheet()), req, &again))
	require.Len(t, again.Problems, 1, "what is closed already is not told twice")
}

func TestAStateThatTheRulesLeaveNothingForIsAFault(t *testing.T) {
	req, a := checkedRequest(), checkedAnswer()
	req.Findings[1].Value.Pass = false
	a.Conditions[0].Grade = core.Failed
	a.Conditions[0].States[0] = core.State{Chance: 1, Grade: core.Failed, Remedies: []string{"grind"}}
	require.ErrorContains(t, checkAnswer(newIndex(checkedSheet()), req, &a), "pin keeps no remedy if it is failed once the rules are applied")
}

// Reuse is closed by a grade that rules it out: for a safety-critical part also near its limit.
func TestTheHostClosesReuseThatAGradeRulesOut(t *testing.T) {
	req, a := checkedRequest(), checkedAnswer()
	a.Conditions[0].Grade, a.Conditions[0].States[0].Grade = core.NearLimit, core.NearLimit
	require.NoError(t, checkAnswer(newIndex(checkedSheet()), req, &a))
	require.False(t, a.Remedies[0].Feasible)
	require.Equal(t, []string{"grind", "replace"}, a.Conditions[0].States[0].Remedies)
	require.True(t, a.Remedies[3].Feasible, "an ordinary part near its limit may be reused")

	a = checkedAnswer()
	a.Conditions[1].Grade, a.Conditions[1].PPast = core.MeasureAgain, new(.6)
	require.NoError(t, checkAnswer(newIndex(checkedSheet()), req, &a))
	require.False(t, a.Remedies[3].Feasible, "more likely past its limit than not")
	require.Equal(t, []string{"reuse", "plane"}, a.Conditions[1].States[0].Remedies, "it may yet turn out well")
}

func TestEachTriggerOfANoReuseRule(t *testing.T) {
	c := newAnswerCheck(newIndex(checkedSheet()), core.AssessRequest{}, &core.Assessment{})
	count := func(n int) core.Value { return core.Value{Kind: core.ValueCount, Count: n} }
	class := func(n int) core.Value { return core.Value{Kind: core.ValueClass, Class: n} }
	missing := core.Value{Kind: core.ValueNotRead, NotRead: core.PartMissing}
	past := core.Value{Kind: core.ValueWord, Word: "past limit"}
	for _, x := range []struct {
		trigger, value core.Value
		check          string
		fires          bool
	}{
		{count(1), count(0), "nicks", false}, {count(1), count(1), "nicks", true}, {count(1), count(9), "nicks", true},
		{class(2), class(1), "pits", false}, {class(2), class(3), "pits", true}, {class(2), count(3), "pits", false},
		{missing, missing, "size", true}, {missing, core.Value{Kind: core.ValueNotRead, NotRead: core.NotMeasured}, "size", false},
		{past, core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: 9.8, Unit: "mm"}}, "size", true},
		{past, core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: 9.97, Unit: "mm"}}, "size", false},
	} {
		f := core.Finding{Target: pin, Check: x.check, Value: x.value}
		require.Equal(t, x.fires, c.fires(core.NoReuse{Trigger: x.trigger}, &f), "%v by %v", x.trigger, x.value)
	}
	sheet := checkedSheet()
	sheet.Parts[0].Checks[0].Kind = core.Derived
	c = newAnswerCheck(newIndex(sheet), core.AssessRequest{}, &core.Assessment{})
	station := core.Finding{Target: pin, Check: "size", Station: "bore", Value: core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: 9.8, Unit: "mm"}}}
	require.False(t, c.fires(core.NoReuse{Trigger: past}, &station), "one station of a derived check is not its result")
}
