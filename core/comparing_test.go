package core_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// requireComparison makes sure that the lines that differ add up to what the totals differ by.
func requireComparison(t *testing.T, was, now core.Plan) core.Comparison {
	t.Helper()
	c := core.Compare(was, now)
	more := int64(0)
	for _, l := range c.Lines {
		require.Equal(t, core.Minor(l.Now)-core.Minor(l.Was), core.Minor(l.More), l.ID)
		require.NotZero(t, core.Minor(l.More), l.ID)
		more += core.Minor(l.More)
	}
	require.Equal(t, core.Minor(now.WorkOrder.TotalBeforeTax)-core.Minor(was.WorkOrder.TotalBeforeTax), more)
	require.Equal(t, more, core.Minor(c.Sums[0].More))
	return c
}

func TestThePlanComparedWithItselfDiffersInNothing(t *testing.T) {
	p := plan(t, request(), box())
	c := requireComparison(t, p, plan(t, request(), box()))
	require.Empty(t, c.Lines)
	require.Empty(t, c.Choices)
}

// An hour at 100 instead of 85: 15 more for each of the expected hours, and nothing else.
func TestARateComparedChangesTheLabourAlone(t *testing.T) {
	dear := request()
	hour, err := core.NewMoney("100", "USD")
	require.NoError(t, err)
	dear.Terms.Rates = []core.Rate{{Skill: "mechanic", Hour: hour}}
	was, now := plan(t, request(), box()), plan(t, dear, box())
	c := requireComparison(t, was, now)
	require.Empty(t, c.Choices)
	require.InDelta(t, 1500*was.WorkOrder.HoursExpected, float64(core.Minor(c.Sums[0].More)), float64(len(c.Lines)))
	require.Greater(t, core.Minor(c.Sums[3].More), int64(0), "P80 rises too")
}

// The ring's own remedy fixed: the ring is decided otherwise, and the line of its own work is new.
func TestAFixedRemedyComparedIsNamed(t *testing.T) {
	pinned := request()
	pinned.Job.Pins = []core.Pin{{Place: core.Place{Subsystem: "box", Unit: "box", Target: core.Target{Part: "ring"}}, Remedy: "ring-alone"}}
	c := requireComparison(t, plan(t, request(), box()), plan(t, pinned, box()))
	require.Len(t, c.Choices, 1)
	require.Equal(t, "ring", c.Choices[0].Part)
	require.Equal(t, "replace: overhaul", c.Choices[0].Was)
	require.Equal(t, "replace: ring-alone", c.Choices[0].Now)
	require.Len(t, c.Lines, 1)
	require.Equal(t, "50.00", c.Lines[0].More.Number())
	require.True(t, c.Lines[0].Was.IsZero())
}

// The gear left as it is costs nothing and differs in no line: what it risks is said, and when it is done.
func TestWhatIsLeftComparedShowsItsRisk(t *testing.T) {
	left := request()
	left.Job.Left = []core.Left{{Place: core.Place{Subsystem: "box", Unit: "box", Target: core.Target{Part: "gear"}}, Reason: "next winter", By: "A. Otter"}}
	was, now := plan(t, request(), box()), plan(t, left, box())
	c := requireComparison(t, was, now)
	require.Empty(t, c.Lines)
	require.Len(t, c.Choices, 1)
	risk := c.Sums[4]
	require.Equal(t, "risk of doing it again", risk.Name)
	require.Equal(t, "1004.25", risk.Now.Number(), "to open, 684.25, and the pair, 320: it is sure to fail")
	require.Equal(t, "30.13", risk.Was.Number(), "within new: 3 in 100")
	require.Equal(t, "974.12", risk.More.Number())
	require.Nil(t, c.Weeks)
	was.Finish, now.Finish = &core.Finish{P80: 7}, &core.Finish{P80: 9}
	require.Equal(t, []float64{7, 9}, core.Compare(was, now).Weeks)
	require.Len(t, core.Compare(core.Plan{WorkOrder: was.WorkOrder}, now).Sums, 4, "a scope that was issued keeps no risk")
}

// What was held in reserve for a piece of work and the work itself are one line.
func TestAReserveThatBecomesWorkIsOneLine(t *testing.T) {
	order := func(kind core.LineKind, cents int64) core.Plan {
		m := core.MinorMoney(cents, "USD")
		return core.Plan{WorkOrder: core.WorkOrder{TotalBeforeTax: m, Lines: []core.Line{{ID: string(kind) + ":box:overhaul", Kind: kind, Name: "Overhaul", Amount: m}}}}
	}
	c := requireComparison(t, order(core.LineReserve, 12_000), order(core.LineWork, 40_000))
	require.Len(t, c.Lines, 1)
	require.Equal(t, "work:box:overhaul", c.Lines[0].ID)
	require.Equal(t, "280.00", c.Lines[0].More.Number())
}
