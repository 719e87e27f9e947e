package core_test

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// unseenGear is a box whose gear was not seen: a row of the register is its chance.
func unseenGear() fake {
	b := box()
	states := []core.State{{Chance: .7, Grade: core.WornFit, Remedies: []string{"reuse", "pair"}}, {Chance: .3, Grade: core.PastLimit, Remedies: []string{"pair"}, RegisterID: "H01"}}
	b.sheet.Hidden = []core.Hidden{{ID: "H01", Name: "Gear worn out", Chance: .3, Parts: []core.Target{{Part: "gear"}}}}
	b.sheet.Parts[2].Outlook = states
	c := &b.answer.Conditions[2]
	c.Grade, c.ReadingsTaken, c.States = core.NotSeen, 0, states
	return b
}

func asText(t *testing.T, p core.Plan) string {
	t.Helper()
	b, err := json.Marshal(p)
	require.NoError(t, err)
	return string(b)
}

// Jobs that taught nothing leave every figure of a plan bit for bit.
func TestNothingLearnedChangesNothing(t *testing.T) {
	before := plan(t, request(), unseenGear())
	req := request()
	req.Learned = core.Learn([]core.Closed{{Job: "J-005"}, {Job: "J-006", Taught: &core.Taught{NoHours: "the job was stopped"}}}, "J-001")
	after := plan(t, req, unseenGear())
	require.Equal(t, 2, after.Learned.Ratio.None)
	require.Empty(t, after.Learned.Rows)
	after.Learned = nil
	require.Equal(t, asText(t, before), asText(t, after))
	require.NotContains(t, asText(t, before), "learned")
}

// The row's chance moves the reserve, by hand (4 x .3 + 3) / (4 + 4) = .525 and after the shown part of this job; the labour ratio moves the range
// alone: the order's lines keep the hours of their sheets.
func TestAPlanUsesWhatWasLearned(t *testing.T) {
	before := plan(t, request(), unseenGear())
	taught := func(number string, hours float64, happened ...string) core.Closed {
		return core.Closed{Job: number, Taught: &core.Taught{Rows: []core.RowsTaught{{Subsystem: "box", Unit: "box", Seen: []string{"H01"}, Happened: happened}},
			Hours: hours, Expected: 10}}
	}
	closed := []core.Closed{taught("J-005", 15, "H01"), taught("J-006", 15, "H01"), taught("J-007", 15, "H01"), taught("J-008", 15)}
	req := request()
	req.Learned = core.Learn(closed, "J-001")
	after := plan(t, req, unseenGear())
	require.Len(t, after.Learned.Rows, 1)
	require.InDelta(t, .525, after.Learned.Rows[0].Here, 1e-12)
	require.Equal(t, .3, after.Learned.Rows[0].Sheet)
	require.Equal(t, after.Learned.Rows, after.Learned.OpenRows())
	seen := unseenGear()
	seen.answer.Conditions[2] = box().answer.Conditions[2]
	settled := plan(t, req, seen)
	require.False(t, settled.Learned.Rows[0].Open, "the gear was seen")
	require.Empty(t, settled.Learned.OpenRows())
	require.InDelta(t, .3, *line(before, "reserve:box@box:pair").Chance, 1e-12)
	require.InDelta(t, .525, *line(after, "reserve:box@box:pair").Chance, 1e-12)
	require.Equal(t, line(before, "strip:box-out").Amount, line(after, "strip:box-out").Amount)
	labourOnly := request()
	labourOnly.Learned = core.Learned{Ratio: req.Learned.Ratio}
	slow := plan(t, labourOnly, unseenGear())
	require.Equal(t, before.Budget.Expected, slow.Budget.Expected)
	require.Greater(t, core.Minor(slow.Budget.P50), core.Minor(before.Budget.P50))
	require.Greater(t, core.Minor(slow.Budget.Contingency), core.Minor(before.Budget.Contingency))

	own := core.Learn([]core.Closed{closed[0]}, "J-005")
	require.Equal(t, core.Learned{}, own, "no job teaches itself")
}
