package core_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// Only what is open whatever the part turns out to be can be fixed: a pin that might not hold is none.
func TestAPinIsOpenInEveryState(t *testing.T) {
	at := core.Target{Part: "bush", Position: "1"}
	us := core.UnitSheet{Assessment: core.Assessment{
		Conditions: []core.Condition{{Target: at, States: []core.State{{Remedies: []string{"reuse", "replace", "gone"}}, {Remedies: []string{"replace", "gone"}}}}},
		Remedies: []core.Remedy{{ID: "reuse", Target: at, Feasible: true}, {ID: "replace", Target: at, Feasible: true}, {ID: "gone", Target: at},
			{ID: "replace", Target: core.Target{Part: "bush", Position: "2"}, Feasible: true}},
	}}
	open := us.PinsOpen(at)
	require.Len(t, open, 1)
	require.Equal(t, "replace", open[0].ID)
	require.Equal(t, at, open[0].Target)
	require.Empty(t, us.PinsOpen(core.Target{Part: "bush", Position: "3"}))
}

// Positions that were found and decided alike are one line; what is simply used again and what is always new are counted.
func TestPartsAreToldInLines(t *testing.T) {
	place := func(part, position string) core.Place {
		return core.Place{Subsystem: "gearbox", Unit: "gearbox", Target: core.Target{Part: part, Position: position}}
	}
	worn := []core.Reason{{Check: "wear", Text: "wear .04, limit .03 (a manual): past limit", Source: "a manual"}}
	p := core.Plan{Sheets: []core.UnitSheet{{Subsystem: "gearbox", Unit: "gearbox", Sheet: core.Sheet{Parts: []core.Part{{ID: "bush"}, {ID: "case"}, {ID: "seal", OneUse: true}}}}}}
	add := func(at core.Place, kind core.RemedyKind, c core.Condition, own ...core.Reason) {
		c.Target = at.Target
		p.Conditions = append(p.Conditions, core.UnitCondition{Place: at, PartName: "The " + at.Part, Condition: c})
		p.Choices = append(p.Choices, core.Choice{Place: at, PartName: "The " + at.Part, Kind: kind, Reasons: append(append([]core.Reason{}, c.Reasons...), own...)})
	}
	add(place("bush", "1"), core.Replace, core.Condition{Grade: core.PastLimit, GoverningCheck: "wear", Reasons: worn})
	add(place("bush", "2"), core.Replace, core.Condition{Grade: core.PastLimit, GoverningCheck: "wear", Reasons: worn})
	add(place("bush", "3"), core.Replace, core.Condition{Grade: core.WornFit}, core.Reason{Text: "cheaper while it is open"})
	add(place("bush", "4"), core.Undecided, core.Condition{Grade: core.NotSeen, ReadingsTaken: 1, ReadingsNeeded: 3}, core.Reason{Text: "90 %: reuse"}, core.Reason{Text: "10 %: replace"})
	for i, w := range []float64{1.2, 3, 2} { // each with a reading of its own
		at := []string{"1", "2", "3"}[i]
		add(place("pin", at), core.Rebuild, core.Condition{Grade: core.PastLimit, Wear: &w, GoverningCheck: "d", Reasons: []core.Reason{{Check: "d", Text: "diameter " + at}}})
	}
	add(place("case", ""), core.Reuse, core.Condition{Grade: core.WithinNew})
	add(place("seal", ""), core.Replace, core.Condition{})
	told := p.Tell(p.Sheets[0])
	require.Equal(t, 1, told.Reused)
	require.Equal(t, 1, told.OneUse)
	var lines []string
	for _, x := range told.Parts {
		line := x.Name
		for _, at := range x.Positions() {
			line += " " + at
		}
		lines = append(lines, line+" | "+x.Do+" | "+x.Found+" | "+x.Why)
	}
	require.Equal(t, []string{"The bush 1 2 | replace | past limit | wear .04, limit .03", "The bush 3 | replace | worn, fit | cheaper while it is open",
		"The bush 4 | undecided | not seen 1/3 | 90 %: reuse; 10 %: replace",
		"The pin 1 2 3 | rebuild | past limit | worst is 2: diameter 2"}, lines)
	require.Equal(t, "gearbox/bush/2", p.SheetOf(place("bush", "2")).Subsystem+"/"+p.Condition(place("bush", "2")).Place.Target.String())
	require.Nil(t, p.SheetOf(core.Place{Subsystem: "brakes"}))
}

func TestAnAmountIsReadAsItIsTyped(t *testing.T) {
	for text, want := range map[string]string{"420": "420.00", " 95 000.5 ": "95000.50", "1.005": "1.01"} {
		m, err := core.ReadAmount(text, "USD")
		require.NoError(t, err, text)
		require.Equal(t, want, m.Number())
	}
	for _, text := range []string{"", "lots", "12.5.0"} {
		_, err := core.ReadAmount(text, "USD")
		require.Equal(t, core.Invalid, core.ErrorCode(err), text)
	}
	near := func(number string) string {
		m, err := core.NewMoney(number, "USD")
		require.NoError(t, err)
		return m.Near(5).Number()
	}
	require.Equal(t, []string{"75.00", "80.00", "-80.00", "0.00"}, []string{near("77.49"), near("77.50"), near("-77.50"), near("2.40")})
}

func TestEnoughIsSaid(t *testing.T) {
	for chance, want := range map[float64]string{0: "no trial came to so little: it is not enough", .004: "hardly ever enough", .61: "enough in 61 of 100 such jobs, too little in 39", 1: "it is nearly sure to be enough"} {
		require.Equal(t, want, core.SayEnough(chance))
	}
}
