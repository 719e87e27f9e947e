package steering

import (
	"testing"

	"github.com/fettle-tools/fettle/core"
	"github.com/stretchr/testify/require"
)

func toeLines(rear, front float64) []core.Finding {
	f, g := found("toe", "", "toe-in", in(rear)), found("toe", "", "toe-in", in(front))
	f.Station, f.ID, g.Station, g.ID = "rear", "rear", "front", "front"
	return []core.Finding{f, g}
}

// Lines 54.2500 and 54.0625 apart are .1875 in toe-in, at 1.5 times .125 (49 CFR 570.7(d)); to the middle of the range the rod
// changes .0280 in, .448 turn of one end at 16 threads. Worked example of the trade, common practice.
func TestToeToBeSet(t *testing.T) {
	a := assess(t, toeLines(54.25, 54.0625)...)
	c := a.condition(toe)
	require.Equal(t, core.NearLimit, c.Grade)
	require.InDelta(t, 1, *c.Wear, 1e-6)
	require.Contains(t, a.words(toe), "to toe-in 0.0625 in: track rod shortened if it runs behind the axle, lengthened if before it, by 0.0280 in, 0.45 turn of one end or 0.22 turn of a sleeve threaded both ways")
}

func TestToeOut(t *testing.T) {
	a := assess(t, toeLines(54.0, 54.05)...)
	require.Equal(t, core.TooTight, a.condition(toe).Grade)
	now, _ := a.open(toe)
	require.Equal(t, []string{"set"}, now)
	require.Contains(t, a.words(toe), "lengthened if it runs behind the axle")
}

func TestToeRight(t *testing.T) {
	a := assess(t, toeLines(54.10, 54.04)...)
	require.Equal(t, core.WithinNew, a.condition(toe).Grade)
	require.NotContains(t, a.words(toe), "track rod")
}
