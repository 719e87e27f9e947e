package sdktest

import (
	"context"
	"errors"
	"math"
	"slices"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

// fake is a small sound subsystem, written out by hand, and the ways in which it can be unsound.
type fake struct {
	sheet core.Sheet
	calls int
	asked []core.Finding // of the last request

	ignoreUnits  bool                                  // reads every number in the check's unit
	ignoreBounds bool                                  // takes every instrument for perfect
	firstWins    bool                                  // of two readings keeps the first
	bestWins     bool                                  // of two readings keeps the better
	silent       bool                                  // drops what it cannot use without a word
	anyKind      bool                                  // takes a value of another kind for a pass
	blankPass    bool                                  // takes a check that is not read for a pass
	deaf         bool                                  // to overrides
	needsFacts   bool                                  // fails without them
	noRules      bool                                  // leaves its no-reuse rules to others
	judge        func(core.Check, float64) *core.Grade // overrules the grade of one reading
	spoil        func(*fake, *core.Assessment)         // changes the finished answer
	fail         error
}

func limit(unit string, newLow, newHigh float64, wearHigh *float64) core.Limit {
	return core.Limit{NewLow: &newLow, NewHigh: &newHigh, WearHigh: wearHigh, Unit: unit, Source: "common practice, no source", Confidence: "medium", Origin: "sheet"}
}

// newFake has a safety-critical shaft at two positions, a gear and a one-use seal.
func newFake() *fake {
	const practice = "common practice, no source"
	stub := core.Check{ID: "diameter", Kind: core.Measured, Unit: "in", Stations: []string{"V", "H"}, NeededForReuse: true, Minutes: 2,
		Limit:        core.Limit{NewLow: new(1.2495), NewHigh: new(1.25), WearLow: new(1.2475), Unit: "in", Source: practice, Confidence: "medium"},
		PlausibleLow: new(1.2), PlausibleHigh: new(1.26)}
	oor := core.Check{ID: "out-of-round", Kind: core.Derived, Unit: "in", Stations: []string{"V", "H"}, Formula: "abs(V - H)", Limit: limit("in", 0, .0005, new(.001))}
	crack := core.Check{ID: "crack", Kind: core.GoNoGo, Unit: "pass/fail", NeededForReuse: true, Limit: core.Limit{Source: practice, Confidence: "high"}}
	lash := core.Check{ID: "backlash", Kind: core.Measured, Unit: "in", NeededForReuse: true, TwoSided: true, Limit: limit("in", .004, .008, new(.014)),
		PlausibleLow: new(0.0), PlausibleHigh: new(.06)}
	teeth := core.Check{ID: "teeth", Kind: core.Judged, Unit: "class 0-3", NeededForReuse: true,
		Limit: core.Limit{WorstClass: new(1), Unit: "class 0-3", Source: practice, Confidence: "high"}}
	chips := core.Check{ID: "chips", Kind: core.Counted, Unit: "count", Limit: limit("count", 0, 0, new(2.0))}
	seal := core.Check{ID: "always-new", Kind: core.OneUse, Unit: "count", Limit: core.Limit{Source: practice, Confidence: "high"}}
	replace := []core.RemedyKind{core.Replace}
	return &fake{sheet: core.Sheet{
		Subsystem: "fake", Title: "A shaft and a gear", Version: "1.0", UnitKind: "gearbox",
		Parts: []core.Part{
			{ID: "shaft", Positions: []string{"A", "B"}, SafetyCritical: true, Checks: []core.Check{stub, oor, crack}, Reach: []string{"fake:open"},
				Life: &core.Life{Typical: 200000, Unit: "km", Sigma: .5, Source: practice}},
			{ID: "gear", Checks: []core.Check{lash, teeth, chips}, Reach: []string{"fake:open", "box-out"}},
			{ID: "seal", OneUse: true, Checks: []core.Check{seal}},
		},
		Steps: []core.Step{{ID: "fake:open", StripHours: core.Range3{Low: 1, Likely: 2, High: 3}}},
		Sets:  []core.Set{{ID: "M1", Members: []core.Target{{Part: "shaft", Position: "A"}, {Part: "shaft", Position: "B"}}, SameKind: true}},
		NoReuse: []core.NoReuse{
			{ID: "N1", Part: "shaft", Check: "crack", Trigger: passes(false), Allowed: replace, Source: practice},
			{ID: "N2", Part: "gear", Check: "teeth", Trigger: class(2), Allowed: replace, Source: practice},
			{ID: "N3", Part: "gear", Check: "backlash", Trigger: core.Value{Kind: core.ValueWord, Word: "past limit"}, Allowed: replace, Source: practice},
			{ID: "N4", Part: "gear", Check: "chips", Trigger: core.Value{Kind: core.ValueCount, Count: 2}, Allowed: replace, Source: practice},
			{ID: "N5", Part: "gear", Trigger: notRead(core.PartMissing), Allowed: replace, Source: practice},
			{ID: "N6", Part: "seal", Trigger: notRead(core.PartMissing), Allowed: replace, Source: practice},
		},
		Hidden: []core.Hidden{{ID: "H1", Name: "worn gear", Chance: .3, Parts: []core.Target{{Part: "gear"}}}},
		Operations: []core.Operation{
			{ID: "grind", Hours: core.Range3{Low: 1, Likely: 2, High: 4}},
			{ID: "fit-new", Hours: core.Range3{Low: 1, Likely: 1, High: 2}, Includes: []string{"grind"},
				Items: []core.Item{{Key: "kit", Count: 1, TypicalEach: core.Money3{Low: "10", Likely: "12.50", High: "20", Currency: "USD"}}}},
		},
		Cautions: []core.Caution{{Text: "It is heavy.", Part: "shaft", Source: practice}},
	}}
}

func (f *fake) Describe(_ context.Context, facts []core.Fact) (core.Sheet, []core.Problem, error) {
	if f.needsFacts && len(facts) == 0 {
		return core.Sheet{}, nil, errors.New("no facts")
	}
	return f.sheet, nil, nil
}

func (f *fake) Assess(_ context.Context, req core.AssessRequest) (core.Assessment, error) {
	f.calls++
	f.asked = req.Findings
	a := core.Assessment{Operations: f.sheet.Operations}
	fs := req.Findings
	if !f.firstWins {
		fs = slices.SortedStableFunc(slices.Values(fs), func(a, b core.Finding) int { return compareIDs(a.ID, b.ID) })
	}
	used := map[string]bool{}
	for _, p := range f.sheet.Parts {
		for _, t := range p.Targets() {
			c, rs := f.part(f.overridden(p, t, req.Overrides), t, fs, used)
			a.Conditions = append(a.Conditions, c)
			a.Remedies = append(a.Remedies, rs...)
		}
	}
	for _, x := range fs {
		if !used[x.ID] && !f.silent {
			a.Problems = append(a.Problems, core.Problem{Severity: core.SeverityWarning, Summary: "cannot be used", FindingID: x.ID, Target: x.Target, Check: x.Check})
		}
	}
	if f.spoil != nil {
		f.spoil(f, &a)
	}
	return a, f.fail
}

// overridden gives a part its limits for one target.
func (f *fake) overridden(p core.Part, t core.Target, os []core.Override) *core.Part {
	p.Checks = slices.Clone(p.Checks)
	for i, c := range p.Checks {
		for _, o := range os {
			if o.Check == c.ID && (o.Target == t || o.Target == core.Target{Part: p.ID}) && !f.deaf {
				p.Checks[i].Limit = o.Limit
			}
		}
	}
	return &p
}

func compareIDs(a, b string) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

// part grades one target and opens its remedies.
func (f *fake) part(p *core.Part, t core.Target, fs []core.Finding, used map[string]bool) (core.Condition, []core.Remedy) {
	c := core.Condition{Target: t, Grade: core.WithinNew}
	if p.OneUse {
		c.Grade = core.WornFit
	}
	allowed := []core.RemedyKind{core.Rebuild, core.Replace}
	notSeen := false
	for _, check := range p.Checks {
		if check.Kind == core.OneUse {
			continue
		}
		reading, seen := f.check(check, t, fs, used, &c)
		notSeen = notSeen || !seen && check.NeededForReuse && !f.blankPass
		if reading.Grade > c.Grade || c.GoverningCheck == "" && seen {
			c.Grade, c.Wear, c.WearU, c.PPast, c.GoverningCheck = reading.Grade, reading.Wear, reading.WearU, reading.PPast, check.ID
		}
		if rule := f.fired(p.ID, check, reading, fs, t); rule != nil && !f.noRules {
			c.Grade, allowed = max(c.Grade, core.Failed), rule.Allowed
		}
	}
	if c.Grade == core.Missing {
		allowed = []core.RemedyKind{core.Replace}
	}
	if len(c.Reasons) == 0 {
		c.Reasons = []core.Reason{{Text: "no reading"}}
	}
	if notSeen && c.Grade < core.NotSeen {
		c.Grade, c.Wear, c.WearU, c.PPast = core.NotSeen, nil, nil, nil
	}
	return c, f.remedies(p, &c, allowed)
}

// check takes the worst of a check's readings.
func (f *fake) check(check core.Check, t core.Target, fs []core.Finding, used map[string]bool, c *core.Condition) (worst sdk.Judgement, seen bool) {
	stations := map[string]bool{}
	for _, x := range fs {
		if x.Target != t || x.Check != check.ID || !slices.Contains(stationsOf(check), x.Station) {
			continue
		}
		if x.Value.Kind == core.ValueNotRead {
			used[x.ID] = true
			c.Reasons = append(c.Reasons, core.Reason{Text: string(x.Value.NotRead), FindingIDs: []string{x.ID}, Check: check.ID})
			if x.Value.NotRead == core.PartMissing {
				worst = sdk.Judgement{Grade: core.Missing}
			}
			continue
		}
		j, ok := f.reading(check, x.Value)
		if !ok {
			continue
		}
		used[x.ID] = true
		c.Reasons = append(c.Reasons, core.Reason{Text: j.Words, FindingIDs: []string{x.ID}, Check: check.ID, Source: check.Limit.Source})
		again := stations[x.Station]
		stations[x.Station] = true
		switch {
		case again && f.firstWins:
		case again && f.bestWins && j.Grade < worst.Grade:
			worst = j
		case again && f.bestWins:
		case worst.Grade == core.GradeNone || j.Grade > worst.Grade:
			worst = j
		}
	}
	return worst, len(stations) == len(stationsOf(check))
}

// reading judges one value; ok is false if the check cannot use it.
func (f *fake) reading(check core.Check, v core.Value) (sdk.Judgement, bool) {
	x, u := 0.0, 0.0
	switch {
	case v.Kind == core.ValueQuantity && (check.Kind == core.Measured || check.Kind == core.Derived):
		q, err := v.Quantity.In(check.Unit)
		if f.ignoreUnits {
			q, err = v.Quantity, nil
		}
		if err != nil || math.IsNaN(q.Value) {
			return sdk.Judgement{}, false
		}
		if x, u = q.Value, sdk.StandardUncertainty(q.Bound); f.ignoreBounds {
			u = 0
		}
	case v.Kind == core.ValueCount && check.Kind == core.Counted && v.Count >= 0:
		x = float64(v.Count)
	case v.Kind == core.ValueClass && check.Kind == core.Judged && v.Class <= 3:
		x = float64(v.Class)
	case v.Kind == core.ValuePass && check.Kind == core.GoNoGo:
		if v.Pass {
			x = 1
		}
	case f.anyKind:
		return sdk.Judgement{Grade: core.WithinNew}, true
	default:
		return sdk.Judgement{}, false
	}
	j := sdk.Judge(x, u, check.Limit, check.Kind, check.TwoSided)
	if f.judge != nil {
		if g := f.judge(check, x); g != nil {
			j.Grade, j.PPast = *g, nil
		}
	}
	return j, true
}

// fired finds the rule that a check's readings set off.
func (f *fake) fired(part string, check core.Check, worst sdk.Judgement, fs []core.Finding, t core.Target) *core.NoReuse {
	for i, n := range f.sheet.NoReuse {
		if n.Part != part || n.Check != check.ID {
			continue
		}
		for _, x := range fs {
			if x.Target != t || x.Check != check.ID {
				continue
			}
			fires := n.Trigger.Kind == core.ValuePass && x.Value.Kind == core.ValuePass && check.Kind == core.GoNoGo && !x.Value.Pass ||
				n.Trigger.Kind == core.ValueClass && x.Value.Kind == core.ValueClass && check.Kind == core.Judged && x.Value.Class >= n.Trigger.Class && x.Value.Class <= 3 ||
				n.Trigger.Kind == core.ValueCount && x.Value.Kind == core.ValueCount && check.Kind == core.Counted && x.Value.Count >= n.Trigger.Count ||
				n.Trigger.Kind == core.ValueWord && worst.Grade == core.PastLimit
			if fires {
				return &f.sheet.NoReuse[i]
			}
		}
	}
	return nil
}

// remedies opens reuse, rebuild and replace, and fills the states.
func (f *fake) remedies(p *core.Part, c *core.Condition, allowed []core.RemedyKind) []core.Remedy {
	closed := c.Grade.ClosesReuse(p.SafetyCritical) || p.OneUse || c.Grade == core.MeasureAgain && (c.PPast == nil || *c.PPast >= .5)
	rs := []core.Remedy{
		{ID: "reuse", Kind: core.Reuse, Feasible: !closed},
		{ID: "rebuild", Kind: core.Rebuild, Feasible: !p.OneUse && slices.Contains(allowed, core.Rebuild), Operations: []string{"grind"}},
		{ID: "replace", Kind: core.Replace, Feasible: slices.Contains(allowed, core.Replace), Operations: []string{"fit-new"}, Steps: []string{"fake:open"}},
	}
	var ids []string
	for i := range rs {
		rs[i].Target = c.Target
		if rs[i].Feasible {
			ids = append(ids, rs[i].ID)
		} else {
			rs[i].Why = []core.Reason{{Text: c.Grade.String()}}
		}
	}
	c.States = []core.State{{Chance: 1, Grade: c.Grade, Remedies: ids}}
	if c.Grade == core.NotSeen {
		c.States = []core.State{
			{Chance: .7, Grade: core.WornFit, Remedies: []string{"reuse", "rebuild", "replace"}},
			{Chance: .3, Grade: core.PastLimit, Remedies: []string{"rebuild", "replace"}, RegisterID: "H1"},
		}
	}
	if p := c.PPast; c.Grade == core.MeasureAgain && p != nil && *p > .05 {
		open := []string{"rebuild", "replace"}
		c.States = []core.State{{Chance: 1 - *p, Grade: core.NearLimit, Remedies: append(open, "reuse")}, {Chance: *p, Grade: core.PastLimit, Remedies: open}}
	}
	return rs
}
