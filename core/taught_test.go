package core

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// A row is settled by one part past its limit, or by all its parts seen and none past it. A part that straddles, or is not seen, leaves it open; a
// part that is missing says nothing, and one that is always new is never looked at.
func TestWhatSettlesARow(t *testing.T) {
	part := func(id, row string, oneUse bool) Part {
		return Part{ID: id, OneUse: oneUse, Positions: []string{"1", "2"}, Outlook: []State{{Chance: .5, Grade: WornFit}, {Chance: .5, Grade: PastLimit, RegisterID: row}}}
	}
	sheet := Sheet{Parts: []Part{part("pin", "H01", false), part("shell", "H01", true), part("bore", "H02", false)},
		Hidden: []Hidden{{ID: "H01", Parts: []Target{{"pin", "1"}, {"pin", "2"}, {"shell", "1"}}}, {ID: "H02", Parts: []Target{{"bore", "1"}, {"bore", "2"}}}}}
	at := func(part, position string, g Grade) Condition {
		c := Condition{Target: Target{part, position}, Grade: g, ReadingsTaken: 1, States: []State{{Chance: 1, Grade: g}}}
		switch g {
		case NotSeen:
			c.ReadingsTaken, c.States = 0, []State{{}, {}}
		case MeasureAgain:
			c.States = []State{{}, {}}
		case Missing:
			c.ReadingsTaken = 0
		}
		return c
	}
	for _, x := range []struct {
		name           string
		one, two       Grade
		seen, happened bool
	}{
		{"both fit", WornFit, WithinNew, true, false},
		{"one past its limit, the other not looked at", PastLimit, NotSeen, true, true},
		{"one fit, one failed", WornFit, Failed, true, true},
		{"one fit, the other not looked at", WornFit, NotSeen, false, false},
		{"one fit, the other on either side", WornFit, MeasureAgain, false, false},
		{"neither looked at", NotSeen, NotSeen, false, false},
		{"one fit, the other not there", WornFit, Missing, true, false},
		{"neither there", Missing, Missing, false, false},
	} {
		s := UnitSheet{Sheet: sheet, Assessment: Assessment{Conditions: []Condition{at("pin", "1", x.one), at("pin", "2", x.two), at("shell", "1", PastLimit), at("bore", "1", NotSeen), at("bore", "2", NotSeen)}}}
		seen, happened := settledRows(s)
		require.Equal(t, x.seen, len(seen) == 1, x.name)
		require.Equal(t, x.happened, len(happened) == 1, x.name)
	}
}

// worked is a job whose scope is agreed: an overhaul of 6 to 12 h, likely 9 (mean 9), a pair in reserve of 2 h, a step's refit of 2 h; a step of 3 h is done.
func workedStory(t *testing.T, acts ...Act) (*Story, []StripStep) {
	same := func(h float64) Range3 { return Range3{h, h, h} }
	s := &Story{Job: Job{Number: "J-001", State: StateEnquiry, Owner: Party{Name: "O. Wner"}}}
	s.Papers = []Issued{{Kind: "scope", Number: "J-001-S", Revision: 1, At: agreedOn, Total: dollars(2000), Lines: []Line{
		{ID: "work:gearbox@gearbox:overhaul", Kind: LineWork, Subsystem: "gearbox", Name: "Full overhaul", Skill: "mechanic", Hours: Range3{6, 9, 12}, Amount: dollars(1000), Remedies: []string{"new"}},
		{ID: "work:gearbox@gearbox:weld-case", Kind: LineWork, Subsystem: "gearbox", Name: "Weld", Skill: "welder", Hours: same(1), Amount: dollars(100)},
		{ID: "refit:gearbox-out", Kind: LineRefit, Name: "Refit: Gearbox out", Skill: "mechanic", Hours: same(2), Amount: dollars(200)},
		{ID: "reserve:gearbox@gearbox:replace-gear-pair/third", Kind: LineReserve, Subsystem: "gearbox", Name: "Reserve: Replace one gear pair (third)", Skill: "mechanic", Hours: same(2), Amount: dollars(300)},
	}}}
	doing(t, s, &Move{To: StateScopeOut}, &Agreement{Gate: GateBudget, Paper: "J-001-S", Revision: 1, Who: "O. Wner", How: "signed", Sum: dollars(2000)})
	doing(t, s, &StepDone{Step: "gearbox-out", Is: StepIsDone, Hours: 4})
	doing(t, s, acts...)
	step := StripStep{PlannedStep: PlannedStep{Step: Step{ID: "gearbox-out", Name: "Gearbox out", Skill: "mechanic", StripHours: same(3)}}, Key: "gearbox-out", Is: StepIsDone}
	return s, []StripStep{step}
}

func hoursOn(line, task string, hours float64, rate int64) *Worked {
	return &Worked{Who: "Jory", Task: task, Line: line, Hours: hours, Rate: dollars(rate)}
}

// Like is held against like: 12 h on the overhaul of 9, 4 on the step of 3, 3 on a pair of 2 that was only held in reserve; an hour on words, and
// the weld and the refit that no hours are written on, are left out. (12 + 4 + 3) / (9 + 3 + 2) = 19 / 14.
func TestHoursAreHeldAgainstTheSameWork(t *testing.T) {
	s, steps := workedStory(t, hoursOn("work:gearbox@gearbox:overhaul", "overhaul", 13, 85), hoursOn("work:gearbox@gearbox:overhaul", "overhaul", -1, 85),
		hoursOn("", "Gearbox out", 4, 85), hoursOn("work:gearbox@gearbox:replace-gear-pair/third", "pair", 3, 85), hoursOn("", "sorting the boxes", 1, 85))
	work, why := s.workTaught(steps)
	require.Empty(t, why)
	taught, reckoning := (&Planner{}).Teach(t.Context(), PlanRequest{Strip: StripPlan{Steps: []Step{steps[0].Step}}, Job: Job{Vehicle: &Vehicle{}}}, *s, nil)
	require.Equal(t, work, reckoning.Work)
	ratio, ok := taught.Ratio()
	require.True(t, ok)
	require.InDelta(t, 19.0/14, ratio, 1e-12)
	require.Equal(t, WorkTaught{Work: "gearbox:overhaul", Name: "Full overhaul", Subsystem: "gearbox", Skill: "mechanic", Remedies: []string{"new"}, Lines: 1, Likely: 9, Expected: 9, Hours: 12}, work[0])
	require.Equal(t, WorkTaught{Work: "strip:gearbox-out", Name: "Strip: Gearbox out", Skill: "mechanic", Lines: 1, Likely: 3, Expected: 3, Hours: 4}, work[1])
	require.Equal(t, WorkTaught{Work: "gearbox:replace-gear-pair", Name: "Replace one gear pair", Subsystem: "gearbox", Skill: "mechanic", Lines: 1, Likely: 2, Expected: 2, Hours: 3}, work[2])

	closed := func(no string, work ...WorkTaught) Story {
		return Story{Handover: &Handover{Taught: &Taught{Hours: 1, Expected: 1, NoHours: no}}, Reckoning: &Reckoning{Work: work}}
	}
	pieces, skills, subsystems := TallyUp([]Story{closed("", work...), closed("", work[0]), closed("it was stopped", work...), {Handover: &Handover{}}, {}})
	require.Equal(t, Tally{Of: "gearbox:overhaul", Name: "Full overhaul", Subsystem: "gearbox", Remedies: []string{"new"}, Jobs: 2, Lines: 2, Likely: 18, Expected: 18, Hours: 24, Ratio: 24.0 / 18}, pieces[0])
	require.Len(t, pieces, 3)
	require.Equal(t, []Tally{{Of: "mechanic", Jobs: 2, Lines: 4, Likely: 23, Expected: 23, Hours: 31, Ratio: 31.0 / 23}}, skills)
	require.Equal(t, []string{"", "gearbox"}, []string{subsystems[0].Of, subsystems[1].Of})
	require.Equal(t, 1, subsystems[0].Jobs)
}

// Hours that cannot be gone by teach nothing, and say why.
func TestHoursThatTeachNothingSayWhy(t *testing.T) {
	overhaul := "work:gearbox@gearbox:overhaul"
	for _, x := range []struct {
		says string
		acts []Act
	}{
		{"no hours are written on what was agreed to", []Act{hoursOn("", "sorting the boxes", 9, 85)}},
		{"hours are written on 3 of the 15 h that were expected: too little to go by", []Act{hoursOn("", "Gearbox out", 3, 85)}},
		{"60 h where 9 were expected: more than 4 times apart", []Act{hoursOn(overhaul, "x", 24, 85), hoursOn(overhaul, "x", 24, 85), hoursOn(overhaul, "x", 12, 85)}},
		{"1 h where 9 were expected: more than 4 times apart", []Act{hoursOn(overhaul, "x", 1, 85)}},
		{"the job was stopped", []Act{hoursOn(overhaul, "x", 9, 85), &Move{To: StateStopped, Why: "the owner is away"}}},
	} {
		s, steps := workedStory(t, x.acts...)
		_, why := s.workTaught(steps)
		require.Contains(t, why, x.says)
	}
	none := &Story{}
	_, why := none.workTaught(nil)
	require.Contains(t, why, "nothing was agreed to")
}

// Work that somebody did for nothing beside others who are charged for is not the shop's pace. Where nobody is charged for, it is the shop's own.
func TestHoursOfVolunteersTeachNothing(t *testing.T) {
	overhaul := "work:gearbox@gearbox:overhaul"
	s, steps := workedStory(t, hoursOn(overhaul, "x", 18, 0), hoursOn("refit:gearbox-out", "y", 2, 85), hoursOn("", "Gearbox out", 3, 85))
	work, why := s.workTaught(steps)
	require.Empty(t, why, "5 of the 6 h that are the shop's")
	require.Equal(t, []string{"refit:gearbox-out", "strip:gearbox-out"}, []string{work[0].Work, work[1].Work})
	s, steps = workedStory(t, hoursOn(overhaul, "x", 18, 0))
	work, why = s.workTaught(steps)
	require.Empty(t, why)
	require.Equal(t, 18.0, work[0].Hours)
}

// What a job came to is held against its scope: without the step that was done before it, with what was refused at its expected amount.
func TestMoneyIsHeldAgainstTheScope(t *testing.T) {
	scopes := func(s *Story) []ScopeBudget {
		return []ScopeBudget{{Number: "J-001-S", Revision: 1, Budget: Budget{Expected: dollars(1600), P50: dollars(1550), P80: dollars(1900), P90: dollars(2100)}}}
	}
	overhaul := "work:gearbox@gearbox:overhaul"
	s, steps := workedStory(t, hoursOn(overhaul, "x", 12, 100), hoursOn("", "Gearbox out", 4, 100))
	first, last, why := s.moneyTaught(steps, scopes(s))
	require.Empty(t, why)
	require.Equal(t, first, last)
	require.Equal(t, "1200.00", first.Came.Number(), "the step is in no sum of the scope")
	s.Papers[0].Lines = append(s.Papers[0].Lines, Line{ID: "strip:gearbox-out", Kind: LineStrip, Name: "Strip: Gearbox out"})
	first, _, _ = s.moneyTaught(steps, scopes(s))
	require.Equal(t, "1600.00", first.Came.Number(), "this scope priced it")
	s.Agreements[0].Refused = []string{"reserve:gearbox@gearbox:replace-gear-pair/third"}
	first, _, _ = s.moneyTaught(steps, scopes(s))
	require.Equal(t, "1900.00", first.Came.Number(), "as though it had been done at what was expected")

	s, steps = workedStory(t, hoursOn(overhaul, "x", 6, 100))
	_, _, why = s.moneyTaught(steps, scopes(s))
	require.Contains(t, why, "the book shows 600.00 USD spent where 1300.00 USD were sure to be")
	doing(t, s, &Move{To: StateStopped, Why: "the owner is away"})
	_, _, why = s.moneyTaught(steps, scopes(s))
	require.Contains(t, why, "stopped")
	_, _, why = (&Story{}).moneyTaught(nil, nil)
	require.Contains(t, why, "no scope was agreed to")
}

// Money is tallied of those jobs alone whose money teaches, in one currency.
func TestMoneyByLearnedSubsystem(t *testing.T) {
	s, _ := workedStory(t, hoursOn("work:gearbox@gearbox:overhaul", "x", 12, 100), hoursOn("", "Gearbox out", 4, 100))
	s.Handover = &Handover{Taught: &Taught{Last: &ScopeHeld{}}}
	silent := *s
	silent.Handover = &Handover{Taught: &Taught{NoMoney: "too little"}}
	got := MoneyTallyUp([]Story{*s, silent, *s, {}}, "USD")
	require.Equal(t, []MoneyTally{{"", 2, dollars(400), dollars(800), 2}, {"gearbox", 2, dollars(2800), dollars(2400), 2400.0 / 2800}}, got)
	require.Empty(t, MoneyTallyUp([]Story{*s}, "EUR"))
}
