package paper

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// The appendix says what of closed jobs is in the figures, with the counts behind it; without a closed job it says nothing of them.
func TestScopeSaysWhatClosedJobsTaught(t *testing.T) {
	in := input()
	without := plainText(Scope(in))
	require.NotContains(t, without, "closed job")
	in.Plan.Learned = &core.LearnedHere{Ratio: &core.RatioLearned{Median: 1.124, SD: .17, Jobs: 3, None: 1}, Rows: []core.RowHere{
		{RowLearned: core.RowLearned{Subsystem: "cylinders", Row: "H09", Seen: 5, Happened: 2, Jobs: 5}, Name: "Sleeves needed", Sheet: .15, Here: 2.6 / 9, Open: true},
		{RowLearned: core.RowLearned{Subsystem: "gearbox", Row: "H18", Seen: 5, Happened: 2, Jobs: 5}, Name: "Chipped first gear", Sheet: .3, Here: .3}}}
	text := strings.Join(strings.Fields(plainText(Scope(in))), " ")
	require.Contains(t, text, "Labour ratio, actual over expected hours: 1.12 from 3 closed jobs. 1 job more had no hours to go by.")
	require.Contains(t, text, "Sleeves needed")
	require.NotContains(t, text, "Chipped first gear", "this job has settled it")
	require.Regexp(t, `15%.*29%.*on 2 of 5 units in 5 jobs`, text)
	in.Plan.Learned = &core.LearnedHere{Ratio: &core.RatioLearned{Median: 1, SD: .15, None: 2}}
	require.Contains(t, plainText(Scope(in)), "No closed job has hours to go by yet")
}
